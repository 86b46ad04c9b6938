// Days, instants and durations.
//
// What happens in a brewery happens on a local day (`Date`); what the ledger notes happened at an
// instant, in UTC (`Instant`).  Neither is a text anywhere but on the wire.
#pragma once

#include "sdk/method/field.hpp"

#include <chrono>

namespace barmkeep {

using Date = std::chrono::year_month_day;
using Days = std::chrono::days;
/// UTC, to the millisecond.
using Instant = std::chrono::sys_time<std::chrono::milliseconds>;
using Seconds = std::chrono::seconds;

/// "2026-03-14".
[[nodiscard]] std::string to_text(Date date);
/// "2026-03-14T08:30:00Z", with milliseconds only where there are any.
[[nodiscard]] std::string to_text(Instant instant);
/// "1 h 30 min", "25 min", "45 s".
[[nodiscard]] std::string to_text(Seconds duration);

/// Reads "2026-03-14", "14.3.2026" and "14 Mar 2026".  A date with slashes is refused, for half
/// the world would read it otherwise.  Throws std::invalid_argument that says what to write.
[[nodiscard]] Date parse_date(std::string_view text);
/// Reads RFC 3339: "2026-03-14T08:30:00Z" or with an offset.  Throws std::invalid_argument.
[[nodiscard]] Instant parse_instant(std::string_view text);
/// Reads "25 min", "1 h 30 min", "90 s", "1:30" (hours and minutes).  Throws
/// std::invalid_argument.
[[nodiscard]] Seconds parse_duration(std::string_view text);

/// The day so many days later.
[[nodiscard]] Date plus_days(Date date, int days);
/// Days from one date to another; negative when `to` is earlier.
[[nodiscard]] int days_between(Date from, Date to);

template <>
struct Codec<Date> {
    static std::optional<Date> read(const json::value& value, ParseContext& reading);
    static json::value write(Date value) { return json::value(to_text(value)); }
    static json::object schema(Direction) { return {{"type", "string"}, {"format", "date"}}; }
};

template <>
struct Codec<Instant> {
    static std::optional<Instant> read(const json::value& value, ParseContext& reading);
    static json::value write(Instant value) { return json::value(to_text(value)); }
    static json::object schema(Direction) { return {{"type", "string"}, {"format", "date-time"}}; }
};

/// On the wire seconds as a number; a person may write `25 min`.
template <>
struct Codec<Seconds> {
    static std::optional<Seconds> read(const json::value& value, ParseContext& reading);
    static json::value write(Seconds value) { return value.count(); }
    static json::object schema(Direction direction);
    static double measure(Seconds value) { return static_cast<double>(value.count()); }
};

extern template struct detail::MemberOperations<Date>;
extern template struct detail::MemberOperations<std::optional<Date>>;
extern template struct detail::MemberOperations<Instant>;
extern template struct detail::MemberOperations<std::optional<Instant>>;
extern template struct detail::MemberOperations<Seconds>;
extern template struct detail::MemberOperations<std::optional<Seconds>>;

} // namespace barmkeep
