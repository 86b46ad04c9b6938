#include "plugins/canning/zone.hpp"

#include "sdk/method/error.hpp"

#include <date/tz.h>

namespace barmkeep::canning {
namespace {

date::local_time<Instant::duration> local_time(Instant instant, const std::string& zone) {
    // A cellar that was never told its zone must work on a machine without a zone database.
    if (zone == "UTC")
        return date::local_time<Instant::duration>{instant.time_since_epoch()};
    try {
        return date::locate_zone(zone)->to_local(instant);
    } catch (const std::runtime_error&) {
        throw Error(ErrorKind::conflict, "zone_unknown",
                    "This machine knows no time zone '" + zone + "'.",
                    "Set the cellar's again, by its IANA name: barm cellar set --time-zone "
                    "Europe/Vienna");
    }
}

} // namespace

Date local_day(Instant instant, const std::string& zone) {
    const auto day = std::chrono::floor<std::chrono::days>(local_time(instant, zone));
    return Date{std::chrono::sys_days{day.time_since_epoch()}};
}

std::string local_text(Instant instant, const std::string& zone) {
    const auto minute = std::chrono::floor<std::chrono::minutes>(local_time(instant, zone));
    return date::format("%F %R", minute) + " (" + zone + ")";
}

} // namespace barmkeep::canning
