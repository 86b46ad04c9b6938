// The cellar's own facts, its day, and the whole of it at a glance.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

[[nodiscard]] contract::Cellar cellar_of(const View& view);
[[nodiscard]] contract::Glance glance_at(const View& view, const Call& call);

/// Tells that a day has begun, if the day at that moment is another than the last one told of.
void note_day(Transaction& transaction, Instant moment);

} // namespace barmkeep::ledger
