// The brewer's own processes: always shown as theirs, never as safe.
#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

using sheet::Align;
using sheet::column;
using sheet::offer;

namespace {

std::string_view words_of(contract::Gauge gauge) {
    return gauge == contract::Gauge::dial ? "dial gauge" : "weighted gauge";
}

} // namespace

Sheet process_set(const ProcessSet::Params&, const ProcessShown& shown) {
    const Process& process = shown.process;
    SheetBuilder made("Your process: ", process.name);
    made.lead("Recorded as yours: ", process.pressure, " for ", process.time, " in ", process.jar,
              " jars, from ", process.source, ".");
    made.facts({{"gauge", text(words_of(process.gauge))},
                {"published band",
                 text(shown.at_altitude.band, " at ", sheet::altitude(shown.at_altitude.altitude),
                      ", for low-acid food, not wort ", shown.at_altitude.band_source)},
                {"steam", text(shown.at_altitude.steam, ", no proof of a process")},
                {"note", text(process.note.value_or(""))}});
    add_process_note(made, shown.process_note);
    if (shown.confirmed)
        made.note("Confirmed by ", shown.confirmed->who, ", ", shown.confirmed->at, ".");
    add_here(made, shown.cautions, {"no_tested_process"});
    auto plan =
        offer("plan a load", "canning.plan",
              {{"jar", json::value(process.jar)}, {"process", json::value(process.name)}}, "p");
    plan.ask = {"jars"};
    made.usual_action(std::move(plan));
    return made.action(offer("see published figures", "process.reference", {}, "f"))
        .topic("record.");
}

Sheet process_list(const Nothing&, const ProcessList::Result& result) {
    SheetBuilder made("Your processes");
    if (result.processes.empty())
        made.lead("You have recorded none, and Barmkeep has none to offer.");
    else
        made.lead("You have recorded ",
                  sheet::count(static_cast<std::int64_t>(result.processes.size()), "process",
                               "processes"),
                  "; none was tested for wort.");
    sheet::Table table;
    table.columns = {column("name"),
                     column("jar"),
                     column("pressure", Align::right),
                     column("time", Align::right),
                     column("gauge", Align::left, 3),
                     column("your source", Align::left, 2)};
    for (const ProcessRecord& one : result.processes)
        table.rows.push_back(sheet::row(one.process.name, one.process.jar, one.process.pressure,
                                        one.process.time, words_of(one.process.gauge),
                                        one.process.source));
    made.table(std::move(table));
    for (const ProcessRecord& one : result.processes)
        if (one.process_note)
            made.warning("short_process", one.process.name, " is ", *one.process_note, ".");
    add_here(made, result.cautions, {"no_tested_process"});
    auto add = offer("record a process", "process.set", {}, "n");
    add.ask = {"name", "jar", "gauge", "appliance", "pressure", "time", "source"};
    made.action(std::move(add));
    return made.action(offer("see published figures", "process.reference", {}, "f"))
        .topic("record.");
}

Sheet process_reference(const Nothing&, const ProcessReference::Result& result) {
    SheetBuilder made("Published figures and practice");
    made.lead("None of this is a process for wort: none was ever tested.");
    add_here(made, result.cautions, {"no_tested_process"});
    std::vector<Text> lines;
    for (const std::string& line : result.lines)
        lines.push_back(text(line));
    made.lines(std::move(lines), text("What is known"));
    return made.action(offer("see your processes", "process.list", {}, "p"));
}

} // namespace barmkeep::canning::sheets
