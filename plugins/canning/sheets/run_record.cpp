// A run as it was logged, and the list of runs.
#include "plugins/canning/sheets/run_parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::Align;
using sheet::column;
using sheet::offer;

namespace {

Text counted(const SealCounts& seals) {
    std::vector<Text> parts;
    const auto add = [&](std::int64_t number, std::string_view word) {
        if (number > 0)
            parts.push_back(text(sheet::number(static_cast<double>(number)), " ", word));
    };
    add(seals.held, "held");
    add(seals.failed, "failed");
    add(seals.lost_liquid, "lost some liquid");
    add(seals.lost_half, "lost half or more");
    add(seals.broken, "broke");
    return sheet::listed(parts);
}

/// What a line of the log says.
Text said_by(const LogLine& line) {
    switch (line.kind) {
    case LineKind::step:
        return text(line.step ? words_of(*line.step) : "a step");
    case LineKind::reading:
        return line.shows ? text("gauge at ", *line.shows) : text("gauge read");
    case LineKind::strike:
        return line.strikes
                   ? text("line ", sheet::number(static_cast<double>(*line.strikes)), " struck out")
                   : text("a line struck out");
    case LineKind::seal_test:
        return line.seal_test ? text("seals tested: ", counted(line.seal_test->seals))
                              : text("seals tested");
    case LineKind::seal_test_undone:
        return text("seal test undone");
    case LineKind::measured:
        return text("measured");
    case LineKind::held:
        return text("put in quarantine");
    case LineKind::released:
        return text("hold released");
    case LineKind::inspected:
        return text("looked at");
    case LineKind::spoiled:
        return text(sheet::count(line.jars.value_or(1), "jar"), " spoiled");
    case LineKind::abandoned:
        return text("abandoned");
    case LineKind::unknown:
        break;
    }
    return text("logged by a newer program");
}

sheet::Table log_table(const std::vector<LogLineShown>& log, std::size_t last) {
    sheet::Table table;
    table.title = text("Log");
    table.columns = {column("line", Align::right),
                     column("when"),
                     column("what"),
                     column("struck out"),
                     column("note", Align::left, 2),
                     column("by", Align::left, 3)};
    const std::size_t first = log.size() - std::min(last, log.size());
    for (std::size_t i = first; i < log.size(); ++i) {
        const LogLineShown& line = log[i];
        table.rows.push_back(sheet::row(sheet::number(static_cast<double>(line.number)), line.at,
                                        said_by(line), line.struck ? "struck out" : "",
                                        line.note.value_or(""), line.who));
    }
    return table;
}

sheet::Table phase_table(const std::vector<PhaseClock>& clocks) {
    sheet::Table table;
    table.title = text("Phases");
    table.columns = {column("phase"), column("from"), column("lasted", Align::right)};
    for (const PhaseClock& clock : clocks)
        if (!has_ended(clock.phase))
            table.rows.push_back(sheet::row(words_of(clock.phase), clock.from, clock.lasted));
    return table;
}

std::vector<Text> gap_lines(const std::vector<Gap>& gaps) {
    std::vector<Text> lines;
    for (const Gap& gap : gaps)
        lines.push_back(text("The daemon was down for ", gap.lasted, ", from ", gap.from, "."));
    return lines;
}

std::vector<sheet::Fact> load_facts(const RunDetails& run) {
    return {{"load", text(jars_of(run.jars, run.jar), " in ", run.canner)},
            {"your process",
             text(run.process.pressure, " for ", run.process.time, ", from ", run.process.source)},
            {run.gauge == contract::Gauge::dial ? "dial at" : "weight", target_of(run)},
            {"started again",
             run.restarts > 0 ? text(sheet::count(run.restarts, "time"), ", from zero") : Text{}},
            {"seals", run.seals ? counted(*run.seals) : Text{}}};
}

} // namespace

Sheet run_shown(const RunNumber&, const RunShow::Result& run) {
    SheetBuilder made(run_title(run));
    made.lead(lead_of(run));
    if (run.alarm)
        made.add(alarm_of(*run.alarm, run));
    add_clocks(made, run);
    made.facts(load_facts(run));
    add_run_warnings(made, run);
    if (run.phase == Phase::filling)
        made.table(card_table(run.card));
    constexpr std::size_t lines_shown = 6;
    made.table(log_table(run.log, lines_shown));
    add_run_cautions(made, run, run.cautions);
    if (run.log.size() > lines_shown)
        made.more("The whole log", SheetBuilder().table(log_table(run.log, run.log.size())));
    SheetBuilder rest;
    rest.table(phase_table(run.clocks)).lines(gap_lines(run.gaps), text("Gaps"));
    if (run.phase != Phase::filling)
        rest.table(card_table(run.card));
    rest.facts({{"published band", text(run.at_altitude.band, " for low-acid food, not wort ",
                                        run.at_altitude.band_source)},
                {"altitude", text(sheet::altitude(run.at_altitude.altitude))},
                {"steam", text(run.at_altitude.steam, ", no proof of a process")}});
    made.more("Phases, card and figures", rest);
    add_run_actions(made, run);
    if (!has_ended(run.phase)) {
        auto abandon = offer("abandon the run", "run.abandon", {{"run", run.run}});
        abandon.ask = {"reason"};
        made.action(std::move(abandon));
    }
    return made.topic("lot.");
}

Sheet run_list(const RunList::Params& params, const RunList::Result& result) {
    SheetBuilder made("Canning runs");
    const auto open = std::count_if(result.runs.begin(), result.runs.end(),
                                    [](const RunRow& run) { return !has_ended(run.phase); });
    const auto alarms = std::count_if(result.runs.begin(), result.runs.end(),
                                      [](const RunRow& run) { return run.alarm.has_value(); });
    if (open == 0)
        made.lead("No run is open.");
    else
        made.lead(sheet::count(open, "run"), " open",
                  alarms > 0 ? text("; ", sheet::number(static_cast<double>(alarms)),
                                    alarms == 1 ? " needs you now." : " need you now.")
                             : text("."));
    sheet::Table table;
    table.columns = {column("run", Align::right), column("now"), column("jars"),
                     column("started", Align::left, 2)};
    for (const RunRow& run : result.runs) {
        const sheet::Number number = sheet::number(static_cast<double>(run.run));
        if (run.alarm) {
            sheet::Warning alarm;
            alarm.text = text("Run ", number, ": ", run.alarm->text);
            alarm.key = run.alarm->key;
            alarm.severity = sheet::Severity::alarm;
            alarm.action = offer("see what to do", "run.status", {{"run", run.run}});
            made.add(std::move(alarm));
        }
        table.rows.push_back(
            sheet::row(number, words_of(run.phase), jars_of(run.jars, run.jar), run.started));
    }
    made.table(std::move(table));
    if (result.next)
        made.note("There are more, older runs.");
    made.cautions(result.cautions);
    if (open == 1)
        for (const RunRow& run : result.runs)
            if (!has_ended(run.phase))
                made.usual_action(
                    offer("see the running load", "run.status", {{"run", run.run}}, "s"));
    if (!params.all)
        made.action(offer("list ended runs too", "run.list", {{"all", true}}, "a"));
    if (open == 0) {
        auto plan = offer("plan a load", "canning.plan", {}, "p");
        plan.ask = {"jar"};
        made.action(std::move(plan));
    }
    return made.topic("canning.run").topic("record.");
}

} // namespace barmkeep::canning::sheets
