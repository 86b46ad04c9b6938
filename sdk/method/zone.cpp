#include "sdk/method/zone.hpp"

#include "sdk/method/error.hpp"

#include <date/tz.h>

namespace barmkeep {
namespace {

using LocalTime = date::local_time<Instant::duration>;

LocalTime local_time(Instant instant, const std::string& zone) {
    // A cellar whose zone was never set must work on a machine without a zone database.
    if (zone == "UTC")
        return LocalTime{instant.time_since_epoch()};
    try {
        return date::locate_zone(zone)->to_local(instant);
    } catch (const std::runtime_error&) {
        throw Error(ErrorKind::params, "zone_unknown",
                    "This machine does not know the time zone '" + zone + "'.",
                    "Give its IANA name, such as Europe/Vienna or America/Chicago.", "/time_zone");
    }
}

} // namespace

Date local_day(Instant instant, const std::string& zone) {
    const auto day = std::chrono::floor<Days>(local_time(instant, zone));
    return Date{std::chrono::sys_days{day.time_since_epoch()}};
}

std::string local_text(Instant instant, const std::string& zone) {
    const LocalTime local = local_time(instant, zone);
    // The global locale has no say here, as it would in a formatted stream.
    std::string text = to_text(Instant{local.time_since_epoch()}).substr(0, 16);
    text[10] = ' ';
    return text + " (" + zone + ")";
}

} // namespace barmkeep
