#include "plugins/canning/canning.hpp"

#include "plugins/canning/process_check.hpp"
#include "plugins/canning/sources.hpp"

#include <atomic>
#include <unistd.h>

namespace barmkeep::canning {
namespace {

/// A word that no other start of the plugin has, even by a clock that stands still.
std::string session_word(Instant began) {
    static std::atomic<int> starts{0};
    return to_text(began) + "/" + std::to_string(getpid()) + "/" + std::to_string(++starts);
}

} // namespace

void Canning::declare(plugin::Declaration<Canning>& plugin) {
    plugin.method<CanningCautions>(&Canning::tell_cautions);
    plugin.method<CanningPlan>(&Canning::make_plan);
    plugin.method<ProcessSet>(&Canning::set_process);
    plugin.method<ProcessList>(&Canning::list_processes);
    plugin.method<ProcessPractice>(&Canning::tell_practice);
    plugin.method<RunStart>(&Canning::start_run);
    plugin.method<RunTurn>(&Canning::turn_run);
    plugin.method<RunReading>(&Canning::read_gauge);
    plugin.method<RunShow>(&Canning::show_run);
    plugin.method<RunList>(&Canning::list_runs);
    plugin.method<RunAbandon>(&Canning::abandon_run);
    plugin.method<RunSeal>(&Canning::seal_run);
    plugin.method<RunMeasure>(&Canning::measure_jars);
    plugin.method<RunHold>(&Canning::hold_run);
    plugin.method<RunRelease>(&Canning::release_run);
    plugin.method<StoreInspect>(&Canning::inspect_store);
    plugin.method<StoreTemperature>(&Canning::note_temperature);
    plugin.method<StoreShow>(&Canning::show_store);
    plugin.method<OpeningShow>(&Canning::show_opening);
    plugin.method<OpeningRecord>(&Canning::record_opening);
    plugin.method<TraceLot>(&Canning::trace_lot);
    plugin.method<TraceBrew>(&Canning::trace_brew);
    plugin.event(contract::Topic::day_begun, &Canning::jars_may_be_gone);
    plugin.event(contract::Topic::entry_posted, &Canning::entry_posted);
}

Canning::Canning(const plugin::Host& host, const Settings& settings)
    : host_{host}, settings_{settings}, rules_{settings.reading_gap_max},
      shelf_rules_{static_cast<int>(settings.best_by_days),
                   static_cast<int>(settings.refrigerator_days)},
      session_began_{host.now()}, session_{session_word(session_began_)} {
    if (settings.thin >= settings.thick)
        throw Error(ErrorKind::params, "out_of_range", "The setting 'thin' must be below 'thick'.",
                    "Change one of them.", "/thin");
}

Logging Canning::logging(const Call& call, const std::optional<Instant>& at) const {
    return {call.caller(), at, call.arrived(), session_, session_began_};
}

Date Canning::today(const Call& call) const {
    return call.call<contract::CellarGlance>({}).today;
}

CanningCautions::Result Canning::tell_cautions(const Call&, const CanningCautions::Params& params) {
    CanningCautions::Result result;
    result.cautions = params.moment ? cautions(*params.moment) : all_cautions();
    for (const Source& source : sources())
        result.sources.push_back({std::string(source.key), std::string(source.title)});
    return result;
}

Plan Canning::make_plan(const Call& call, const Wanted& wanted) {
    return plan(wanted, pantry(call, open_runs(call, rules_)), {settings_.thin, settings_.thick});
}

ProcessShown Canning::set_process(const Call& call, const Process& process) {
    const auto record = call.once<contract::RecordPut>([&]() -> contract::RecordPut::Params {
        const Pantry there = pantry(call, {});
        (void)there.jar(process.jar);
        const auto altitude = altitude_of(there.cellar);
        check_process(process, altitude);
        const KeptProcess kept{process, at_altitude(process.gauge, process.pressure, altitude)};
        return {"processes", process.name, to_json(kept).as_object(), {}};
    });
    auto kept = decode<KeptProcess>(record.document);
    return {std::move(kept.process), std::move(kept.at_altitude), cautions(Moment::process)};
}

ProcessList::Result Canning::list_processes(const Call& call, const Nothing&) {
    ProcessList::Result result;
    for (auto& kept : all_processes(call))
        result.processes.push_back(std::move(kept.process));
    result.cautions = cautions(Moment::process);
    return result;
}

ProcessPractice::Result Canning::tell_practice(const Call& call, const Nothing&) {
    const auto cellar = call.call<contract::CellarShow>({});
    return {common_practice(cellar.altitude), cautions(Moment::process)};
}

} // namespace barmkeep::canning
