// Who a peer is, and what it may do.
#pragma once

#include "sdk/method/call.hpp"

#include <sys/types.h>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace barmkeep::protocol {

/// The process at the other end of a local connection, as the kernel reports it.
struct Peer {
    uid_t uid = 0;
    gid_t gid = 0;
    std::vector<gid_t> groups; ///< supplementary ones
    pid_t pid = 0;             ///< for the log only: the number may have passed to another process
};

/// The kernel's stand-in for a user that this user namespace does not know.
inline constexpr uid_t uid_unknown = 65534;

/// Users and groups that hold a right.
struct Grant {
    std::vector<uid_t> users;
    std::vector<gid_t> groups;
};

/// The cellar's rules.  The owner and root may manage, always: both can read the ledger's file
/// anyway, and a cellar that locks out its owner helps nobody.
struct AccessRules {
    uid_t owner = 0; ///< the user that the daemon runs as
    Grant look;
    Grant keep;
    Grant manage;
    std::optional<Access> everybody; ///< what all others may do; nothing: they are not admitted
};

/// The widest right that the rules give, or nothing.  A peer whose user is unknown has only what
/// everybody has: any user of another namespace looks the same.
[[nodiscard]] std::optional<Access> access_of(const Peer& peer, const AccessRules& rules);

/// Finds the login name of a user.
using NameOf = std::function<std::optional<std::string>(uid_t)>;

/// The caller that methods see and the journal records: the login name, or "uid 1001" where the
/// user has none.  Throws Error(refused) for a peer who is not admitted.
[[nodiscard]] Caller caller_of(const Peer& peer, const AccessRules& rules, const NameOf& name_of);

} // namespace barmkeep::protocol
