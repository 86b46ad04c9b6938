#include "plugins/canning/canning.hpp"
#include "plugins/canning/run/records.hpp"
#include "plugins/canning/run/view.hpp"
#include "plugins/canning/storage/signs.hpp"
#include "plugins/canning/trace/tracer.hpp"
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

TracedRun traced_run(const RunRecord& run, Instant now, const RunRules& rules) {
    RunDetails view = details_of(run, now, rules);
    return {view.run,
            view.phase,
            view.process,
            view.process_note,
            run.begun.started,
            view.restarts,
            std::move(view.warnings),
            view.seals,
            run.log};
}

/// Looks up the runs and brews of a trace.
TraceResult resolved(const Context& context, const Call& call, LotTrace trace) {
    TraceResult traced;
    std::ranges::sort(trace.runs);
    for (const auto run : trace.runs)
        traced.runs.push_back(
            traced_run(load_run(call, run), context.host.now(), context.run_rules));
    for (const auto brew : trace.brews)
        traced.brews.push_back(call.call<contract::BrewShow>({brew}));
    for (const auto& one : trace.lots)
        if (one.lot.supplier &&
            std::ranges::find(traced.suppliers, *one.lot.supplier) == traced.suppliers.end())
            traced.suppliers.push_back(*one.lot.supplier);
    for (const auto& one : trace.lots)
        for (const auto& note : process_notes(one.lot.facts))
            traced.notes.push_back(to_text(one.lot.code) + ": " + note);
    traced.lots = std::move(trace.lots);
    traced.uses = std::move(trace.uses);
    traced.cautions = cautions(Moment::storing);
    return traced;
}

TraceResult trace_lot(const Context& context, const Call& call, const TraceLot::Params& params) {
    return resolved(context, call, trace_of(params.lot, journal_of(call)));
}

TraceResult trace_brew(const Context& context, const Call& call, const TraceBrew::Params& params) {
    (void)call.call<contract::BrewShow>({params.brew});
    contract::EntryList::Params of_brew;
    of_brew.brew = params.brew;
    LotTrace all;
    for (const auto& entry : all_entries(call, of_brew))
        for (const auto& line : entry.lines)
            if (line.quantity.steps < 0 && !entry.undone_by)
                merge(all, trace_of(line.lot, journal_of(call)));
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
