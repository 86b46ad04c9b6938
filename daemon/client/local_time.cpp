#include "daemon/client/local_time.hpp"

#include <date/tz.h>

namespace barmkeep::barm {
namespace {

constexpr const char* shown = "%Y-%m-%d %H:%M:%S %Z";

} // namespace

std::string local_text(Instant instant, const std::string& zone) {
    const auto second = std::chrono::floor<Seconds>(instant);
    if (zone != "UTC") {
        try {
            return date::format(shown, date::make_zoned(zone, second));
        } catch (const std::runtime_error&) { // told in UTC then
        }
    }
    return date::format(shown, second);
}

} // namespace barmkeep::barm
