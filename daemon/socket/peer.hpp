// Asks the kernel who is at the other end.
#pragma once

#include "daemon/protocol/access.hpp"

namespace barmkeep::socket {

/// The process that connected, as it was at that moment.  Throws Error(unavailable) if the kernel
/// does not say.
[[nodiscard]] protocol::Peer peer_of(int socket);

} // namespace barmkeep::socket
