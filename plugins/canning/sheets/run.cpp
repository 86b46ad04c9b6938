// A load in the canner: read at the stove, so what to do now comes first.
#include "plugins/canning/sheets/run_parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::offer;

namespace {

bool is_under_pressure(const RunSummary& now) {
    return now.phase == Phase::pressurising || now.phase == Phase::at_pressure;
}

void add_gauge(SheetBuilder& made, const RunSummary& now) {
    if (!is_under_pressure(now) && now.phase != Phase::filling && now.phase != Phase::venting)
        return;
    const bool is_dial = now.gauge == contract::Gauge::dial;
    made.facts(
        {{is_dial ? "dial at" : "weight", target_of(now)},
         {"last reading", is_dial && now.last_reading ? text(*now.last_reading) : Text{}},
         {"started again",
          now.restarts > 0 ? text(sheet::count(now.restarts, "time"), ", from zero") : Text{}}});
}

/// The state of a run, as every answer about a running load shows it.
SheetBuilder state_sheet(const RunSummary& now) {
    SheetBuilder made(run_title(now));
    made.lead(lead_of(now));
    if (now.alarm)
        made.add(alarm_of(*now.alarm, now));
    add_clocks(made, now);
    add_gauge(made, now);
    return made;
}

void finish(SheetBuilder& made, const RunSummary& now) {
    add_run_warnings(made, now);
    add_run_cautions(made, now, now.cautions);
    add_run_actions(made, now);
    if (now.phase != Phase::filling)
        made.action(offer("see card and log", "run.show", {{"run", now.run}}, "l"));
}

SheetBuilder process_of(const RunDetails& run) {
    return SheetBuilder().facts(
        {{"process", text(run.process.name)},
         {"pressure", text(run.process.pressure)},
         {"time", text(run.process.time)},
         {"your source", text(run.process.source)},
         {"published band",
          text(run.at_altitude.band, " for low-acid food, not wort ", run.at_altitude.band_source)},
         {"altitude", text(sheet::altitude(run.at_altitude.altitude))},
         {"steam", text(run.at_altitude.steam, ", no proof of a process")},
         {"extract in all", text(run.total.extract)},
         {"water in all", text(run.total.water)}});
}

} // namespace

Sheet run_started(const RunStart::Params&, const RunDetails& run) {
    SheetBuilder made("Run ", sheet::number(static_cast<double>(run.run)), ": ",
                      jars_of(run.jars, run.jar), " in ", run.canner);
    made.lead(lead_of(run));
    made.table(card_table(run.card));
    made.facts({{run.gauge == contract::Gauge::dial ? "dial at" : "weight", target_of(run)},
                {"your process", text(run.process.pressure, " for ", run.process.time, ", from ",
                                      run.process.source)}});
    add_run_warnings(made, run);
    add_here(made, run.cautions, {"no_tested_process", "headspace"});
    made.more("Your process", process_of(run));
    add_run_actions(made, run);
    auto abandon = offer("abandon the run", "run.abandon", {{"run", run.run}});
    abandon.ask = {"reason"};
    return made.action(std::move(abandon));
}

Sheet run_status(const RunNumber&, const RunSummary& now) {
    SheetBuilder made = state_sheet(now);
    finish(made, now);
    return made;
}

Sheet run_logged(const RunLog::Params&, const RunSummary& now) {
    return run_status({}, now);
}

Sheet run_read(const RunGauge::Params&, const RunSummary& now) {
    return run_status({}, now);
}

Sheet run_struck(const RunStrike::Params& params, const RunSummary& now) {
    SheetBuilder made = state_sheet(now);
    made.note("Line ", sheet::number(static_cast<double>(params.line)),
              " is struck out. It stays in the log, with your reason.");
    finish(made, now);
    return made;
}

Sheet run_abandoned(const RunAbandon::Params& params, const RunSummary& now) {
    SheetBuilder made("Run ", sheet::number(static_cast<double>(now.run)), ": abandoned");
    made.lead("Nothing of this run goes on the shelf: throw out what was filled.");
    made.note(params.thrown_out
                  ? "What was weighed in, lids and nutrient are taken from stock."
                  : "Extract, lids and nutrient stay in stock, as if nothing had been weighed.");
    add_run_warnings(made, now);
    add_run_cautions(made, now, now.cautions);
    made.action(offer("see card and log", "run.show", {{"run", now.run}}, "l"));
    return made.topic("canning.run").topic("record.");
}

Sheet seal_test_undone(const RunUndoSealTest::Params&, const RunSummary& now) {
    SheetBuilder made("Run ", sheet::number(static_cast<double>(now.run)), ": seal test undone");
    if (has_deviation(now))
        made.lead(lead_of(now));
    else
        made.lead("Count the seals again; the codes on the lids stay the same.");
    if (now.alarm)
        made.add(alarm_of(*now.alarm, now));
    add_clocks(made, now);
    finish(made, now);
    return made;
}

} // namespace barmkeep::canning::sheets
