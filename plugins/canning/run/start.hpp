// Starting a run.
#pragma once

#include "plugins/canning/context.hpp"
#include "plugins/canning/run/messages.hpp"

namespace barmkeep::canning {

/// run.start
[[nodiscard]] RunDetails start_run(const Context& context, const Call& call,
                                   const RunStart::Params& params);

} // namespace barmkeep::canning
