#include "daemon/socket/peer.hpp"

#include <sys/socket.h>

#include <cerrno>
#include <system_error>

namespace barmkeep::socket {
namespace {

std::vector<gid_t> groups_of(int socket) {
    std::vector<gid_t> groups(32);
    for (;;) {
        auto size = static_cast<socklen_t>(groups.size() * sizeof(gid_t));
        const int outcome = ::getsockopt(socket, SOL_SOCKET, SO_PEERGROUPS, groups.data(), &size);
        if (outcome != 0 && errno != ERANGE)
            return {}; // fewer groups only ever mean fewer rights
        groups.resize(size / sizeof(gid_t));
        if (outcome == 0)
            return groups;
    }
}

} // namespace

protocol::Peer peer_of(int socket) {
    ucred told{};
    socklen_t size = sizeof told;
    if (::getsockopt(socket, SOL_SOCKET, SO_PEERCRED, &told, &size) != 0)
        throw Error(ErrorKind::unavailable, "peer_unknown",
                    "The kernel does not say who is calling: " +
                        std::generic_category().message(errno) + ".");
    return {told.uid, told.gid, groups_of(socket), told.pid};
}

} // namespace barmkeep::socket
