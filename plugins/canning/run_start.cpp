#include "plugins/canning/canning.hpp"
#include "plugins/canning/process_check.hpp"

namespace barmkeep::canning {
namespace {

using contract::GoodClass;

std::string but_held(const std::optional<std::string>& held) {
    return held ? " (" + *held + " is held until its jars are shelved)" : "";
}

/// Everything that is short, in one error.
void require_feasible(const Plan& plan) {
    std::vector<FieldError> faults;
    for (const Need& need : plan.buying)
        faults.push_back({"", "not_enough",
                          "Short of " + need.good + " by " + to_text(need.short_by) + ": " +
                              to_text(need.need) + " needed, " + to_text(need.free) + " free" +
                              but_held(need.held) + ".",
                          need.buy ? "Buy " + std::to_string(*need.buy) + " of " +
                                         to_text(*need.package) + ", or plan fewer jars."
                                   : "Buy some, or plan fewer jars."});
    if (!faults.empty())
        throw Error(ErrorKind::not_enough, std::move(faults));
    if (plan.jars == 0)
        throw Error(ErrorKind::not_enough, "not_enough", "There is not enough for one jar.",
                    "canning.plan with jars 1 tells what is short.");
}

void require_room(const contract::Canner& canner, std::string_view jar, std::int64_t jars) {
    const std::int64_t most = capacity_of(canner, jar);
    if (jars > most)
        throw Error(ErrorKind::params, "more_than_canner",
                    std::to_string(jars) + " jars are more than the canner '" + canner.name +
                        "' holds: " + std::to_string(most) + " of '" + std::string(jar) + "'.",
                    "Start a run for each load; canning.plan tells the loads.", "/jars");
}

void require_canner_free(std::span<const KeptRun> runs, const std::string& canner,
                         const Rules& rules) {
    for (const KeptRun& run : runs) {
        const Phase phase = state_of(run.document, rules).phase;
        if (run.document.canner == canner && phase < Phase::seal_test)
            throw Error(
                ErrorKind::conflict, "canner_in_use",
                "The canner '" + canner + "' is in use by run " + std::to_string(run.document.run) +
                    ", now " + std::string(to_string(phase)) + ".",
                "Log it as opened (run.turn opened), or abandon it (run.abandon).", "/canner");
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
    for (auto& [good, amount] : used_beside_extract(wanted, there, made.jars))
        run.used.push_back({good, amount});
}

/// A second time in the canner for jars whose seal failed.
void fill_from_unsealed(RunDocument& run, const RunStart::Params& params, const Pantry& there,
                        const contract::Lot& lot, const RunState& first, Instant now) {
    const auto refuse = [](std::string_view reason, const std::string& message,
                           std::string_view hint) {
        throw Error(ErrorKind::conflict, reason, message, hint, "/again");
    };
    if (!lot.hold || !lot.hold->starts_with(unsealed_hold))
        refuse("not_unsealed", "Lot " + to_text(lot.code) + " is not of unsealed jars.",
               "run.seal with failed_to reprocess makes such a lot.");
    if (now - first.heat_off.value_or(first.since) > failed_jar_latest)
        refuse("too_late",
               "More than 24 hours have passed since the jars of lot " + to_text(lot.code) +
                   " were processed; they may not be processed again.",
               "Throw them out: stock.discard.");
    if (lot.facts.jar && *lot.facts.jar != params.jar)
        refuse("other_jar", "Lot " + to_text(lot.code) + " is in '" + *lot.facts.jar + "' jars.",
               "Name that jar size.");
    run.jars = params.jars.value_or(lot.on_hand.steps);
    if (run.jars != lot.on_hand.steps)
        refuse("counts_differ",
               "Lot " + to_text(lot.code) + " has " + std::to_string(lot.on_hand.steps) +
                   " jars, not " + std::to_string(run.jars) + ".",
               "Process all of them, or recount the lot first (stock.recount).");
    for (const RunDocument& other : there.open_runs)
        if (other.again == lot.code)
            refuse("in_another_run",
                   "The jars of lot " + to_text(lot.code) + " are in run " +
                       std::to_string(other.run) + " already.",
                   "Go on with that run, or abandon it (run.abandon).");
    run.again = lot.code;
    run.facts = lot.facts;
    const auto& lids = there.good(GoodClass::lids, params.lids, "lids");
    const Amount free = there.free_of(lids);
    if (free.steps < run.jars)
        throw Error(ErrorKind::not_enough, "not_enough",
                    "Each jar needs a new lid: " + std::to_string(run.jars) + " needed, " +
                        to_text(free) + " free" + but_held(there.held_of(lids)) + ".",
                    "Buy lids, or refrigerate the jars.", "/lids");
    run.used.push_back({lids.name, pieces(run.jars)});
}

} // namespace

RunDocument Canning::begun(const Call& call, const RunStart::Params& params,
                           std::span<const KeptRun> open) const {
    const Pantry there = pantry(call, open);
    RunDocument run;
    run.started = call.arrived();
    run.started_by = call.caller();
    run.session = session_;
    run.process = kept_process(call, params.process).process;
    const auto* canner = there.canner(params.canner);
    if (canner == nullptr)
        throw Error(ErrorKind::not_found, "unknown_canner", "No canner is known.",
                    "Make it known with canner.set.", "/canner");
    run.canner = canner->name;
    require_canner_free(open, run.canner, rules_);
    const auto altitude = altitude_of(there.cellar);
    check_process(run.process, altitude); // the cellar may have moved since it was recorded
    check_canner(*canner, run.process, there.jar(params.jar).name, there.today);
    run.at_altitude = at_altitude(run.process.gauge, run.process.pressure, altitude);
    run.gauge_error = canner->gauge_error;
    run.target = target_of(*canner, run.process);
    if (params.again) {
        const auto lot = call.call<contract::LotShow>({*params.again});
        const auto first = run_of(call, lot);
        fill_from_unsealed(run, params, there, lot,
                           first ? state_of(kept_run(call, *first).document, rules_) : RunState{},
                           run.started);
        run.good = lot.good;
        require_room(*canner, params.jar, run.jars);
    } else {
        run.good = there.good(GoodClass::concentrate, params.good, "good").name;
        fill_from_plan(run, params, there, *canner, {settings_.thin, settings_.thick});
    }
    return run;
}

RunShown Canning::start_run(const Call& call, const RunStart::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        const auto open = open_runs(call, rules_);
        const NextRun next = next_run(call, open);
        KeptRun run{begun(call, params, open), 0};
        run.document.run = next.run;
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        together.add<contract::RecordPut>(next.counter);
        together.add<contract::EventPost>(
            {"canning.turn", {{"run", next.run}, {"phase", "filling"}, {"restarts", 0}}});
        return std::move(together).steps();
    });
    return shown_first(done);
}

} // namespace barmkeep::canning
