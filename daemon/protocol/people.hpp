// The users and groups of this machine.
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>

namespace barmkeep::protocol {

/// The login name of a user, nothing if there is none.  Asks the system's user database, which may
/// take a network's time.  Thread safety: any thread.
[[nodiscard]] std::optional<std::string> user_name(uid_t uid);
/// The number of a user, given by name or as a number.
[[nodiscard]] std::optional<uid_t> user_number(const std::string& name);
/// The number of a group, given by name or as a number.
[[nodiscard]] std::optional<gid_t> group_number(const std::string& name);

} // namespace barmkeep::protocol
