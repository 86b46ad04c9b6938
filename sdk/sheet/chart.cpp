#include "sdk/sheet/chart.hpp"

namespace barmkeep::sheet {

double x_of(Date day) {
    return static_cast<double>(std::chrono::sys_days{day}.time_since_epoch().count());
}

double x_of(Instant instant) {
    return std::chrono::duration<double>(instant.time_since_epoch()).count();
}

} // namespace barmkeep::sheet
