// The jars of a run once they are shelved: measured, held, released.
#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::offer;

namespace {

sheet::Action release_of(std::int64_t run) {
    auto release = offer("release them", "run.release", {{"run", run}}, "r");
    release.ask = {"reason"};
    return release;
}

/// The lots, what is said of their past, and the process.
void add_jars(SheetBuilder& made, const RunDecision& decision) {
    made.table(lots_table(decision.lots));
    bool has_said = false;
    for (const contract::Lot& lot : decision.lots) {
        has_said = has_said || lot.facts.process_note.has_value();
        add_past(made, lot);
    }
    if (!has_said)
        add_process_note(made, decision.run.process_note);
}

} // namespace

Sheet measured(const RunMeasure::Params& params, const RunMeasure::Result& result) {
    SheetBuilder made("Jars of ", result.lot.code, " measured");
    made.lead("Each holds ", result.fill, " at ", result.gravity,
              result.planned_gravity ? text("; the plan said ", *result.planned_gravity, ".")
                                     : text("."));
    made.facts(
        {{"extract in each", text(result.extract)},
         {"potential found",
          result.points_found && result.extract_lot
              ? text(sheet::number(*result.points_found, 1), " points for ", *result.extract_lot,
                     result.extract_corrected ? ", which was corrected" : "")
              : Text{}}});
    if (const Text why = why_not(result.lot); !why.empty())
        made.warning("held", result.lot.code, " is not for use: ", why, ".");
    add_past(made, result.lot);
    made.cautions(result.cautions);
    made.note("Every later plan uses these figures.");
    if (result.points_found && result.extract_lot && !params.correct_extract) {
        json::object again = to_json(params).as_object();
        again["correct_extract"] = true;
        made.action(offer("correct the extract too", "run.measure", std::move(again)));
    }
    made.action(
        offer("see the lot", "lot.show", {{"lot", json::value(to_text(result.lot.code))}}, "l"));
    return made.topic("lot.");
}

Sheet held(const RunHold::Params& params, const RunDecision& decision) {
    std::vector<LotCode> lots;
    for (const contract::Lot& lot : decision.lots)
        lots.push_back(lot.code);
    SheetBuilder made("Run ", sheet::number(static_cast<double>(decision.run.run)),
                      ": jars in quarantine");
    made.lead("Do not use ", codes(lots), ": ", params.reason, ".");
    add_jars(made, decision);
    made.cautions(decision.cautions);
    made.action(release_of(decision.run.run));
    return made.topic("lot.").topic("canning.run");
}

Sheet released(const RunRelease::Params& params, const RunDecision& decision) {
    std::vector<LotCode> lots;
    std::vector<LotCode> still;
    for (const contract::Lot& lot : decision.lots) {
        lots.push_back(lot.code);
        if (!why_not(lot).empty())
            still.push_back(lot.code);
    }
    SheetBuilder made("Run ", sheet::number(static_cast<double>(decision.run.run)),
                      ": hold released");
    made.lead("This no longer holds ", codes(lots), ": ", contract::meaning_of(params.kind), ".");
    if (!still.empty())
        made.warning("still_held", "Do not use ", codes(still),
                     " yet: there is another reason against it.");
    add_jars(made, decision);
    made.cautions(decision.cautions, {"untested_jars"});
    auto hold = offer("hold them again", "run.hold", {{"run", decision.run.run}}, "h");
    hold.ask = {"reason"};
    made.action(std::move(hold));
    return made.topic("lot.").topic("canning.run");
}

} // namespace barmkeep::canning::sheets
