#include "daemon/ledger/sheets/parts.hpp"

#include "sdk/contract/shelf.hpp"

namespace barmkeep::ledger::sheets {

using contract::Category;
using sheet::SheetBuilder;
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

Category category_of(const LotCode& lot) {
    for (const auto& [category, word] : enum_names(Category{}))
        if (contract::lot_letter(category) == lot.letter())
            return category;
    return Category::other;
}

/// Whether sealed food lost its place on the shelf to its best-by day.
bool is_past(const contract::Lot& lot, std::optional<Date> today) {
    if (!contract::is_sealed_food(lot.category))
        return false;
    if (today)
        return is_past_best_by(lot, *today);
    return lot.available.steps < lot.on_hand.steps - lot.reserved.steps;
}

/// What may be done with what is kept cold: boiled and used by its day, or nothing at all.
Text cold_words(const contract::Lot& lot, std::optional<Date> today) {
    Text words = text("kept in the ", to_string(lot.kept));
    if (!today && lot.best_by &&
        is_usable_chilled(lot, *lot.best_by)) // which day it is, the reader knows
        return text(words, ": boil it and use it by ", *lot.best_by,
                    "; after that day throw it out");
    if (!today)
        return words;
    if (lot.best_by && is_usable_chilled(lot, *today))
        return text(words, ": boil it and use it by ", *lot.best_by);
    if (lot.best_by && today && *lot.best_by < *today)
        return text(words, " until ", *lot.best_by, ": throw it out");
    return words;
}

} // namespace

sheet::Run amount_of(Category category, const Amount& amount) {
    if (amount.measure != Measure::pieces)
        return amount;
    return sheet::count(amount.steps, std::string(noun_of(category)));
}

sheet::Run amount_of(const LotCode& lot, const Amount& amount) {
    return amount_of(category_of(lot), amount);
}

std::string_view words_of(Category category) {
    switch (category) {
    case Category::extract:
        return "malt extract";
    case Category::glass:
        return "empty jars";
    case Category::concentrate:
        return "jars of wort";
    case Category::bought_can:
        return "bought cans";
    default:
        return to_string(category);
    }
}

std::string numbered(std::string_view what, std::int64_t number) {
    return std::string(what) + " " + std::to_string(number);
}

Text reason_against(const contract::Lot& lot, std::optional<Date> today) {
    std::vector<Text> reasons;
    for (const contract::Hold& hold : lot.holds)
        reasons.push_back(hold.kind == contract::HoldKind::quarantine // its note says why
                              ? text("in quarantine, ", hold.note)
                              : text(meaning_of(hold.kind)));
    const bool is_cold =
        contract::is_sealed_food(lot.category) && lot.kept != contract::Keeping::shelf;
    if (reasons.empty() && is_cold)
        reasons.push_back("it never stood on the shelf");
    if (reasons.empty() && is_past(lot, today))
        reasons.push_back(lot.best_by ? text("past its best-by day, ", *lot.best_by)
                                      : text("past its best-by day"));
    Text all = listed(reasons);
    if (!all.empty() && lot.kept != contract::Keeping::shelf)
        all.append("; ").append(cold_words(lot, today));
    return all;
}

std::vector<Text> not_to_use(const std::vector<contract::Shelf>& shelves,
                             std::optional<Date> today) {
    // Lots with the same reason share a line.
    std::vector<std::pair<Text, std::vector<Text>>> all;
    for (const contract::Shelf& shelf : shelves)
        for (const contract::Lot& lot : shelf.lots) {
            const Text reason = lot.on_hand.steps > 0 ? reason_against(lot, today) : Text{};
            if (reason.empty())
                continue;
            auto at = std::find_if(all.begin(), all.end(),
                                   [&](const auto& one) { return one.first == reason; });
            if (at == all.end())
                at = all.insert(all.end(), {reason, {}});
            at->second.push_back(text(lot.code, " ", amount_of(lot.category, lot.on_hand)));
        }
    std::vector<Text> lines;
    for (const auto& [reason, lots] : all)
        lines.push_back(text(listed(lots), ": ", reason));
    return lines;
}

std::vector<std::string> to_be_said(const contract::Lot& lot) {
    std::vector<std::string> said;
    if (lot.facts.process_note)
        said.push_back("its process is " + *lot.facts.process_note);
    for (const contract::Hold& hold : lot.released)
        said.push_back(std::string(meaning_of(hold.kind)) + "; " +
                       hold.ended_by.value_or("someone") +
                       " released it: " + hold.end_reason.value_or(hold.note));
    return said;
}

void warn_of_lots(SheetBuilder& made, const std::vector<contract::Shelf>& shelves) {
    std::vector<std::pair<std::string, std::vector<Text>>> all;
    for (const contract::Shelf& shelf : shelves)
        for (const contract::Lot& lot : shelf.lots) {
            if (lot.on_hand.steps == 0)
                continue;
            for (const std::string& said : to_be_said(lot)) {
                auto at = std::find_if(all.begin(), all.end(),
                                       [&](const auto& one) { return one.first == said; });
                if (at == all.end())
                    at = all.insert(all.end(), {said, {}});
                at->second.push_back(text(lot.code));
            }
        }
    for (const auto& [said, lots] : all)
        made.warning("lot_to_be_said", listed(lots), ": ", said, ".");
}

std::vector<Text> in_order(const contract::Shelf& shelf) {
    std::vector<Text> lots;
    for (const contract::Lot& lot : shelf.lots)
        if (lot.available.steps > 0) {
            lots.push_back(text(lot.code, " ", amount_of(lot.category, lot.available)));
            if (lot.best_by)
                lots.back().append(", best by ").append(*lot.best_by);
        }
    return lots;
}

Text beer(const contract::Brew& brew) {
    Text words = text(brew.name);
    if (brew.volume)
        words.append(", ").append(*brew.volume);
    if (brew.gravity)
        words.append(brew.volume ? " at " : ", ").append(*brew.gravity);
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

std::vector<sheet::Fact> facts_of(const contract::Facts& facts) {
    std::vector<sheet::Fact> all;
    const auto add = [&](std::string label, const auto& value) {
        if (value)
            all.push_back({std::move(label), text(*value)});
    };
    add("extract potential", facts.potential);
    if (facts.solids)
        all.push_back({"dry solids", text(sheet::share(*facts.solids))});
    add("gravity", facts.gravity);
    add("liquid in each", facts.fill);
    add("extract in each", facts.extract);
    add("jar size", facts.jar);
    add("cells when packed", facts.cells);
    add("strain", facts.strain);
    if (facts.form)
        all.push_back({"form", text(to_string(*facts.form))});
    return all;
}

void warn_of_gaps(SheetBuilder& made, const contract::Cellar& cellar) {
    if (!cellar.altitude)
        made.add(to_put_right("no_altitude", "The altitude is not set. Canning needs it.",
                              asking("set the altitude", "cellar.set", {}, {"altitude"})));
    if (cellar.currency == contract::no_currency)
        made.add(to_put_right("no_currency", "The currency is not set. Sums are shown without one.",
                              asking("set the currency", "cellar.set", {}, {"currency"})));
}

sheet::Action asking(std::string label, std::string method, json::object params,
                     std::vector<std::string> ask, std::string letter) {
    sheet::Action action =
        sheet::offer(std::move(label), std::move(method), std::move(params), std::move(letter));
    action.ask = std::move(ask);
    return action;
}

sheet::Warning to_put_right(std::string key, Text text, sheet::Action action) {
    return {std::move(text), std::move(key), sheet::Severity::warning, std::move(action)};
}

sheet::Action undoing(std::int64_t entry, std::string_view kind) {
    sheet::Action action =
        asking("undo it", "entry.undo", {{"entry", entry}, {"kind", kind}}, {"reason"}, "u");
    action.confirm = true;
    return action;
}

void follow(SheetBuilder& made, std::initializer_list<std::string_view> topics) {
    for (const std::string_view topic : topics)
        made.topic(std::string(topic));
}

} // namespace barmkeep::ledger::sheets
