// What every plugin of one host shares.
#pragma once

#include "daemon/host/deadlines.hpp"
#include "daemon/host/workers.hpp"
#include "sdk/method/call.hpp"
#include "sdk/method/clock.hpp"

#include <spdlog/logger.h>

namespace barmkeep::host {

/// Lives as long as the host.  All of it may be used from any thread.
struct Surroundings {
    MethodTable& methods;
    const Clock& clock;
    std::shared_ptr<spdlog::logger> log;
    std::chrono::milliseconds call_time_max;
    std::shared_ptr<Deadlines> deadlines;
    /// After the deadlines, so that it ends first: its jobs use them.
    Workers workers;
};

} // namespace barmkeep::host
