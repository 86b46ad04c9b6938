#include "plugins/canning/canning.hpp"
#include "plugins/canning/plan/plan.hpp"
#include "plugins/canning/process/records.hpp"

namespace barmkeep::canning {
namespace {

Plan make_plan(const Context& context, const Call& call, const CanningPlan::Params& params) {
    Plan made = plan(params, read_inventory(call), context.sensible);
    if (params.process) {
        const ProcessRecord process = load_process(call, *params.process);
        if (process.process_note)
            made.warnings.insert(made.warnings.begin(), "The process '" + process.process.name +
                                                            "' is " + *process.process_note + ".");
    }
    return made;
}

} // namespace

void declare_plan(Declaration& plugin) {
    plugin.method<CanningPlan>(&make_plan);
}

} // namespace barmkeep::canning
