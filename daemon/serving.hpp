// The daemon at work: from settings to the last reply.
#pragma once

#include "daemon/options.hpp"
#include "daemon/settings/sources.hpp"

namespace barmkeep::daemon {

/// Opens the cellar and serves it until a signal ends it.  Returns the exit code: 0 after SIGTERM
/// or SIGINT, 1 after a fault that a restart may fix.  Throws Error for what keeps it from
/// starting.
[[nodiscard]] int serve(const Options& options, const SettingSources& sources,
                        SettingsInForce settings);

} // namespace barmkeep::daemon
