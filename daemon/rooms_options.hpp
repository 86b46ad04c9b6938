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

/// Makes the folder of a file, for its owner only, where there is none yet.  Throws
/// Error(unavailable) that names the folder.
void make_folder_of(const std::filesystem::path& file);

[[nodiscard]] ledger::Ledger::Options ledger_options(const LedgerSettings& settings);
[[nodiscard]] host::Host::Options host_options(const Settings& settings);
[[nodiscard]] protocol::Limits limits_of(const LimitSettings& settings);
/// Looks the users and groups up.  Throws Error(params) for one that this machine does not know.
[[nodiscard]] protocol::AccessRules rules_of(const AccessSettings& settings);
[[nodiscard]] socket::ServerOptions server_options(const Settings& settings,
                                                   const std::shared_ptr<spdlog::logger>& log);

/// The listening socket: the one the service manager made, or our own.
[[nodiscard]] socket::Bound bound_socket(const SocketSettings& settings);

} // namespace barmkeep::daemon
