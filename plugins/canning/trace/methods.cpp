#include "plugins/canning/canning.hpp"
#include "plugins/canning/run/kept.hpp"
#include "plugins/canning/run/view.hpp"
#include "plugins/canning/trace/trail.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

std::vector<contract::Entry> all_entries(const plugin::Requester& core,
                                         contract::EntryList::Params params) {
    return plugin::all_pages<contract::EntryList>(core, std::move(params),
                                                  &contract::EntryList::Result::entries);
}

Journal journal_of(const plugin::Requester& core) {
    return {[&core](const LotCode& lot) { return core.call<contract::LotShow>({lot}); },
            [&core](const LotCode& lot) {
                contract::EntryList::Params params;
                params.lot = lot;
                return all_entries(core, params);
            }};
}

TracedRun traced_run(const KeptRun& run, Instant now, const RunRules& rules) {
    RunShown view = shown(run, now, rules);
    return {view.run,
            view.phase,
            view.process,
            view.process_caution,
            run.begun.started,
            view.restarts,
            std::move(view.warnings),
            view.seals,
            run.log};
}

/// Looks up the runs and brews of a trail.
Traced resolved(const Context& context, const Call& call, Trail trail) {
    Traced traced;
    std::ranges::sort(trail.runs);
    for (const auto run : trail.runs)
        traced.runs.push_back(
            traced_run(kept_run(call, run), context.host.now(), context.run_rules));
    for (const auto brew : trail.brews)
        traced.brews.push_back(call.call<contract::BrewShow>({brew}));
    for (const auto& one : trail.lots)
        if (one.lot.supplier &&
            std::ranges::find(traced.suppliers, *one.lot.supplier) == traced.suppliers.end())
            traced.suppliers.push_back(*one.lot.supplier);
    traced.lots = std::move(trail.lots);
    traced.uses = std::move(trail.uses);
    traced.cautions = cautions(Moment::storing);
    return traced;
}

Traced trace_lot(const Context& context, const Call& call, const TraceLot::Params& params) {
    return resolved(context, call, trail_of(params.lot, journal_of(call)));
}

Traced trace_brew(const Context& context, const Call& call, const TraceBrew::Params& params) {
    (void)call.call<contract::BrewShow>({params.brew});
    contract::EntryList::Params of_brew;
    of_brew.brew = params.brew;
    Trail all;
    for (const auto& entry : all_entries(call, of_brew))
        for (const auto& line : entry.lines)
            if (line.quantity.steps < 0 && !entry.undone_by)
                merge(all, trail_of(line.lot, journal_of(call)));
    std::erase_if(all.uses, [&](const TracedUse& use) { return use.brew != params.brew; });
    all.brews = {params.brew};
    return resolved(context, call, std::move(all));
}

} // namespace

void declare_trace(Declaration& plugin) {
    plugin.method<TraceLot>(&trace_lot);
    plugin.method<TraceBrew>(&trace_brew);
}

} // namespace barmkeep::canning
