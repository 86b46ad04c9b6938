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
    return {view.all("SELECT item, place, price, day, volume, gravity, mass, pieces FROM price "
                     "WHERE ?1 IS NULL OR item = ?1 ORDER BY item, day DESC, place",
                     read_note, params.item)};
}

} // namespace

void add_prices(Methods& methods) {
    methods.writes<contract::PriceSet>(&set);
    methods.reads<contract::PriceList>(&list);
}

} // namespace barmkeep::ledger
