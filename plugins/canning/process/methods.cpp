#include "plugins/canning/canning.hpp"
#include "plugins/canning/plan/pantry.hpp"
#include "plugins/canning/process/check.hpp"
#include "plugins/canning/process/kept.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/pages.hpp"

namespace barmkeep::canning {
namespace {

ProcessShown set_process(const Context&, const Call& call, const ProcessSet::Params& params) {
    (void)call.once<contract::RecordPut>([&]() -> contract::RecordPut::Params {
        const Pantry there = pantry(call);
        const auto size = jar_class_of(there.jar(params.jar));
        const auto altitude = altitude_of(there.cellar);
        check_process(params, altitude);
        KeptProcess kept{params, at_altitude(params.gauge, params.pressure, altitude), {}, {}};
        kept.confirmed =
            confirmation_of(params, size, params.confirm, call.caller(), call.arrived());
        if (kept.confirmed)
            kept.caution = shorter_than_published;
        contract::RecordPut::Params put;
        put.collection = processes;
        put.name = params.name;
        put.document = to_json(kept).as_object();
        return put;
    });
    ProcessShown shown;
    static_cast<KeptProcess&>(shown) = kept_process(call, params.name);
    shown.cautions = cautions(Moment::process);
    return shown;
}

ProcessList::Result list_processes(const Context&, const Call& call, const Nothing&) {
    return {all_processes(call), cautions(Moment::process)};
}

ProcessPractice::Result show_practice(const Context&, const Call& call, const Nothing&) {
    const auto cellar = call.call<contract::CellarShow>({});
    return {common_practice(cellar.altitude), cautions(Moment::process)};
}

} // namespace

KeptProcess kept_process(const plugin::Requester& core, const std::string& name) {
    try {
        contract::RecordGet::Params params;
        params.collection = processes;
        params.name = name;
        return decode<KeptProcess>(core.call<contract::RecordGet>(params).document);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::not_found)
            throw;
        throw Error(ErrorKind::not_found, "unknown_process", "There is no process '" + name + "'.",
                    "Record your own: barm process set, with pressure, time, jar, gauge and "
                    "source.  Barmkeep has none to offer.",
                    "/process");
    }
}

std::vector<KeptProcess> all_processes(const plugin::Requester& core) {
    contract::RecordList::Params params;
    params.collection = processes;
    std::vector<KeptProcess> all;
    for (const auto& record : plugin::all_pages<contract::RecordList>(
             core, std::move(params), &contract::RecordList::Result::records))
        all.push_back(decode<KeptProcess>(record.document));
    return all;
}

void declare_process(Declaration& plugin) {
    plugin.method<ProcessSet>(&set_process);
    plugin.method<ProcessList>(&list_processes);
    plugin.method<ProcessPractice>(&show_practice);
}

} // namespace barmkeep::canning
