// The plugin's event of a run: canning.turn.
#pragma once

#include "plugins/canning/run/kept.hpp"

namespace barmkeep::canning {

/// Adds the event, if by its last line the run's phase or what it waits for has changed.  Its
/// `about` says by when a reading is due and when the time at pressure is over, so that a watcher
/// can raise an alarm; a change of what is wrong is said in it too.
void add_turn_event(Batch& batch, const Run& before, const LogLine& line, const RunRules& rules);

} // namespace barmkeep::canning
