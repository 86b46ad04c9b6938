// Replays a run's log, from its first line to its last, into its state.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run/state.hpp"

namespace barmkeep::canning {

/// The state after the first `lines` lines, with what these strike out left out. What the strikes
/// themselves mean for the jars is state_of's.
[[nodiscard]] RunState replayed(const Run& run, const RunRules& rules, std::size_t lines);

} // namespace barmkeep::canning
