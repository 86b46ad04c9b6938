#include "daemon/protocol/access.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::protocol {
namespace {

bool holds(const Grant& grant, const Peer& peer) {
    const auto has_group = [&](gid_t group) {
        return group == peer.gid ||
               std::find(peer.groups.begin(), peer.groups.end(), group) != peer.groups.end();
    };
    return std::find(grant.users.begin(), grant.users.end(), peer.uid) != grant.users.end() ||
           std::any_of(grant.groups.begin(), grant.groups.end(), has_group);
}

std::string name_for(const Peer& peer, const NameOf& name_of) {
    if (peer.uid == uid_unknown)
        return "an unknown user";
    const auto known = name_of ? name_of(peer.uid) : std::nullopt;
    return known ? *known : fmt::format("uid {}", peer.uid);
}

} // namespace

std::optional<Access> access_of(const Peer& peer, const AccessRules& rules) {
    if (peer.uid == uid_unknown)
        return rules.everybody;
    if (peer.uid == 0 || peer.uid == rules.owner || holds(rules.manage, peer))
        return Access::manage;
    std::optional<Access> widest = rules.everybody;
    if (holds(rules.look, peer))
        widest = std::max(widest, std::optional{Access::look});
    if (holds(rules.keep, peer))
        widest = std::max(widest, std::optional{Access::keep});
    return widest;
}

Caller caller_of(const Peer& peer, const AccessRules& rules, const NameOf& name_of) {
    const auto access = access_of(peer, rules);
    std::string name = name_for(peer, name_of);
    if (access)
        return {std::move(name), *access, {}};
    if (peer.uid == uid_unknown)
        throw Error(ErrorKind::refused, "user_unknown",
                    "The kernel does not know who is calling (uid 65534).",
                    "The caller or the daemon runs in a separate user namespace. Connect from "
                    "outside of it, or turn off PrivateUsers= in the daemon's unit.");
    throw Error(ErrorKind::refused, "not_admitted",
                fmt::format("{} (uid {}) may not use this cellar.", name, peer.uid),
                "Ask the cellar's owner to add you in the settings (section [access]).");
}

} // namespace barmkeep::protocol
