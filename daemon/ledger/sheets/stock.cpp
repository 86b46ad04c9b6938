#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

bool is_answered_by(const contract::Shelf& shelf, std::size_t shelves) {
    return contract::is_sealed_food(shelf.category) || shelves == 1;
}

/// "7 jars of pint of wort": what is ready to use, of jars first, or of the one good shown.
Text ready(const std::vector<contract::Shelf>& shelves) {
    std::vector<Text> parts;
    for (const contract::Shelf& shelf : shelves)
        if (is_answered_by(shelf, shelves.size()) && shelf.available.steps > 0)
            parts.push_back(text(amount_of(shelf.category, shelf.available), " of ", shelf.good));
    return listed(parts);
}

/// What to take first of what the lead names.
void add_order(SheetBuilder& made, const std::vector<contract::Shelf>& shelves) {
    std::vector<Text> lines;
    for (const contract::Shelf& shelf : shelves)
        if (is_answered_by(shelf, shelves.size()))
            for (Text& lot : in_order(shelf))
                lines.push_back(std::move(lot));
    made.lines(std::move(lines), "Take in this order");
}

/// One row for each good with something on hand: what is available, what to take first.
sheet::Table goods_table(const std::vector<contract::Shelf>& shelves) {
    sheet::Table table;
    table.columns = {column("good"),
                     column("available", Align::right),
                     column("reserved", Align::right, 3),
                     column("take first", Align::left, 2),
                     column("best by", Align::left, 2),
                     column("cost", Align::right, 4)};
    for (const contract::Shelf& shelf : shelves) {
        if (shelf.on_hand.steps == 0)
            continue;
        const auto first = std::find_if(shelf.lots.begin(), shelf.lots.end(),
                                        [](const auto& lot) { return lot.available.steps > 0; });
        const bool is_any = first != shelf.lots.end();
        table.rows.push_back(sheet::row(
            shelf.good,
            shelf.available.steps > 0 ? text(amount_of(shelf.category, shelf.available)) : "none",
            shelf.reserved.steps > 0 ? text(amount_of(shelf.category, shelf.reserved)) : Text{},
            is_any ? text(first->code) : Text{},
            is_any && first->best_by ? text(*first->best_by) : Text{}, shelf.value));
    }
    return table;
}

sheet::Table lots_table(const contract::Shelf& shelf, bool with_empty) {
    sheet::Table table;
    table.title = text("Lots of ", shelf.good);
    table.columns = {column("lot"),
                     column("available", Align::right),
                     column("reserved", Align::right, 3),
                     column("best by"),
                     column("bought", Align::left, 4),
                     column("from", Align::left, 5),
                     column("cost", Align::right, 3)};
    for (const contract::Lot& lot : shelf.lots) {
        if (lot.available.steps <= 0 && lot.reserved.steps <= 0 && !with_empty)
            continue;
        // What may not be used has its own lines, with the reason.
        const bool is_ready = lot.available.steps > 0;
        const Text none = lot.on_hand.steps == 0 ? "used up" : "none";
        table.rows.push_back(sheet::row(
            lot.code, is_ready ? text(amount_of(lot.category, lot.available)) : none,
            lot.reserved.steps > 0 ? text(amount_of(lot.category, lot.reserved)) : Text{},
            lot.best_by ? text(*lot.best_by) : Text{}, lot.bought ? text(*lot.bought) : Text{},
            lot.supplier.value_or(""), lot.value));
    }
    return table;
}

Text lead_of(const contract::StockList::Params& params, const contract::StockList::Result& result) {
    if (result.shelves.empty())
        return params.good || params.category ? "There is nothing of it." : "The shelf is empty.";
    if (const Text words = ready(result.shelves); !words.empty())
        return text("You can use ", words, ".");
    if (result.shelves.size() == 1)
        return text("Nothing of ", result.shelves.front().good, " is ready to use.");
    return text(sheet::count(static_cast<std::int64_t>(result.shelves.size()), "good"),
                " in stock; no jars are ready to use.");
}

} // namespace

sheet::Sheet stock(const contract::StockList::Params& params,
                   const contract::StockList::Result& result) {
    SheetBuilder made("Stock");
    made.lead(lead_of(params, result));
    const bool is_one = result.shelves.size() == 1;
    if (!is_one)
        add_order(made, result.shelves);
    made.lines(not_to_use(result.shelves, std::nullopt), "Not to use");
    warn_of_lots(made, result.shelves);
    made.table(is_one ? lots_table(result.shelves.front(), params.all)
                      : goods_table(result.shelves));
    if (params.all && !is_one)
        for (const contract::Shelf& shelf : result.shelves)
            made.more(text("Lots of ", shelf.good), SheetBuilder().table(lots_table(shelf, true)));
    if (result.value.millionths != 0)
        made.note("All together cost ", result.value, ".");
    made.action(asking("buy", "stock.buy", {}, {"good", "amount", "paid"}, "b"));
    if (!is_one && !result.shelves.empty())
        made.action(asking("show one good", "stock.list", {}, {"good"}, "g"));
    follow(made, {"lot.", "entry.", "good.", "brew.", "day."});
    return made;
}

} // namespace barmkeep::ledger::sheets
