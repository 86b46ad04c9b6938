// Local days.
#pragma once

#include "sdk/method/time.hpp"

namespace barmkeep::ledger {

/// The calendar day at an instant in a time zone of the IANA database.
/// Throws Error(params, "zone_unknown") if the machine's database has no such zone.
[[nodiscard]] Date local_day(Instant instant, const std::string& zone);

} // namespace barmkeep::ledger
