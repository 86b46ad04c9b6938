#include "daemon/client/local_time.hpp"

#include "daemon/client/value.hpp"

#include <array>
#include <charconv>
#include <date/tz.h>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

constexpr const char* shown = "%Y-%m-%d %H:%M:%S %Z";

/// "9:30", "09:30", "09:30:15" as seconds into the day.
std::optional<Seconds> clock_time(std::string_view text) {
    constexpr std::array<std::int64_t, 3> limits{24, 60, 60};
    std::array<std::int64_t, 3> parts{};
    std::size_t count = 0;
    const char* at = text.data();
    const char* const end = at + text.size();
    while (count < parts.size()) {
        const auto [next, fault] = std::from_chars(at, end, parts[count]);
        const bool is_long_enough = count == 0 ? next != at : next - at == 2;
        if (fault != std::errc{} || !is_long_enough || parts[count] < 0 ||
            parts[count] >= limits[count])
            return std::nullopt;
        ++count;
        if (next == end)
            break;
        if (*next != ':')
            return std::nullopt;
        at = next + 1;
    }
    if (count < 2)
        return std::nullopt;
    return Seconds{parts[0] * 3600 + parts[1] * 60 + parts[2]};
}

std::optional<Date> day_in(std::string_view text, const std::function<Date()>& today) {
    if (const auto relative = relative_date(text, today))
        return relative;
    try {
        return parse_date(text);
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

} // namespace

std::string local_text(Instant instant, const std::string& zone) {
    const auto second = std::chrono::floor<Seconds>(instant);
    if (zone != "UTC") {
        try {
            return date::format(shown, date::make_zoned(zone, second));
        } catch (const std::runtime_error&) { // shown in UTC then
        }
    }
    return date::format(shown, second);
}

Instant instant_of(Date day, Seconds into_day, const std::string& zone) {
    const date::local_seconds local{(std::chrono::sys_days{day} + into_day).time_since_epoch()};
    try {
        return date::locate_zone(zone)->to_sys(local);
    } catch (const std::runtime_error& error) { // of the zone database
        throw std::invalid_argument(fmt::format(
            "{}  Write the time with its offset, as in 2026-03-14T09:30:00+01:00.", error.what()));
    }
}

std::optional<Instant> local_instant(std::string_view text, const std::function<Date()>& today,
                                     const std::function<std::string()>& zone) {
    const auto space = text.rfind(' ');
    const auto time = clock_time(space == std::string_view::npos ? text : text.substr(space + 1));
    if (!time)
        return std::nullopt;
    const auto day =
        space == std::string_view::npos ? today() : day_in(text.substr(0, space), today);
    if (!day)
        return std::nullopt;
    return instant_of(*day, *time, zone());
}

} // namespace barmkeep::barm
