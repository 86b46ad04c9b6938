// What every plugin of one host shares.
#pragma once

#include "daemon/executor/executor.hpp"
#include "sdk/method/call.hpp"
#include "sdk/method/clock.hpp"

namespace barmkeep::host {

/// Lives as long as the host.  All of it may be used from any thread.
struct HostContext {
    MethodTable& methods;
    executor::Executor& executor;
    const Clock& clock;
    std::shared_ptr<spdlog::logger> log;
    std::chrono::milliseconds call_time_max;
};

} // namespace barmkeep::host
