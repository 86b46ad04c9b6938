#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/goods.hpp"
#include "daemon/ledger/limits.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/contract/price.hpp"

namespace barmkeep::ledger {
namespace {

using contract::PriceNote;

PriceNote read_note(const Row& row) {
    PriceNote note;
    std::string place;
    take_row(row, note.item, place, note.price, note.day, note.volume, note.gravity, note.mass,
             note.pieces);
    if (!place.empty())
        note.where = place;
    return note;
}

PriceNote set(Transaction& transaction, const Call&, const contract::PriceSet::Params& params) {
    check_money(params.price, "/price");
    PriceNote note;
    // A good of the cellar goes by its own spelling, so that its prices are found together.
    const auto good = find_good(transaction, params.item);
    note.item = good ? good->good.name : params.item;
    note.price = params.price;
    note.where = params.where;
    note.day = day_or_today(transaction, params.day, "/day");
    note.volume = params.volume;
    note.gravity = params.gravity;
    note.mass = params.mass;
    note.pieces = params.pieces;
    transaction.run("INSERT OR REPLACE INTO price (item, place, price, day, volume, gravity, mass, "
                    "pieces) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                    note.item, note.where.value_or(""), note.price, note.day, note.volume,
                    note.gravity, note.mass, note.pieces);
    transaction.event(contract::Topic::price_changed, {{"item", note.item}});
    return note;
}

contract::PriceList::Result list(const View& view, const Call&,
                                 const contract::PriceList::Params& params) {
    const auto [item, day, place] = place_after<contract::PriceList, 3>(params);
    contract::PriceList::Result result;
    result.prices =
        view.all("SELECT item, place, price, day, volume, gravity, mass, pieces FROM price "
                 "WHERE (?1 IS NULL OR item = ?1) AND (?2 IS NULL OR item > ?2 OR "
                 "(item = ?2 AND (day < ?3 OR (day = ?3 AND place > ?4)))) "
                 "ORDER BY item, day DESC, place LIMIT ?5",
                 read_note, params.item, item, day, place, params.limit + 1);
    result.next = cut_page<contract::PriceList>(params, result.prices, [](const PriceNote& last) {
        return Place<3>{last.item, to_text(last.day), last.where.value_or("")};
    });
    return result;
}

} // namespace

void add_prices(Methods& methods) {
    methods.writes<contract::PriceSet>(&set);
    methods.reads<contract::PriceList>(&list);
}

} // namespace barmkeep::ledger
