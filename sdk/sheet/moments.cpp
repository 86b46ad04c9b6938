#include "sdk/sheet/moments.hpp"

#include "sdk/method/error.hpp"
#include "sdk/method/zone.hpp"

#include <cmath>
#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::array<std::string_view, 7> weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr std::int64_t minute = 60;
constexpr std::int64_t hour = 60 * minute;
constexpr std::int64_t day_length = 24 * hour;

std::string_view month_of(Date day) {
    return months.at(static_cast<unsigned>(day.month()) - 1);
}

std::string_view weekday_of(Date day) {
    return weekdays.at(std::chrono::weekday{std::chrono::sys_days{day}}.c_encoding());
}

std::string day_and_month(Date day) {
    return fmt::format("{} {}", static_cast<unsigned>(day.day()), month_of(day));
}

std::string near_text(Date day, Date today) {
    constexpr int two_months = 61;
    const int ahead = days_between(today, day);
    if (ahead == 0)
        return "today";
    if (ahead == 1)
        return "tomorrow";
    if (ahead == -1)
        return "yesterday";
    if (ahead > 1 && ahead < 7)
        return std::string(weekday_of(day));
    if (day.year() == today.year())
        return day_and_month(day);
    if (std::abs(ahead) <= two_months)
        return fmt::format("{} {}", day_and_month(day), static_cast<int>(day.year()));
    return fmt::format("{} {}", month_of(day), static_cast<int>(day.year()));
}

std::string dated_text(Date day, Date today) {
    std::string text = fmt::format("{} {}", weekday_of(day), day_and_month(day));
    if (day.year() != today.year())
        text += fmt::format(" {}", static_cast<int>(day.year()));
    return text;
}

/// An instant on the reader's clock.
struct LocalTime {
    Date day{};
    std::string time; ///< "18:00", with "UTC" behind it where the zone is not known here
};

LocalTime local_time(Instant instant, const Reader& reader) {
    const auto time_in = [&](const std::string& zone) {
        return LocalTime{local_day(instant, zone), local_text(instant, zone).substr(11, 5)};
    };
    try {
        return time_in(reader.time_zone);
    } catch (const Error&) { // another machine may know more zones
        LocalTime local = time_in("UTC");
        local.time += " UTC";
        return local;
    }
}

/// Whether a calendar shows it with four digits for the year.
bool is_on_calendar(Instant instant) {
    const auto day = std::chrono::floor<Days>(instant);
    const Date first{std::chrono::year{1}, std::chrono::month{1}, std::chrono::day{2}};
    const Date last{std::chrono::year{9999}, std::chrono::month{12}, std::chrono::day{30}};
    return day >= std::chrono::sys_days{first} && day <= std::chrono::sys_days{last};
}

/// "16:12", "1:05:30", "3 days".
std::string running_text(std::int64_t seconds) {
    if (seconds >= 2 * day_length)
        return duration_text(static_cast<double>(seconds));
    if (seconds >= hour)
        return fmt::format("{}:{:02}:{:02}", seconds / hour, seconds / minute % 60, seconds % 60);
    return fmt::format("{}:{:02}", seconds / minute, seconds % 60);
}

/// The time alone where it is today's.
std::string short_instant(Instant instant, const Reader& reader) {
    const std::string text = instant_text(instant, reader);
    constexpr std::string_view of_today = "today ";
    return text.starts_with(of_today) ? text.substr(of_today.size()) : text;
}

} // namespace

Date today(const Reader& reader) {
    return local_time(is_on_calendar(reader.now) ? reader.now : Instant{}, reader).day;
}

std::string day_text(Date day, const Reader& reader) {
    if (!day.ok())
        return "?";
    return reader.days_are_near ? near_text(day, today(reader)) : dated_text(day, today(reader));
}

std::string instant_text(Instant instant, const Reader& reader) {
    if (!is_on_calendar(instant))
        return "?";
    const LocalTime local = local_time(instant, reader);
    return day_text(local.day, reader) + " " + local.time;
}

std::string axis_day_text(Date day, bool has_year) {
    if (!day.ok())
        return "?";
    return has_year ? fmt::format("{} {}", month_of(day), static_cast<int>(day.year()))
                    : day_and_month(day);
}

std::string time_text(Instant instant, const Reader& reader) {
    return is_on_calendar(instant) ? local_time(instant, reader).time : "?";
}

std::string duration_text(double seconds) {
    constexpr double longest = 1e12; // some 30,000 years
    if (!std::isfinite(seconds) || std::abs(seconds) > longest)
        return "?";
    const std::string sign = seconds <= -0.5 ? "-" : "";
    const std::int64_t size = std::llround(std::abs(seconds));
    const auto pair = [&](std::int64_t unit, std::string_view word, std::int64_t smaller,
                          std::string_view smaller_word) {
        const std::int64_t whole = (size + smaller / 2) / smaller;
        const std::int64_t many = whole / (unit / smaller);
        const std::int64_t rest = whole % (unit / smaller);
        std::string text = fmt::format("{}{} {}", sign, many, word);
        return rest == 0 ? text : text + fmt::format(" {} {}", rest, smaller_word);
    };
    if (size < minute)
        return fmt::format("{}{} s", sign, size);
    if (size < 10 * minute)
        return pair(minute, "min", 1, "s");
    if (size < hour - minute / 2)
        return fmt::format("{}{} min", sign, (size + minute / 2) / minute);
    if (size < 2 * day_length)
        return pair(hour, "h", minute, "min");
    if (size < 7 * day_length)
        return pair(day_length, "days", hour, "h");
    return fmt::format("{}{} days", sign, (size + day_length / 2) / day_length);
}

Scale duration_scale(double seconds) {
    if (seconds < 2 * minute)
        return {"s"};
    if (seconds < 2 * hour)
        return {"min", static_cast<double>(minute)};
    if (seconds < 2 * day_length)
        return {"h", static_cast<double>(hour)};
    return {"days", static_cast<double>(day_length)};
}

std::string clock_text(const Clock& clock, const Reader& reader) {
    if (!is_on_calendar(clock.instant) || !is_on_calendar(reader.now))
        return "?";
    const auto apart = std::chrono::floor<Seconds>(clock.instant - reader.now).count();
    const std::string at = short_instant(clock.instant, reader);
    if (clock.counts == Counts::down)
        return apart >= 0 ? running_text(apart) + " left, until " + at
                          : "over since " + at + ", for " + running_text(-apart);
    return apart <= 0 ? running_text(-apart) + ", since " + at
                      : "begins at " + at + ", in " + running_text(apart);
}

std::string still_clock_text(const Clock& clock, const Reader& reader) {
    return (clock.counts == Counts::down ? "until " : "since ") +
           instant_text(clock.instant, reader);
}

} // namespace barmkeep::sheet
