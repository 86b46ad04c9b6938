// Local days of instants that lie in the past.
//
// The core tells which day it is now; a log may tell of yesterday.
#pragma once

#include "sdk/method/time.hpp"

#include <string>

namespace barmkeep::canning {

/// The calendar day at an instant in a time zone, by its IANA name.
/// Throws Error(conflict, "zone_unknown") where this machine's database has no such zone.
[[nodiscard]] Date local_day(Instant instant, const std::string& zone);

/// "2026-03-03 04:12 (America/Chicago)", for sentences; the minute that has begun.  Throws as
/// local_day().
[[nodiscard]] std::string local_text(Instant instant, const std::string& zone);

} // namespace barmkeep::canning
