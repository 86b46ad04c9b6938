// Instants on the cellar's clock.
#pragma once

#include "sdk/method/time.hpp"

namespace barmkeep::barm {

/// "2026-03-14 09:30:00 CET": what a person reads has no milliseconds.  In UTC where this machine
/// does not know the zone, for the ledger's machine may know more.
[[nodiscard]] std::string local_text(Instant instant, const std::string& zone);

} // namespace barmkeep::barm
