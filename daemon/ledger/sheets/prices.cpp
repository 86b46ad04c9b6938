#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::PriceNote;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// What one package holds: "500 mL at 1.080", "1.5 kg", "12 pieces".
Text package(const PriceNote& note) {
    std::vector<Text> parts;
    if (note.volume)
        parts.push_back(note.gravity ? text(*note.volume, " at ", *note.gravity)
                                     : text(*note.volume));
    else if (note.gravity)
        parts.push_back(text(*note.gravity));
    if (note.mass)
        parts.push_back(text(*note.mass));
    if (note.pieces)
        parts.push_back(text(sheet::count(*note.pieces, "piece")));
    return listed(parts);
}

} // namespace

sheet::Sheet price_set(const contract::PriceSet::Params&, const PriceNote& note) {
    SheetBuilder made("Price of ", note.item);
    const Text holds = package(note);
    made.lead(note.price, holds.empty() ? text(" a package") : text(" for ", holds),
              note.where ? text(" at ", *note.where) : Text{}, ", seen on ", note.day, ".");
    if (holds.empty())
        made.add(to_put_right(
            "no_package", "What is in the package is not noted, so the price cannot be compared.",
            asking("note it again", "price.set",
                   {{"item", note.item}, {"price", to_text(note.price)}}, {"mass"})));
    made.action(sheet::offer("its prices", "price.list", {{"item", note.item}}, "p"));
    return made.topic("price.");
}

sheet::Sheet price_list(const contract::PriceList::Params& params,
                        const contract::PriceList::Result& result) {
    SheetBuilder made("Prices");
    if (result.prices.empty())
        made.lead("No price is noted.");
    else
        made.lead(sheet::count(static_cast<std::int64_t>(result.prices.size()), "price"),
                  " noted, newest first for each item.");
    sheet::Table table;
    table.columns = {sheet::column("item"), sheet::column("price", sheet::Align::right),
                     sheet::column("for", sheet::Align::right),
                     sheet::column("at", sheet::Align::left, 2),
                     sheet::column("seen", sheet::Align::left, 3)};
    for (const PriceNote& note : result.prices)
        table.rows.push_back(
            sheet::row(note.item, note.price, package(note), note.where.value_or(""), note.day));
    made.table(std::move(table));
    offer_next(made, "price.list", params, result.next);
    made.action(asking("note a price", "price.set", {}, {"item", "price"}, "p"));
    return made.topic("price.");
}

} // namespace barmkeep::ledger::sheets
