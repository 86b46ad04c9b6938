// Where jars stand: what may be used, and what may not and why.
#include "plugins/canning/sheets/parts.hpp"
#include "plugins/canning/storage/signs.hpp"

namespace barmkeep::canning::sheets {

using sheet::Align;
using sheet::column;
using sheet::offer;

namespace {

struct Jars {
    std::int64_t usable = 0;
    std::int64_t others = 0;
};

Jars counted(const std::vector<contract::Lot>& lots) {
    Jars jars;
    for (const contract::Lot& lot : lots)
        (why_not(lot).empty() ? jars.usable : jars.others) += lot.on_hand.steps;
    return jars;
}

Text lead(const Jars& jars) {
    if (jars.usable + jars.others == 0)
        return text("No jars are stored.");
    const Text usable = jars.usable == 0 ? text("No jar may be used from the shelf")
                                         : text(sheet::count(jars.usable, "jar"), " on the shelf");
    if (jars.others == 0)
        return text(usable, ", none on hold.");
    return text(usable, "; ", sheet::count(jars.others, "jar"),
                jars.others == 1 ? " is not to be used as stock."
                                 : " are not to be used as stock.");
}

sheet::Table readings_table(const std::vector<StorageReading>& readings) {
    sheet::Table table;
    table.columns = {column("when"), column("temperature", Align::right), column("by")};
    for (const StorageReading& reading : readings)
        table.rows.push_back(sheet::row(reading.at, reading.temperature, reading.who));
    return table;
}

sheet::Action log_temperature() {
    auto action = offer("log a temperature", "storage.temperature", {}, "t");
    action.ask = {"temperature"};
    return action;
}

} // namespace

Sheet storage(const Nothing&, const StorageShow::Result& result) {
    SheetBuilder made("Stored jars");
    made.lead(lead(counted(result.lots)));
    add_warnings(made, "storage", result.warnings);
    made.table(lots_table(result.lots));
    if (!result.temperatures.empty()) {
        const StorageReading& last = result.temperatures.front();
        made.facts({{"temperature", text(last.temperature, ", ", last.at)}});
        add_warnings(made, "temperature", temperature_warnings(last.temperature));
    }
    for (const contract::Lot& lot : result.lots)
        add_past(made, lot);
    add_here(made, result.cautions, {"before_opening"});
    if (result.temperatures.size() > 1)
        made.more("Temperatures", SheetBuilder().table(readings_table(result.temperatures)));
    for (const contract::Lot& lot : result.lots)
        if (why_not(lot).empty()) { // the first that may be used
            made.usual_action(offer("open a jar", "opening.show",
                                    {{"lot", json::value(to_text(lot.code))}}, "o"));
            break;
        }
    auto look = offer("log that you looked at jars", "storage.inspect", {}, "i");
    look.ask = {"lot"};
    made.action(std::move(look)).action(log_temperature());
    return made.topic("lot.").topic("entry.").topic("record.").topic("day.");
}

Sheet temperature(const StorageTemperature::Params&, const StorageTemperature::Result& result) {
    SheetBuilder made("Storage temperature");
    made.lead(result.reading.temperature, " logged for ", result.reading.at,
              result.warnings.empty() ? ", within what is published for jars."
                                      : ": the jars need care.");
    add_warnings(made, "temperature", result.warnings);
    made.cautions(result.cautions);
    made.action(offer("see the storage", "storage.show", {}, "s"));
    return made.topic("record.");
}

Sheet inspected(const StorageInspect::Params& params, const StorageInspect::Result& result) {
    SheetBuilder made("Jars of ", result.lot, " looked at");
    if (result.discarded == 0) {
        made.lead("No sign of spoilage was found.");
    } else {
        made.lead("Throw out ", sheet::count(result.discarded, "jar"),
                  result.held.empty()
                      ? text(".")
                      : text(", and use no other jar of the run: ", codes(result.held), "."));
        std::vector<Text> signs;
        for (const Sign sign : params.signs)
            signs.push_back(text(words_of(sign)));
        made.facts({{"found", sheet::listed(signs)}, {"note", text(params.note.value_or(""))}});
        made.step({text(what_now(false, params.signs)), {}, sheet::StepState::now, {}});
    }
    if (result.discarded == 0 && !result.held.empty())
        made.warning("held", "Not for use: ", codes(result.held),
                     ". Another jar of the run was spoiled.");
    if (result.look_again)
        made.facts({{"look again", text(*result.look_again)}});
    for (const std::string& note : result.notes)
        made.warning("short_process", result.lot, ": ", note);
    if (result.discarded > 0)
        add_here(made, result.cautions, {"spoiled_run"});
    else
        made.cautions(result.cautions);
    made.action(offer("see the storage", "storage.show", {}, "s"));
    return made.topic("lot.").topic("canning.run");
}

} // namespace barmkeep::canning::sheets
