// Why a connection could not be made, in words that help a person to fix it.
#pragma once

#include "sdk/method/error.hpp"

#include <string>

namespace barmkeep::client {

/// The Error(unavailable) for connecting to `path` with the system's error number.  Looks at the
/// file system to distinguish a wrong path, a stopped daemon and a missing right.
/// Reasons: no_socket, not_a_socket, nobody_listens, no_permission, timed_out, no_connection.
[[nodiscard]] Error connect_fault(const std::string& path, int error_number);

/// The Error(unavailable, "path_too_long").
[[nodiscard]] Error path_too_long(const std::string& path);

} // namespace barmkeep::client
