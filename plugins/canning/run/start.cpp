#include "plugins/canning/run/start.hpp"

#include "plugins/canning/plan/plan.hpp"
#include "plugins/canning/process/check.hpp"
#include "plugins/canning/process/records.hpp"
#include "plugins/canning/run/events.hpp"
#include "plugins/canning/run/records.hpp"
#include "plugins/canning/run/view.hpp"

namespace barmkeep::canning {
namespace {

using contract::Category;

std::string held_suffix(const std::optional<std::string>& held) {
    return held ? " (" + *held + " is held until its jars are shelved)" : "";
}

/// Everything that is short, in one error.
void require_feasible(const Plan& plan) {
    std::vector<FieldError> faults;
    for (const Need& need : plan.buying)
        faults.push_back({"", "not_enough",
                          "Short of " + need.good + " by " + to_text(need.short_by) + ": " +
                              to_text(need.need) + " needed, " + to_text(need.available) +
                              " available" + held_suffix(need.held) + ".",
                          need.buy ? "Buy " + std::to_string(*need.buy) + " of " +
                                         to_text(*need.package) + ", or plan fewer jars."
                                   : "Buy some, or plan fewer jars."});
    if (!faults.empty())
        throw Error(ErrorKind::not_enough, std::move(faults));
    if (plan.jars == 0)
        throw Error(ErrorKind::not_enough, "not_enough", "There is not enough for one jar.",
                    "See what is short: barm canning plan '" + plan.jar + "' 1");
}

void require_room(const contract::Canner& canner, std::string_view jar, std::int64_t jars) {
    const std::int64_t most = capacity_of(canner, jar);
    if (jars > most)
        throw Error(ErrorKind::params, "more_than_canner",
                    std::to_string(jars) + " jars are more than the canner '" + canner.name +
                        "' holds: " + std::to_string(most) + " of '" + std::string(jar) + "'.",
                    "Start one run for each load; barm canning plan shows the loads.", "/jars");
}

void require_canner_free(const plugin::Requester& core, const Inventory& inventory,
                         const std::string& canner, const RunRules& rules) {
    for (const OpenRun& open : inventory.open_runs) {
        if (open.canner != canner)
            continue;
        const Phase phase = state_of(load_run(core, open.run), rules).phase;
        if (phase < Phase::seal_test)
            throw Error(ErrorKind::conflict, "canner_in_use",
                        "The canner '" + canner + "' is in use by run " + std::to_string(open.run) +
                            ", now " + std::string(to_string(phase)) + ".",
                        "Log that it was opened: barm run log " + std::to_string(open.run) +
                            " opened. Or abandon the run: barm run abandon " +
                            std::to_string(open.run) + ".",
                        "/canner");
    }
}

void fill_from_plan(RunDocument& run, const LoadRequest& request, const Inventory& inventory,
                    const contract::Canner& canner, const SensibleRange& sensible) {
    const Plan made = plan(request, inventory, sensible);
    require_room(canner, made.jar, made.jars);
    require_feasible(made);
    run.jars = made.jars;
    run.each = made.each;
    run.card = made.card;
    run.total = made.total;
    run.lots = made.lots;
    run.facts.gravity = made.each.gravity.likely;
    run.facts.fill = made.each.fill;
    run.facts.extract = made.each.extract.likely;
    run.facts.jar = made.jar;
    run.facts.process_note = run.process.process_note;
    run.used = used_beside_extract(request, inventory, made.jars);
}

/// The process as it is today: altitude and jar may have changed since it was recorded.
ProcessRecord process_for(const plugin::Requester& core, const RunStart::Params& params,
                          const Inventory& inventory) {
    ProcessRecord record = load_process(core, params.process);
    const auto altitude = altitude_of(inventory.cellar);
    check_process(record.process, altitude);
    const auto size = jar_class_of(inventory.jar(params.jar));
    if (record.process.time < shortest_published(size) && !record.confirmed)
        throw Error(ErrorKind::conflict, "not_confirmed",
                    "The time of the process '" + record.process.name + "' is " +
                        std::string(shorter_than_published) + ". [S1 S2]",
                    "Record it again with --confirm '" + record.process.name +
                        "': barm process set.",
                    "/process");
    record.at_altitude = at_altitude(record.process.gauge, record.process.pressure, altitude);
    return record;
}

RunDocument document_for(const Context& context, const Call& call, const RunStart::Params& params) {
    const Inventory inventory = read_inventory(call);
    RunDocument run;
    run.started = call.arrived();
    run.started_by = call.caller();
    run.session = {context.session, context.session_began};
    const auto* canner = inventory.canner(params.canner);
    if (canner == nullptr)
        throw Error(ErrorKind::not_found, "unknown_canner", "No canner is known.",
                    "Add yours with barm canner set.", "/canner");
    run.canner = canner->name;
    require_canner_free(call, inventory, run.canner, context.run_rules);
    run.process = process_for(call, params, inventory);
    check_canner(*canner, run.process.process, params.jar, inventory.today);
    run.gauge_error = canner->gauge_error;
    run.target = target_of(*canner, run.process.process);
    run.good = inventory.good(Category::concentrate, params.good, "good").name;
    fill_from_plan(run, params, inventory, *canner, context.sensible);
    return run;
}

/// The record whose version every start counts up, so that of two starts at once the second one
/// looks again, and sees the canner and the extract that the first one took.
contract::RecordPut::Params count_start(const plugin::Requester& core) {
    contract::RecordPut::Params put;
    put.collection = "starts";
    put.name = "starts";
    put.expected = 0;
    try {
        contract::RecordGet::Params get;
        get.collection = put.collection;
        get.name = put.name;
        put.expected = core.call<contract::RecordGet>(get).version;
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::not_found)
            throw;
    }
    return put;
}

/// The number that the run will have: runs are never removed, and the record above keeps another
/// start from coming between.
std::int64_t next_number(const plugin::Requester& core) {
    contract::RecordList::Params params;
    params.collection = run_collection;
    params.order = contract::RecordOrder::newest;
    params.limit = 1;
    const auto newest = core.call<contract::RecordList>(params).records;
    return newest.empty() ? 1 : newest.front().number + 1;
}

} // namespace

RunDetails start_run(const Context& context, const Call& call, const RunStart::Params& params) {
    const auto done = call.once<contract::LedgerBatch>([&] {
        const auto counted = count_start(call); // before looking, or it would guard nothing
        contract::RecordAdd::Params add;
        add.collection = run_collection;
        const RunDocument document = document_for(context, call, params);
        add.document = to_json(document).as_object();
        add.state = std::string(state_open);
        Batch batch;
        batch.add<contract::RecordAdd>(add);
        batch.add<contract::RecordPut>(counted);
        batch.add<contract::EventPost>(started_event(next_number(call), document));
        return std::move(batch).steps();
    });
    const auto change = Batch::result<contract::RecordAdd>(done, 0);
    return details_of(run_after(call, change), change.changed, context.run_rules);
}

} // namespace barmkeep::canning
