// From the settings to what each room wants to know.
#pragma once

#include "daemon/host/host.hpp"
#include "daemon/ledger/ledger.hpp"
#include "daemon/protocol/access.hpp"
#include "daemon/protocol/limits.hpp"
#include "daemon/settings/settings.hpp"
#include "daemon/socket/server.hpp"

#include <memory>
#include <spdlog/logger.h>

namespace barmkeep::daemon {

/// Makes the folder of a file, for its owner only, where there is none yet, and sees that we may
/// write in it.  The file's path, absolute.  Throws Error(refused) where we may not, and
/// Error(unavailable) for other faults; both name the folder.
[[nodiscard]] std::filesystem::path ready_folder_of(const std::filesystem::path& file);

/// With the time limits kept on the loop's threads.
[[nodiscard]] executor::Executor::Options
executor_options(const Settings& settings, socket::Loop& loop, std::shared_ptr<spdlog::logger> log);
/// What service.status shows of the executor's queues.
[[nodiscard]] std::vector<contract::LaneStatus> lane_status(const executor::Executor& executor);
[[nodiscard]] ledger::Ledger::Options ledger_options(const LedgerSettings& settings);
/// `safe`: without plugins, until someone adds one.
[[nodiscard]] host::Host::Options host_options(const Settings& settings, bool safe);
[[nodiscard]] protocol::Limits limits_of(const LimitSettings& settings);
/// Looks the users and groups up.  Throws Error(params) for one that this machine does not know.
[[nodiscard]] protocol::AccessRules rules_of(const AccessSettings& settings);
[[nodiscard]] socket::ServerOptions server_options(const Settings& settings,
                                                   const std::shared_ptr<spdlog::logger>& log);

/// Where the listening socket comes from.
struct SocketSource {
    std::optional<int> inherited; ///< the one that the service manager made
    socket::Place place;          ///< else our own
};
/// To be asked once.  Throws Error(params) for what the settings are wrong about; changes nothing.
[[nodiscard]] SocketSource socket_source(const SocketSettings& settings);
/// Takes or makes the socket.  The folder it stands in, if there is none yet, lets those through
/// whom the socket's mode lets in; one that was there is left as it is, and the log says so if it
/// does not.  Throws as socket::Bound does.
[[nodiscard]] socket::Bound bound_socket(const SocketSource& source, spdlog::logger& log);

} // namespace barmkeep::daemon
