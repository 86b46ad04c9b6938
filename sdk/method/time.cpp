#include "sdk/method/time.hpp"

#include <cctype>
#include <charconv>
#include <date/date.h>
#include <fmt/format.h>
#include <sstream>

namespace barmkeep {
namespace {

/// The library's parse, with the whole text demanded.
template <class Value>
bool parsed(std::string_view text, const char* format, Value& value) {
    std::istringstream in{std::string(text)};
    in >> date::parse(format, value);
    return !in.fail() && in.peek() == std::char_traits<char>::eof();
}

Date from_library(date::year_month_day day) {
    return {std::chrono::year{int{day.year()}}, std::chrono::month{unsigned{day.month()}},
            std::chrono::day{unsigned{day.day()}}};
}

[[noreturn]] void refuse(std::string_view text, std::string_view what) {
    throw std::invalid_argument(fmt::format("'{}' is not a valid {}.", text, what));
}

std::string_view next_token(std::string_view& rest, bool digits) {
    while (!rest.empty() && rest.front() == ' ')
        rest.remove_prefix(1);
    std::size_t length = 0;
    while (length < rest.size() &&
           (std::isdigit(static_cast<unsigned char>(rest[length])) != 0) == digits &&
           rest[length] != ' ')
        ++length;
    const auto token = rest.substr(0, length);
    rest.remove_prefix(length);
    return token;
}

/// A whole number of a duration; nothing if it is none, or more than three years of seconds.
std::optional<std::int64_t> count_of(std::string_view digits) {
    constexpr std::int64_t count_max = 100'000'000;
    std::int64_t count = 0;
    const auto end = std::from_chars(digits.data(), digits.data() + digits.size(), count);
    if (digits.empty() || end.ec != std::errc{} || count > count_max)
        return std::nullopt;
    return count;
}

std::int64_t seconds_in(std::string_view unit) {
    if (unit == "s" || unit == "sec" || unit == "second" || unit == "seconds")
        return 1;
    if (unit == "min" || unit == "minute" || unit == "minutes")
        return 60;
    if (unit == "h" || unit == "hr" || unit == "hour" || unit == "hours")
        return 3600;
    if (unit == "d" || unit == "day" || unit == "days")
        return 86400;
    return 0;
}

/// Text of a value, or a fault that says what is wanted.
template <class Parse>
auto read_text(const json::value& value, ParseContext& reading, Parse parse, const char* reason,
               const char* hint) -> std::optional<decltype(parse(std::string_view{}))> {
    const auto* text = value.if_string();
    if (text == nullptr) {
        reading.fault("wrong_type", "This must be a text.", hint);
        return std::nullopt;
    }
    try {
        return parse(std::string_view(*text));
    } catch (const std::invalid_argument& error) {
        reading.fault(reason, error.what(), hint);
        return std::nullopt;
    }
}

} // namespace

std::string to_text(Date date) {
    return fmt::format("{:04}-{:02}-{:02}", int{date.year()}, unsigned{date.month()},
                       unsigned{date.day()});
}

std::string to_text(Instant instant) {
    if (instant.time_since_epoch().count() % 1000 == 0)
        return date::format("%FT%TZ", std::chrono::floor<std::chrono::seconds>(instant));
    return date::format("%FT%TZ", instant);
}

std::string to_text(Seconds duration) {
    const auto total = duration.count();
    std::string text;
    const auto add = [&](std::int64_t count, const char* unit) {
        if (count != 0)
            text += fmt::format("{}{} {}", text.empty() ? "" : " ", count, unit);
    };
    add(total / 3600, "h");
    add(total % 3600 / 60, "min");
    add(total % 60, "s");
    return text.empty() ? "0 s" : text;
}

Date parse_date(std::string_view text) {
    date::year_month_day day;
    for (const char* format : {"%Y-%m-%d", "%d.%m.%Y", "%d %b %Y"})
        if (parsed(text, format, day) && day.ok() && day.year() >= date::year{1900} &&
            day.year() <= date::year{9999})
            return from_library(day);
    refuse(text, "date; write it as 2026-03-14");
}

Instant parse_instant(std::string_view text) {
    date::sys_time<std::chrono::milliseconds> instant;
    if (parsed(text, "%FT%TZ", instant) || parsed(text, "%FT%T%Ez", instant))
        return instant;
    refuse(text, "time; write it as 2026-03-14T08:30:00Z");
}

Seconds parse_duration(std::string_view text) {
    std::string_view rest = text;
    std::int64_t total = 0;
    bool any = false;
    while (!rest.empty()) {
        const auto digits = next_token(rest, true);
        if (!any && rest.starts_with(':')) { // hours and minutes, as on a clock
            rest.remove_prefix(1);
            const auto minute_digits = next_token(rest, true);
            const auto hours = count_of(digits);
            const auto minutes = count_of(minute_digits);
            if (!hours || !minutes || minute_digits.size() != 2 || *minutes > 59 || !rest.empty())
                refuse(text, "duration; write hours and minutes as 1:30");
            return Seconds{*hours * 3600 + *minutes * 60};
        }
        const auto factor = seconds_in(next_token(rest, false));
        const auto count = count_of(digits);
        if (!count || factor == 0)
            refuse(text, "duration; write it as 25 min or 1 h 30 min");
        total += *count * factor;
        any = true;
        while (!rest.empty() && rest.front() == ' ')
            rest.remove_prefix(1);
    }
    if (!any)
        refuse(text, "duration; write it as 25 min or 1 h 30 min");
    return Seconds{total};
}

Date plus_days(Date date, int days) {
    return std::chrono::sys_days{date} + Days{days};
}

int days_between(Date from, Date to) {
    return static_cast<int>((std::chrono::sys_days{to} - std::chrono::sys_days{from}).count());
}

std::optional<Date> Codec<Date>::read(const json::value& value, ParseContext& reading) {
    return read_text(value, reading, parse_date, "not_a_date",
                     "Give year-month-day, such as 2026-03-14.");
}

std::optional<Instant> Codec<Instant>::read(const json::value& value, ParseContext& reading) {
    return read_text(value, reading, parse_instant, "not_an_instant",
                     "Give it as 2026-03-14T08:30:00Z.");
}

std::optional<Seconds> Codec<Seconds>::read(const json::value& value, ParseContext& reading) {
    if (value.is_number()) {
        const auto whole = Codec<std::int64_t>::read(value, reading);
        return whole ? std::optional{Seconds{*whole}} : std::nullopt;
    }
    return read_text(value, reading, parse_duration, "not_a_duration",
                     "Give it with its unit, such as 25 min or 90 s.");
}

json::object Codec<Seconds>::schema(Direction direction) {
    json::object schema{{"x-unit", "s"}};
    if (direction == Direction::taken)
        schema["type"] = json::array{"integer", "string"};
    else
        schema["type"] = "integer";
    return schema;
}

template struct detail::MemberOperations<Date>;
template struct detail::MemberOperations<std::optional<Date>>;
template struct detail::MemberOperations<Instant>;
template struct detail::MemberOperations<std::optional<Instant>>;
template struct detail::MemberOperations<Seconds>;
template struct detail::MemberOperations<std::optional<Seconds>>;

} // namespace barmkeep
