// The sheets of the plugin's methods: what a person reads of their answers.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/cost/messages.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::cost::sheets {

[[nodiscard]] sheet::Sheet jar(const CostJar::Params& params, const CostJar::Result& result);
[[nodiscard]] sheet::Sheet compared(const CostCompare::Params& params,
                                    const CostCompare::Result& result);

} // namespace barmkeep::cost::sheets
