// What happens to stock: bought, used, discarded, recounted, converted.
#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/contract/safety.hpp"

namespace barmkeep::ledger::sheets {

using contract::Category;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

Amount without_sign(const Amount& amount) {
    return {std::abs(amount.steps), amount.measure};
}

/// "2 jars of J10N and 1 jar of J16B": what lines took, or what they added.
Text moved(const std::vector<contract::Line>& lines, bool taken) {
    std::vector<Text> parts;
    for (const contract::Line& line : lines)
        if (line.quantity.steps != 0 && (line.quantity.steps < 0) == taken)
            parts.push_back(
                text(amount_of(line.lot, without_sign(line.quantity)), " of ", line.lot));
    return listed(parts);
}

bool is_sealed(const LotCode& lot) {
    return lot.letter() == contract::lot_letter(Category::concentrate) ||
           lot.letter() == contract::lot_letter(Category::bought_can);
}

/// Where a code is written, so that it is found again.
Text mark(const contract::Lot& lot) {
    switch (lot.category) {
    case Category::extract:
    case Category::nutrient:
        return text("write ", lot.code, " on the bag");
    case Category::yeast:
        return text("write ", lot.code, " on each pack");
    case Category::lids:
    case Category::glass:
        return text("write ", lot.code, " on the box");
    case Category::concentrate:
        return text("write ", lot.code, " on each lid");
    case Category::bought_can:
        return text("write ", lot.code, " on each can");
    case Category::other:
        break;
    }
    return text("write ", lot.code, " on it");
}

void add_swept(SheetBuilder& made, const std::vector<contract::Swept>& swept) {
    for (const contract::Swept& rest : swept)
        made.note("The rest of ", rest.lot, ", ", rest.amount,
                  ", went with it: it is below one step of the scale.");
}

/// What was posted, folded away, and the way back.
void finish(SheetBuilder& made, std::int64_t entry, const std::vector<contract::Line>& lines,
            std::string_view kind) {
    made.more(text("Journal ", numbered("entry", entry)),
              SheetBuilder().table(changes_table(lines)));
    made.action(undoing(entry, kind));
    follow(made, {"lot.", "entry.", "brew."});
}

void add_despite(SheetBuilder& made, const std::vector<contract::UsedDespite>& despite) {
    for (const contract::UsedDespite& one : despite)
        made.warning("used_despite_hold", one.lot, " was on hold: ", meaning_of(one.hold.kind),
                     ". ", one.hold.ended_by.value_or("Someone"),
                     " released it: ", one.hold.end_reason.value_or(one.hold.note), ".");
}

/// A new lot that may not be used yet, with how its hold ends.
void add_hold(SheetBuilder& made, const contract::Lot& lot) {
    const Text reason = reason_against(lot, std::nullopt);
    if (reason.empty())
        return;
    const bool is_vouched = std::any_of(lot.holds.begin(), lot.holds.end(), [](const auto& hold) {
        return end_of(hold.kind) == contract::HoldEnd::by_process;
    });
    const std::string code = to_text(lot.code);
    made.add(to_put_right("on_hold", text("Do not use ", lot.code, ": ", reason, "."),
                          is_vouched ? asking("state the process", "lot.vouch", {{"lot", code}},
                                              {"process", "canned", "confirm"})
                                     : sheet::offer("show it", "lot.show", {{"lot", code}})));
}

/// A date that later answers need and nobody gave.
void add_missing_date(SheetBuilder& made, const contract::Lot& lot) {
    const bool is_pack = lot.category == Category::yeast;
    if (is_pack && !lot.packed)
        made.add(to_put_right(
            "no_packed_day",
            "The day it was packed is not set: how much yeast still lives "
            "depends on it.",
            asking("set it", "lot.change", {{"lot", to_text(lot.code)}}, {"packed", "reason"})));
    else if ((is_pack || lot.category == Category::bought_can) && !lot.best_by)
        made.add(to_put_right(
            "no_best_by", "No best-by day is set, so it is taken last.",
            asking("set it", "lot.change", {{"lot", to_text(lot.code)}}, {"best_by", "reason"})));
}

} // namespace

sheet::Sheet bought(const contract::StockBuy::Params& params,
                    const contract::StockBuy::Result& result) {
    const contract::Lot& lot = result.lot;
    SheetBuilder made("Bought");
    made.lead("Lot ", lot.code, ": ", amount_of(lot.category, lot.on_hand), " of ", lot.good,
              " for ", params.paid, "; ", mark(lot), ".");
    add_hold(made, lot);
    add_missing_date(made, lot);
    for (const std::string& said : to_be_said(lot))
        made.warning("lot_to_be_said", lot.code, ": ", said, ".");
    made.facts({{"best by", lot.best_by ? text(*lot.best_by) : Text{}},
                {"packed", lot.packed ? text(*lot.packed) : Text{}},
                {"from", text(lot.supplier.value_or(""))},
                {"reserved for brew days",
                 lot.reserved.steps > 0 ? text(amount_of(lot.category, lot.reserved)) : Text{}}});
    made.action(undoing(result.entry, "bought"));
    made.action(sheet::offer("show the lot", "lot.show", {{"lot", to_text(lot.code)}}, "l"));
    follow(made, {"lot.", "entry."});
    return made;
}

sheet::Sheet used(const contract::StockUse::Params& params, const contract::Posted& result) {
    SheetBuilder made("Used");
    made.lead("Take ", moved(result.lines, true),
              params.brew ? " for " + numbered("brew day", *params.brew) : std::string{}, ".");
    const bool is_food = std::any_of(result.lines.begin(), result.lines.end(),
                                     [](const auto& line) { return is_sealed(line.lot); });
    add_despite(made, result.despite);
    if (params.boiled)
        made.warning("boiled_first",
                     "This may never stand on the shelf: use it only if it was kept cold, and boil "
                     "it first.");
    add_swept(made, result.swept);
    if (is_food)
        made.cautions(contract::cautions(contract::Moment::opening),
                      {"before_opening", "boil_before_use", "boiling_no_remedy"});
    finish(made, result.entry, result.lines, "used");
    return made;
}

sheet::Sheet discarded(const contract::StockDiscard::Params& params,
                       const contract::Posted& result) {
    SheetBuilder made("Thrown out");
    made.lead("Throw out ", moved(result.lines, true), ": ", params.reason, ".");
    if (is_sealed(params.lot))
        made.cautions(contract::cautions(contract::Moment::opening),
                      {"throwing_out", "throwing_out_bagged", "spoiled_run"});
    add_swept(made, result.swept);
    finish(made, result.entry, result.lines, "discarded");
    return made;
}

sheet::Sheet recounted(const contract::StockRecount::Params& params,
                       const contract::Posted& result) {
    SheetBuilder made("Recounted");
    const Text less = moved(result.lines, true);
    const Text more = moved(result.lines, false);
    if (less.empty() && more.empty())
        made.lead(params.lot, " agrees with the journal.");
    else
        made.lead(less.empty() ? text("Found ", more) : text("Missing ", less), ": ", params.reason,
                  ".");
    for (const contract::Line& line : result.lines)
        if (line.lot != params.lot && line.quantity.steps > 0)
            made.add(
                to_put_right("found_jars",
                             text("What was found is now lot ", line.lot,
                                  ", on hold: nobody knows how it was "
                                  "canned. Write ",
                                  line.lot, " on each lid."),
                             asking("state the process", "lot.vouch", {{"lot", to_text(line.lot)}},
                                    {"process", "canned", "confirm"})));
    add_swept(made, result.swept);
    finish(made, result.entry, result.lines, "recounted");
    made.action(sheet::offer("show the lot", "lot.show", {{"lot", to_text(params.lot)}}, "l"));
    return made;
}

sheet::Sheet converted(const contract::StockConvert::Params& params,
                       const contract::StockConvert::Result& result) {
    SheetBuilder made("Converted");
    std::vector<Text> lots;
    std::vector<Text> marks;
    for (const contract::Lot& lot : result.lots) {
        lots.push_back(
            text(amount_of(lot.category, lot.on_hand), " of ", lot.good, " as lot ", lot.code));
        marks.push_back(mark(lot));
    }
    made.lead(listed(lots), ", worth ", result.value, "; ", listed(marks), ".");
    for (const contract::Lot& lot : result.lots) {
        add_hold(made, lot);
        for (const std::string& said : to_be_said(lot))
            made.warning("lot_to_be_said", lot.code, ": ", said, ".");
    }
    if (params.lost > 0)
        made.note(sheet::count(params.lost, "piece"), " lost, worth ", result.lost_value,
                  "; the good ones carry that value.");
    if (const Text taken = moved(result.lines, true); !taken.empty())
        made.note("Made from ", taken, ".");
    add_swept(made, result.swept);
    finish(made, result.entry, result.lines, "converted");
    return made;
}

} // namespace barmkeep::ledger::sheets
