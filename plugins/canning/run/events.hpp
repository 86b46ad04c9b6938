// The plugin's events of a run: canning.run_started and canning.run_changed.
#pragma once

#include "plugins/canning/run/records.hpp"
#include "sdk/contract/event.hpp"

namespace barmkeep::canning {

/// canning.run_started: number, phase, canner and jars of a run that has just started.
[[nodiscard]] contract::EventPost::Params started_event(std::int64_t run,
                                                        const RunDocument& document);

/// Adds canning.run_changed, if by its last line the run's phase or what it waits for has changed.
/// Its `about` has the time by which a reading is due, the time at which the time at pressure is
/// over, and what is wrong, so that a watcher can raise an alarm.
void add_change_event(Batch& batch, const Run& before, const LogLine& line, const RunRules& rules);

} // namespace barmkeep::canning
