#include "daemon/ledger/zone.hpp"

#include <date/tz.h>

namespace barmkeep::ledger {
namespace {

const date::time_zone* find_zone(const std::string& zone) {
    try {
        return date::locate_zone(zone);
    } catch (const std::runtime_error&) {
        throw Error(ErrorKind::params, "zone_unknown",
                    "This machine knows no time zone '" + zone + "'.",
                    "Write its IANA name, as in Europe/Vienna or America/Chicago.", "/time_zone");
    }
}

} // namespace

Date local_day(Instant instant, const std::string& zone) {
    // A cellar that was never told its zone must work on a machine without a zone database.
    if (zone == "UTC")
        return Date{std::chrono::floor<Days>(instant)};
    const auto local = find_zone(zone)->to_local(instant);
    return Date{std::chrono::sys_days{std::chrono::floor<Days>(local).time_since_epoch()}};
}

} // namespace barmkeep::ledger
