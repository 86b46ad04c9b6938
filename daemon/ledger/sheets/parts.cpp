#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/contract/shelf.hpp"

namespace barmkeep::ledger::sheets {

using contract::Category;
using sheet::Text;
using sheet::text;

namespace {

std::string_view noun_of(Category category) {
    switch (category) {
    case Category::concentrate:
    case Category::glass:
        return "jar";
    case Category::yeast:
        return "pack";
    case Category::lids:
        return "lid";
    case Category::bought_can:
        return "can";
    default:
        return "piece";
    }
}

/// Why nothing of a lot may be taken, or an empty text.
Text reason_against(const contract::Lot& lot, std::optional<Date> today) {
    std::vector<Text> reasons;
    for (const contract::Hold& hold : lot.holds)
        reasons.push_back(text(meaning_of(hold.kind)));
    if (reasons.empty() && today && is_past_best_by(lot, *today))
        reasons.push_back(text("past its best-by day, ", *lot.best_by));
    Text all = listed(reasons);
    if (!all.empty() && lot.kept != contract::Keeping::shelf) {
        all.append("; kept in the ").append(to_string(lot.kept));
        if (lot.best_by)
            all.append(" until ").append(*lot.best_by);
    }
    return all;
}

} // namespace

sheet::Run amount_of(Category category, const Amount& amount) {
    if (amount.measure != Measure::pieces)
        return amount;
    return sheet::count(amount.steps, std::string(noun_of(category)));
}

std::vector<Text> not_to_use(const std::vector<contract::Shelf>& shelves,
                             std::optional<Date> today) {
    std::vector<Text> lines;
    for (const contract::Shelf& shelf : shelves)
        for (const contract::Lot& lot : shelf.lots)
            if (lot.on_hand.steps > 0)
                if (const Text reason = reason_against(lot, today); !reason.empty())
                    lines.push_back(text(lot.code, " ", amount_of(lot.category, lot.on_hand),
                                         " of ", lot.good, ": ", reason));
    return lines;
}

sheet::Table shelf_table(const std::vector<contract::Shelf>& shelves) {
    using sheet::Align;
    using sheet::column;
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
        Text first;
        Text best_by;
        for (const contract::Lot& lot : shelf.lots)
            if (first.empty() && lot.available.steps > 0) {
                first = text(lot.code);
                if (lot.best_by)
                    best_by = text(*lot.best_by);
            }
        table.rows.push_back(sheet::row(shelf.good, shelf.available,
                                        shelf.reserved.steps > 0 ? text(shelf.reserved) : Text{},
                                        first, best_by, shelf.value));
    }
    return table;
}

Text beer(const contract::Brew& brew) {
    Text words = text(brew.name);
    if (brew.volume)
        words.append(", ").append(*brew.volume);
    if (brew.gravity)
        words.append(" at ").append(*brew.gravity);
    return words;
}

sheet::Table changes_table(const std::vector<contract::Line>& lines) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table;
    table.columns = {column("lot"), column("good"), column("change", Align::right),
                     column("value", Align::right, 2)};
    for (const contract::Line& line : lines)
        table.rows.push_back(sheet::row(line.lot, line.good, line.quantity, line.value));
    return table;
}

} // namespace barmkeep::ledger::sheets
