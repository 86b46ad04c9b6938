// Opening a jar: what to check first, and what to do with it then.
#include "plugins/canning/sheets/parts.hpp"
#include "plugins/canning/storage/signs.hpp"

namespace barmkeep::canning::sheets {

using contract::Keeping;
using sheet::offer;
using sheet::source;
using sheet::sources;
using sheet::StepState;

namespace {

bool is_kept_cold(const contract::Lot& lot) {
    return lot.kept != Keeping::shelf;
}

/// Why not to open, as one sentence.  The day of today is not in the answer, but its stops are.
Text stop_of(const OpeningShow::Result& result) {
    const contract::Lot& lot = result.lot;
    if (lot.on_hand.steps == 0)
        return text("no jars of it are left");
    std::vector<Text> reasons;
    if (!lot.holds.empty())
        reasons.push_back(holds_of(lot));
    if (lot.best_by && result.stops.size() > lot.holds.size())
        reasons.push_back(text("past its best-by day, ", *lot.best_by));
    return sheet::listed(reasons);
}

bool is_never_to_use(const contract::Lot& lot) {
    return std::any_of(lot.holds.begin(), lot.holds.end(), [](const contract::Hold& hold) {
        return contract::end_of(hold.kind) != contract::HoldEnd::by_brewer;
    });
}

Sheet stopped(const OpeningShow::Result& result) {
    const contract::Lot& lot = result.lot;
    SheetBuilder made("Jars of ", lot.code);
    made.lead("Do not open a jar of ", lot.code, " for use.");
    sheet::Warning alarm;
    alarm.text = text("DO NOT USE ", lot.code, ": ", stop_of(result), ".");
    if (is_never_to_use(lot) && lot.on_hand.steps > 0)
        alarm.text.append(" Throw it out.");
    alarm.key = "stop";
    alarm.severity = sheet::Severity::alarm;
    made.add(std::move(alarm));
    made.facts({{"left", lot.on_hand.steps > 0 ? text(jars_in(lot.on_hand)) : Text{}},
                {"kept in", is_kept_cold(lot) ? text("the ", to_string(lot.kept)) : Text{}},
                {"from", text(lot.good)}});
    add_past(made, lot);
    add_here(made, result.cautions, {"before_opening", "throwing_out", "boiling_no_remedy"});
    if (lot.on_hand.steps > 0) {
        auto discard = offer("log it as thrown out", "stock.discard",
                             {{"lot", json::value(to_text(lot.code))}}, "x");
        discard.ask = {"amount", "reason"};
        made.action(std::move(discard));
    }
    made.action(offer("see the lot", "lot.show", {{"lot", json::value(to_text(lot.code))}}, "l"));
    return made.topic("lot.").topic("day.");
}

Text boil_step(const OpeningShow::Result& result) {
    if (result.boil_for)
        return text("Boil the diluted wort for ", *result.boil_for,
                    " or longer, from when bubbles rise through all of it. ",
                    sources("S6 S83 S84"));
    return text("Boil the diluted wort before use. How long depends on the altitude, which the "
                "cellar does not know. ",
                sources("S6 S83 S84"));
}

void add_checks(SheetBuilder& made, const OpeningShow::Result& result) {
    const Text at_any =
        text(" At any of these, leave it shut and throw it out. ", sources("S36 S37"));
    made.step({text("Look: a hollow, tight lid; no leak, dried streaks, rising bubbles or odd "
                    "colour.",
                    at_any),
               {},
               StepState::next,
               {}});
    if (is_kept_cold(result.lot))
        made.step({text("Use it only if it was kept cold all the time. If liquid spurts or foams, "
                        "throw it out. ",
                        sources("S36 S79"))});
    else
        made.step({text("Listen as you open it: a short sigh of air going in. If there is no "
                        "sound, or liquid spurts or foams, throw it out. ",
                        sources("S36 S79"))});
    made.step(
        {text("Smell: wort and nothing else. Look for mould on wort and lid. ", source("S36"))});
    made.step({boil_step(result)});
}

sheet::Action record_of(const contract::Lot& lot) {
    auto record =
        offer("log it as used", "opening.record", {{"lot", json::value(to_text(lot.code))}}, "u");
    record.ask = {"looked", "listened", "smelled"};
    if (is_kept_cold(lot))
        record.ask.emplace_back("boiled");
    return record;
}

} // namespace

Sheet opening(const OpeningShow::Params&, const OpeningShow::Result& result) {
    if (!result.stops.empty())
        return stopped(result);
    const contract::Lot& lot = result.lot;
    SheetBuilder made("Before you open a jar of ", lot.code);
    made.lead("Look, listen and smell, and NEVER TASTE; when in doubt, throw it out.");
    if (is_kept_cold(lot))
        made.warning("chilled", "Never for the shelf: ", holds_of(lot), ". ",
                     lot.best_by ? text("Use it until ", *lot.best_by, ", and boil") : text("Boil"),
                     " it first.");
    add_checks(made, result);
    add_past(made, lot);
    add_here(made, result.cautions, {"before_opening", "boiling_no_remedy"});
    made.usual_action(record_of(lot));
    auto spoiled = offer("log a sign of spoilage", "opening.record",
                         {{"lot", json::value(to_text(lot.code))}}, "x");
    spoiled.ask = {"signs"};
    return made.action(std::move(spoiled)).topic("lot.").topic("day.");
}

Sheet opened(const OpeningRecord::Params& params, const OpeningRecord::Result& result) {
    const sheet::Count jars = sheet::count(params.jars, "jar");
    SheetBuilder made("Opened ", params.lot);
    if (result.used) {
        made.lead(jars, " of ", params.lot, " used: boil the diluted wort, cool it, and pitch.");
        made.note("If anything seems wrong after all, throw it out: boiling is no remedy. ",
                  source("S85"));
    } else {
        made.lead("Throw out ", jars, " of ", params.lot, "; never taste it.");
        made.step({text(result.what_now), {}, StepState::now, {}});
    }
    if (!result.held.empty())
        made.warning("held", "Do not use ", codes(result.held),
                     ": a jar of the same run was spoiled.");
    for (const contract::UsedDespite& despite : result.despite)
        made.warning("released", despite.lot,
                     " was released in spite of: ", contract::meaning_of(despite.hold.kind), " (",
                     despite.hold.note,
                     "). Reason: ", despite.hold.end_reason.value_or("none given"), ".");
    for (const std::string& note : result.notes)
        made.warning("short_process", params.lot, ": ", note);
    if (result.used)
        add_here(made, result.cautions,
                 {"boil_before_use", "what_boiling_means", "opened_jar", "boiling_no_remedy"});
    else
        add_here(made, result.cautions, {"boiling_no_remedy"});
    made.action(offer("see the storage", "storage.show", {}, "s"));
    auto undo = offer("undo it", "entry.undo",
                      {{"entry", result.entry}, {"kind", result.used ? "used" : "discarded"}}, "u");
    undo.ask = {"reason"};
    return made.action(std::move(undo)).topic("lot.");
}

} // namespace barmkeep::canning::sheets
