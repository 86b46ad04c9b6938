#include "daemon/ledger/shelf.hpp"

#include "daemon/ledger/lots.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

contract::Shelf empty_shelf(const contract::Good& good) {
    contract::Shelf shelf;
    shelf.good = good.name;
    shelf.category = good.category;
    shelf.on_hand.measure = shelf.reserved.measure = shelf.available.measure = good.measure;
    return shelf;
}

/// Only what is stock dates the shelf.
void put(contract::Shelf& shelf, LotRow known, Date today) {
    contract::Lot& lot = known.lot;
    const auto add = [](Amount& sum, const Amount& more) {
        sum = {add_checked(sum.steps, more.steps), more.measure};
    };
    add(shelf.on_hand, lot.on_hand);
    add(shelf.reserved, lot.reserved);
    add(shelf.available, lot.available);
    shelf.value = add_checked(shelf.value, lot.value);
    if (lot.best_by && standing_on(lot, today) == contract::Standing::stock &&
        (!shelf.best_by || *lot.best_by < *shelf.best_by))
        shelf.best_by = lot.best_by;
    shelf.lots.push_back(std::move(lot));
}

std::vector<contract::Good> goods_with_name(const View& view) {
    return view.all("SELECT name, class, measure FROM good ORDER BY name", [](const Row& row) {
        contract::Good good;
        take_row(row, good.name, good.category, good.measure);
        return good;
    });
}

} // namespace

contract::StockList::Result list_stock(const View& view, const Call&,
                                       const contract::StockList::Params& params) {
    std::optional<GoodRow> only;
    if (params.good)
        only = require_good(view, *params.good, "/good");
    std::map<std::string, std::vector<LotRow>> lots;
    for (auto& known :
         only ? lots_of_good(view, only->number, params.all) : lots_of_all(view, params.all))
        lots[known.lot.good].push_back(std::move(known));

    contract::StockList::Result result;
    for (const auto& good : goods_with_name(view)) {
        const bool is_asked_for =
            only ? only->good.name == good.name : params.all || lots.count(good.name) != 0;
        if (!is_asked_for || (params.category && *params.category != good.category))
            continue;
        contract::Shelf shelf = empty_shelf(good);
        for (auto& known : lots[good.name])
            put(shelf, std::move(known), view.today());
        result.value = add_checked(result.value, shelf.value);
        result.shelves.push_back(std::move(shelf));
    }
    return result;
}

} // namespace barmkeep::ledger
