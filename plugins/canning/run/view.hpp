// A run as a person sees it: its clock, what to do next, and what is wrong.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run/state.hpp"

namespace barmkeep::canning {

/// Where the run is, with what is new by its last line, at an instant.
[[nodiscard]] RunSummary summary_of(const Run& run, Instant at, const RunRules& rules);
/// All that is known of it.
[[nodiscard]] RunDetails details_of(const Run& run, Instant at, const RunRules& rules);
/// "at pressure 12 min 30 s, 7 min 30 s to go".
[[nodiscard]] std::string countdown(const RunSummary& run);

/// What to do next.
[[nodiscard]] std::string next_step_of(const RunState& state, const RunSummary& now);
/// The mistake that should be seen to first, if there is one: while it can be put right how to, and
/// afterwards what may become of the jars.
[[nodiscard]] std::optional<Alarm> alarm_in(const Run& run, const RunState& state, Instant at,
                                            const RunRules& rules);

} // namespace barmkeep::canning
