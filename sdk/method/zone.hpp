// Local time: the one place that knows time zones.
//
// Thread safety: pure functions over the machine's zone database, which is read once.
#pragma once

#include "sdk/method/time.hpp"

namespace barmkeep {

/// The calendar day at an instant in a time zone of the IANA database.
/// Throws Error(params, "zone_unknown") if the machine's database has no such zone.
[[nodiscard]] Date local_day(Instant instant, const std::string& zone);

/// "2026-03-03 03:04 (America/Chicago)": the instant as a clock in that zone shows it.
/// Throws as local_day.
[[nodiscard]] std::string local_text(Instant instant, const std::string& zone);

} // namespace barmkeep
