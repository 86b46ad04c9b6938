// Days, instants and durations as this reader says them.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/figures.hpp"

namespace barmkeep::sheet {

/// "today", "tomorrow", "yesterday", "Sat" (two to six days ahead), "21 Mar" (the same year, or
/// within two months), else "Mar 2027".  Where days are not near: "Sat 24 Oct", with the year if it
/// is another.
[[nodiscard]] std::string day_text(Date day, const Reader& reader);
/// "today 18:00", "Sat 18:00", "21 Mar 18:00".
[[nodiscard]] std::string instant_text(Instant instant, const Reader& reader);
/// "45 s", "25 min", "1 h 30 min", "36 h", "2 days 5 h", "181 days".
[[nodiscard]] std::string duration_text(double seconds);
/// A day under an axis: "18 Oct", or "Oct 2026" where the axis spans a year.
[[nodiscard]] std::string axis_day_text(Date day, bool has_year);
/// The time of day of an instant, "18:00".
[[nodiscard]] std::string time_text(Instant instant, const Reader& reader);
/// The unit of an axis of durations: s, min, h or days.
[[nodiscard]] Scale duration_scale(double seconds);
/// A running clock: "16:12 left, until 10:55", "over since 10:55", "0:25, since 10:30".
[[nodiscard]] std::string clock_text(const Clock& clock, const Reader& reader);
/// The instant of a clock alone, for what does not run: "until Sat 24 Oct 10:55".
[[nodiscard]] std::string still_clock_text(const Clock& clock, const Reader& reader);

} // namespace barmkeep::sheet
