#include "daemon/service_sheets.hpp"

#include "sdk/sheet/builder.hpp"

namespace barmkeep::daemon {

using sheet::Align;
using sheet::column;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// What a lane of requests is for.
std::string_view words_of(Lane lane) {
    switch (lane) {
    case Lane::log:
        return "logging a run";
    case Lane::write:
        return "other writing";
    default:
        return "looking";
    }
}

std::int64_t refused_in(const std::vector<contract::LaneStatus>& lanes) {
    std::int64_t refused = 0;
    for (const contract::LaneStatus& lane : lanes)
        refused += lane.refused;
    return refused;
}

sheet::Table lanes_table(const std::vector<contract::LaneStatus>& lanes) {
    sheet::Table table;
    table.columns = {column("requests for"), column("waiting", Align::right),
                     column("running", Align::right), column("done", Align::right),
                     column("refused", Align::right)};
    for (const contract::LaneStatus& lane : lanes) {
        const auto figure = [](std::int64_t number) {
            return sheet::number(static_cast<double>(number));
        };
        table.rows.push_back(sheet::row(words_of(lane.lane), figure(lane.waiting),
                                        figure(lane.running), figure(lane.done),
                                        figure(lane.refused)));
    }
    return table;
}

std::vector<Text> as_lines(const std::vector<std::string>& names) {
    return {names.begin(), names.end()};
}

} // namespace

sheet::Sheet status_sheet(const Nothing&, const contract::ServiceStatus::Result& status) {
    SheetBuilder made("Barmkeep ", status.version);
    const auto running = std::chrono::duration_cast<Seconds>(status.now - status.started);
    made.lead("The daemon runs since ", status.started, ", for ", running, ".");
    if (const std::int64_t refused = refused_in(status.lanes); refused > 0)
        made.warning("requests_refused", sheet::count(refused, "request"),
                     " refused since then, because too many waited or it was stopping.");
    made.facts({{"ledger", text(status.store)},
                {"socket", text(status.socket)},
                {"connections", text(sheet::number(static_cast<double>(status.connections)))}});
    made.more("Versions and queues",
              SheetBuilder()
                  .facts({{"protocol", text(status.protocol)},
                          {"ledger's tables", text("version ", std::to_string(status.schema))},
                          {"methods", text(sheet::number(static_cast<double>(status.methods)))}})
                  .table(lanes_table(status.lanes)));
    made.action(sheet::offer("plugins", "plugin.list", {}, "p"));
    made.action(sheet::offer("settings", "service.settings", {}, "s"));
    return made;
}

sheet::Sheet settings_sheet(const Nothing&, const contract::ServiceSettings::Result& result) {
    SheetBuilder made("Settings");
    std::int64_t given = 0;
    sheet::Table table;
    // A name of a setting is what one types into the file, so it stands as it is.
    table.columns = {column("setting"), column("value"), column("from", Align::left, 2)};
    for (const contract::Setting& setting : result.settings) {
        given += setting.from == "built in" ? 0 : 1;
        table.rows.push_back(sheet::row(setting.name, setting.value, setting.from));
    }
    made.lead(sheet::count(static_cast<std::int64_t>(result.settings.size()), "setting"),
              " in force; ",
              given == 0 ? text("all are built in.")
                         : text(sheet::count(given, "is", "are"), " set by you."));
    made.table(std::move(table));
    made.action(sheet::offer("read them again", "service.reload", {}, "r"));
    return made;
}

sheet::Sheet reload_sheet(const Nothing&, const contract::ServiceReload::Result& result) {
    SheetBuilder made("Settings read again");
    if (result.changed.empty() && result.needs_restart.empty())
        made.lead("Nothing has changed.");
    else if (result.needs_restart.empty())
        made.lead("All that changed is in force.");
    else
        made.lead("Restart the daemon to bring ",
                  sheet::count(static_cast<std::int64_t>(result.needs_restart.size()), "setting"),
                  " into force.");
    made.lines(as_lines(result.needs_restart), "Need a restart");
    made.lines(as_lines(result.changed), "In force now");
    made.action(sheet::offer("all settings", "service.settings", {}, "s"));
    return made;
}

sheet::Sheet clock_sheet(const contract::ClockSet::Params&,
                         const contract::ClockSet::Result& result) {
    SheetBuilder made("Clock");
    made.lead("The daemon's clock stands at ", result.now, ".");
    return made;
}

} // namespace barmkeep::daemon
