// The cellar's own facts, its day, and the whole of it at a glance.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

[[nodiscard]] contract::Cellar cellar_of(const View& view);
[[nodiscard]] contract::Glance glance_at(const View& view, const Call& call);

/// Sends the event that a day has begun, unless it was sent for the day of that moment.
void note_day(Transaction& transaction, Instant moment);

} // namespace barmkeep::ledger
