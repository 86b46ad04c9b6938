// One client's connection.
#pragma once

#include "daemon/protocol/session.hpp"
#include "daemon/socket/asio.hpp"

#include <memory>

namespace barmkeep::socket {

/// How long a connection may hold things up.  Time of the machine, not of the cellar.
struct Timeouts {
    std::chrono::milliseconds partial_line{30'000}; ///< from a line's first byte to its end
    std::chrono::milliseconds write{60'000};        ///< for the client to take one write
    std::chrono::milliseconds farewell{5'000};      ///< from the reason said to the end
};

/// Carries the bytes of a session: one coroutine reads, one writes, both on one strand.
///
/// Thread safety: the public functions may be called from any thread; what they do, and all else,
/// happens on the strand.
class Connection : public std::enable_shared_from_this<Connection> {
public:
    using Closed = std::function<void(const Connection&)>;
    using Warn = std::function<void(std::string_view)>;

    /// `closed` is called once, when nothing is left of the connection but its memory; `warn` is
    /// called for faults of ours.  Both are called on the strand.
    Connection(Stream stream, const Timeouts& timeouts, Closed closed, Warn warn);

    /// Opens the session and begins to read and write.
    void start(std::shared_ptr<const protocol::Service> service, Caller caller);
    /// Says why the client is not admitted, and ends.
    void refuse(std::shared_ptr<const protocol::Service> service, const Error& reason);
    /// The client's rights from now on; nothing: it is informed that it has none, and it ends.
    void set_access(std::optional<Access> access);
    /// Answers what is in flight, refuses what comes, then ends.  After start() or refuse().
    void drain();
    /// Ends without another word.
    void close_now();

private:
    using Shared = std::shared_ptr<Connection>;

    void open(std::shared_ptr<const protocol::Service> service, Caller caller);
    void spawn();
    void ended(const std::exception_ptr& failure);
    static asio::awaitable<void> read(Shared self);
    static asio::awaitable<void> write(Shared self);
    static asio::awaitable<void> wait_for_wake(Shared self, asio::steady_timer& alarm);

    void woken();
    void watch_partial_line();
    void end_writing();
    void finish();
    void arm(asio::steady_timer& timer, std::chrono::milliseconds after,
             void (Connection::*late)());
    void partial_line_late();
    void give_up();

    Stream stream_;
    const Timeouts timeouts_;
    Closed closed_;
    Warn warn_;
    std::shared_ptr<protocol::Session> session_;

    asio::steady_timer may_read_;  ///< never expires: cancelled to wake the reader
    asio::steady_timer may_write_; ///< the same for the writer
    asio::steady_timer line_timer_;
    asio::steady_timer write_timer_;
    asio::steady_timer farewell_timer_;
    std::optional<std::size_t> timed_line_; ///< which unfinished line line_timer_ is for
    bool farewell_begun_ = false;
    bool input_ended_ = false;
    bool output_ended_ = false;
    bool draining_ = false;
    bool finished_ = false;
};

} // namespace barmkeep::socket
