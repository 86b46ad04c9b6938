// Events as they are stored.
#pragma once

#include "daemon/ledger/view.hpp"

namespace barmkeep::ledger {

/// The number of the last event; 0 before the first.
[[nodiscard]] std::int64_t last_event(const View& view);

/// Throws Error(conflict): "events_gone" if some of the events after this number are no longer
/// kept, "events_ahead" for a number that was never reached.
void require_events_after(const View& view, std::int64_t after);
/// The first events after a number, in order; at most `count_max`.
[[nodiscard]] std::vector<contract::Event> events_after(const View& view, std::int64_t after,
                                                        std::int64_t count_max);

} // namespace barmkeep::ledger
