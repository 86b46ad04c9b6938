// The daemon's log.
#pragma once

#include "daemon/settings/settings.hpp"

#include <memory>
#include <spdlog/logger.h>

namespace barmkeep::daemon {

/// A logger to standard error, or to the journal where standard error ends there.
[[nodiscard]] std::shared_ptr<spdlog::logger> make_log(const LogSettings& settings);

/// Sets the level of a logger in use.
void set_level(spdlog::logger& log, LogLevel level);

} // namespace barmkeep::daemon
