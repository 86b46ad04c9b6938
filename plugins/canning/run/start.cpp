#include "plugins/canning/run/start.hpp"

#include "plugins/canning/plan/plan.hpp"
#include "plugins/canning/process/check.hpp"
#include "plugins/canning/process/kept.hpp"
#include "plugins/canning/run/kept.hpp"
#include "plugins/canning/run/view.hpp"

namespace barmkeep::canning {
namespace {

using contract::Category;

std::string but_held(const std::optional<std::string>& held) {
    return held ? " (" + *held + " is held until its jars are shelved)" : "";
}

/// Everything that is short, in one error.
void require_feasible(const Plan& plan) {
    std::vector<FieldError> faults;
    for (const Need& need : plan.buying)
        faults.push_back({"", "not_enough",
                          "Short of " + need.good + " by " + to_text(need.short_by) + ": " +
                              to_text(need.need) + " needed, " + to_text(need.available) +
                              " available" + but_held(need.held) + ".",
                          need.buy ? "Buy " + std::to_string(*need.buy) + " of " +
                                         to_text(*need.package) + ", or plan fewer jars."
                                   : "Buy some, or plan fewer jars."});
    if (!faults.empty())
        throw Error(ErrorKind::not_enough, std::move(faults));
    if (plan.jars == 0)
        throw Error(ErrorKind::not_enough, "not_enough", "There is not enough for one jar.",
                    "See what is short: barm canning plan with 1 jar.");
}

void require_room(const contract::Canner& canner, std::string_view jar, std::int64_t jars) {
    const std::int64_t most = capacity_of(canner, jar);
    if (jars > most)
        throw Error(ErrorKind::params, "more_than_canner",
                    std::to_string(jars) + " jars are more than the canner '" + canner.name +
                        "' holds: " + std::to_string(most) + " of '" + std::string(jar) + "'.",
                    "Start a run for each load: barm canning plan shows the loads.", "/jars");
}

void require_canner_free(const plugin::Requester& core, const Pantry& there,
                         const std::string& canner, const RunRules& rules) {
    for (const OpenRun& open : there.open_runs) {
        if (open.canner != canner)
            continue;
        const Phase phase = state_of(kept_run(core, open.run), rules).phase;
        if (phase < Phase::seal_test)
            throw Error(ErrorKind::conflict, "canner_in_use",
                        "The canner '" + canner + "' is in use by run " + std::to_string(open.run) +
                            ", now " + std::string(to_string(phase)) + ".",
                        "Log it as opened (barm run log), or abandon it (barm run abandon).",
                        "/canner");
    }
}

void fill_from_plan(RunDocument& run, const Wanted& wanted, const Pantry& there,
                    const contract::Canner& canner, const SensibleRange& sensible) {
    const Plan made = plan(wanted, there, sensible);
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
    run.facts.process_note = run.process.caution;
    run.used = used_beside_extract(wanted, there, made.jars);
}

/// The process as it is today: the cellar may have moved, or the jar be another one, since it was
/// recorded.
KeptProcess process_for(const plugin::Requester& core, const RunStart::Params& params,
                        const Pantry& there) {
    KeptProcess kept = kept_process(core, params.process);
    const auto altitude = altitude_of(there.cellar);
    check_process(kept.process, altitude);
    const auto size = jar_class_of(there.jar(params.jar));
    if (kept.process.time < shortest_published(size) && !kept.confirmed)
        throw Error(ErrorKind::conflict, "not_confirmed",
                    "The time of the process '" + kept.process.name + "' is " +
                        std::string(shorter_than_published) + ".  [S1 S2]",
                    "Record the process again and confirm it by name: barm process set.",
                    "/process");
    kept.at_altitude = at_altitude(kept.process.gauge, kept.process.pressure, altitude);
    return kept;
}

RunDocument begun(const Context& context, const Call& call, const RunStart::Params& params) {
    const Pantry there = pantry(call);
    RunDocument run;
    run.started = call.arrived();
    run.started_by = call.caller();
    run.session = {context.session, context.session_began};
    const auto* canner = there.canner(params.canner);
    if (canner == nullptr)
        throw Error(ErrorKind::not_found, "unknown_canner", "No canner is known.",
                    "Add it: barm canner set.", "/canner");
    run.canner = canner->name;
    require_canner_free(call, there, run.canner, context.run_rules);
    run.process = process_for(call, params, there);
    check_canner(*canner, run.process.process, params.jar, there.today);
    run.gauge_error = canner->gauge_error;
    run.target = target_of(*canner, run.process.process);
    run.good = there.good(Category::concentrate, params.good, "good").name;
    fill_from_plan(run, params, there, *canner, context.sensible);
    return run;
}

/// The record whose version every start counts up, so that of two who begin at once the second
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

} // namespace

RunShown start_run(const Context& context, const Call& call, const RunStart::Params& params) {
    // That it has begun is the core's own event, record.changed: the number is not known before.
    const auto done = call.once<contract::LedgerBatch>([&] {
        const auto counted = count_start(call); // before looking, or it would guard nothing
        contract::RecordAdd::Params add;
        add.collection = run_collection;
        add.document = to_json(begun(context, call, params)).as_object();
        add.state = std::string(state_open);
        Batch batch;
        batch.add<contract::RecordAdd>(add);
        batch.add<contract::RecordPut>(counted);
        return std::move(batch).steps();
    });
    const auto change = Batch::result<contract::RecordAdd>(done, 0);
    return shown(run_after(call, change), change.changed, context.run_rules);
}

} // namespace barmkeep::canning
