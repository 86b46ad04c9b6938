#include "plugins/canning/canning.hpp"
#include "plugins/canning/plan/inventory.hpp"
#include "plugins/canning/process/check.hpp"
#include "plugins/canning/process/records.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/pages.hpp"

namespace barmkeep::canning {
namespace {

ProcessShown set_process(const Context&, const Call& call, const ProcessSet::Params& params) {
    (void)call.once<contract::RecordPut>([&]() -> contract::RecordPut::Params {
        const Inventory inventory = read_inventory(call);
        const auto size = jar_class_of(inventory.jar(params.jar));
        const auto altitude = altitude_of(inventory.cellar);
        check_process(params, altitude);
        ProcessRecord record{params, at_altitude(params.gauge, params.pressure, altitude), {}, {}};
        record.confirmed =
            confirmation_of(params, size, params.confirm, call.caller(), call.arrived());
        if (record.confirmed)
            record.process_note = shorter_than_published;
        contract::RecordPut::Params put;
        put.collection = processes;
        put.name = params.name;
        put.document = to_json(record).as_object();
        return put;
    });
    ProcessShown shown;
    static_cast<ProcessRecord&>(shown) = load_process(call, params.name);
    shown.cautions = cautions(Moment::process);
    return shown;
}

ProcessList::Result list_processes(const Context&, const Call& call, const Nothing&) {
    return {load_processes(call), cautions(Moment::process)};
}

ProcessReference::Result show_reference(const Context&, const Call& call, const Nothing&) {
    const auto cellar = call.call<contract::CellarShow>({});
    return {reference_lines(cellar.altitude), cautions(Moment::process)};
}

} // namespace

ProcessRecord load_process(const plugin::Requester& core, const std::string& name) {
    try {
        contract::RecordGet::Params params;
        params.collection = processes;
        params.name = name;
        return decode<ProcessRecord>(core.call<contract::RecordGet>(params).document);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::not_found)
            throw;
        throw Error(
            ErrorKind::not_found, "unknown_process", "You have no process named '" + name + "'.",
            "List yours with barm process list, or record it with barm process set. Barmkeep "
            "has none to offer.",
            "/process");
    }
}

std::vector<ProcessRecord> load_processes(const plugin::Requester& core) {
    contract::RecordList::Params params;
    params.collection = processes;
    std::vector<ProcessRecord> all;
    for (const auto& record : plugin::all_pages<contract::RecordList>(
             core, std::move(params), &contract::RecordList::Result::records))
        all.push_back(decode<ProcessRecord>(record.document));
    return all;
}

void declare_process(Declaration& plugin) {
    plugin.method<ProcessSet>(&set_process);
    plugin.method<ProcessList>(&list_processes);
    plugin.method<ProcessReference>(&show_reference);
}

} // namespace barmkeep::canning
