// The listening side: admits clients, counts them, and sees them off.
#pragma once

#include "daemon/protocol/access.hpp"
#include "daemon/protocol/service.hpp"
#include "daemon/socket/loop.hpp"
#include "daemon/socket/place.hpp"

#include <chrono>

namespace barmkeep::socket {

struct ServerOptions {
    protocol::AccessRules access;
    protocol::NameOf name_of;                       ///< login names; empty: "uid 1001"
    std::size_t connections_max = 64;               ///< all together
    std::size_t connections_per_user = 32;          ///< of one uid
    std::chrono::milliseconds partial_line{30'000}; ///< from a line's first byte to its end
    std::chrono::milliseconds write{60'000};        ///< for a client to take what is written
    std::chrono::milliseconds farewell{5'000};      ///< from the reason said to the end
    std::function<void(std::string_view)> warn;     ///< called with what the operator should know
};

/// Serves a listening socket until it is drained.
///
/// REQUIRES: the loop outlives it; the method table outlives the service's last call.
/// Thread safety: any thread.
class Server {
public:
    Server(Loop& loop, std::shared_ptr<const protocol::Service> service, Bound bound,
           ServerOptions options);
    /// Stops listening and takes the socket's name away; connections end when the loop does.
    ~Server();
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;

    /// Begins to accept.
    void start();
    /// Clients being served now.
    [[nodiscard]] std::size_t connections() const;
    /// New rules.  Clients already there have their new rights from their next request on; one who
    /// is no longer admitted is informed, and the connection ends.
    void set_access(protocol::AccessRules access);

    /// Stops accepting and takes the socket's name away, refuses new requests as unavailable,
    /// waits for those in flight, writes what there is to write, closes.  Then calls `done`, once,
    /// on a thread of the loop.  Returns at once.
    void drain(std::function<void()> done);
    /// Takes the socket's name away, so that no one connects any more.  Again: without effect.
    void remove_name();
    /// Ends all connections without another word: for when draining takes too long.
    void close_all();

private:
    struct State;
    std::shared_ptr<State> state_;
};

} // namespace barmkeep::socket
