#include "plugins/canning/canning.hpp"
#include "plugins/canning/plan/plan.hpp"
#include "plugins/canning/process/kept.hpp"

namespace barmkeep::canning {
namespace {

Plan make_plan(const Context& context, const Call& call, const CanningPlan::Params& params) {
    Plan made = plan(params, pantry(call), context.sensible);
    if (params.process) {
        const KeptProcess process = kept_process(call, *params.process);
        if (process.caution)
            made.concerns.insert(made.concerns.begin(), "The process '" + process.process.name +
                                                            "' is " + *process.caution + ".");
    }
    return made;
}

} // namespace

void declare_plan(Declaration& plugin) {
    plugin.method<CanningPlan>(&make_plan);
}

} // namespace barmkeep::canning
