#include "plugins/canning/canning.hpp"
#include "plugins/canning/trace.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

Journal journal_of(const plugin::Requester& core) {
    return {[&core](const LotCode& lot) { return core.call<contract::LotShow>({lot}); },
            [&core](const LotCode& lot) {
                contract::EntryList::Params params;
                params.lot = lot;
                return all_entries(core, params);
            },
            [&core](const contract::Entry& entry) {
                return run_of(core, entry);
            }};
}

TracedRun traced_run(const RunDocument& run, Instant now, const Rules& rules) {
    RunShown view = shown(run, now, rules);
    return {view.run,      view.phase,    run.process, run.started,
            view.restarts, view.warnings, run.seals,   run.log};
}

/// Looks up the runs and brews of a trail.
Traced told(const plugin::Requester& core, Trail trail, Instant now, const Rules& rules) {
    Traced traced;
    std::ranges::sort(trail.runs);
    for (const auto run : trail.runs)
        traced.runs.push_back(traced_run(kept_run(core, run).document, now, rules));
    for (const auto brew : trail.brews)
        traced.brews.push_back(core.call<contract::BrewShow>({brew}));
    for (const auto& one : trail.lots)
        if (one.lot.supplier &&
            std::ranges::find(traced.suppliers, *one.lot.supplier) == traced.suppliers.end())
            traced.suppliers.push_back(*one.lot.supplier);
    traced.lots = std::move(trail.lots);
    traced.uses = std::move(trail.uses);
    traced.cautions = cautions(Moment::storing);
    return traced;
}

} // namespace

Traced Canning::trace_lot(const Call& call, const TraceLot::Params& params) {
    return told(call, trail_of(params.lot, journal_of(call)), host_.now(), rules_);
}

Traced Canning::trace_brew(const Call& call, const TraceBrew::Params& params) {
    (void)call.call<contract::BrewShow>({params.brew});
    contract::EntryList::Params of_brew;
    of_brew.brew = params.brew;
    Trail all;
    for (const auto& entry : all_entries(call, of_brew))
        for (const auto& line : entry.lines)
            if (line.quantity.steps < 0 && !entry.corrected_by)
                merge(all, trail_of(line.lot, journal_of(call)));
    std::erase_if(all.uses, [&](const TracedUse& use) { return use.brew != params.brew; });
    all.brews = {params.brew};
    return told(call, std::move(all), host_.now(), rules_);
}

} // namespace barmkeep::canning
