#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// "7 jars of pint of concentrate": what is ready to use, of jars first, or of the one good shown.
Text ready(const std::vector<contract::Shelf>& shelves) {
    std::vector<Text> parts;
    for (const contract::Shelf& shelf : shelves)
        if (shelf.category == contract::Category::concentrate || shelves.size() == 1)
            parts.push_back(text(amount_of(shelf.category, shelf.available), " of ", shelf.good));
    return listed(parts);
}

sheet::Table lots_table(const contract::Shelf& shelf) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table;
    table.title = text("Lots of ", shelf.good);
    table.columns = {column("lot"),
                     column("available", Align::right),
                     column("reserved", Align::right, 3),
                     column("best by"),
                     column("bought", Align::left, 4),
                     column("from", Align::left, 5),
                     column("cost", Align::right, 3)};
    for (const contract::Lot& lot : shelf.lots)
        if (lot.available.steps > 0 || lot.reserved.steps > 0)
            table.rows.push_back(sheet::row(
                lot.code, lot.available, lot.reserved.steps > 0 ? text(lot.reserved) : Text{},
                lot.best_by ? text(*lot.best_by) : Text{}, lot.bought ? text(*lot.bought) : Text{},
                lot.supplier.value_or(""), lot.value));
    return table;
}

} // namespace

sheet::Sheet stock(const contract::StockList::Params& params,
                   const contract::StockList::Result& result) {
    SheetBuilder made("Stock");
    if (result.shelves.empty()) {
        made.lead(params.good || params.category ? "There is nothing of it."
                                                 : "The shelf is empty.");
    } else if (Text words = ready(result.shelves); !words.empty()) {
        made.lead("You can use ", words, ".");
    } else {
        made.lead(sheet::count(static_cast<std::int64_t>(result.shelves.size()), "good"),
                  " in stock, worth ", result.value, ".");
    }
    made.table(shelf_table(result.shelves));
    made.lines(not_to_use(result.shelves, std::nullopt), text("Not to use"));
    if (result.shelves.size() == 1)
        made.table(lots_table(result.shelves.front()));
    else
        made.note("All together cost ", result.value,
                  ". One good lot by lot: ", sheet::command("stock.list", {{"good", "GOOD"}}));
    made.action(
        {.label = "buy", .method = "stock.buy", .ask = {"good", "amount", "paid"}, .letter = "b"});
    return made.topic("lot.").topic("entry.").topic("good.").topic("brew.");
}

} // namespace barmkeep::ledger::sheets
