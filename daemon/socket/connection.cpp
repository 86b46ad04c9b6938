#include "daemon/socket/connection.hpp"

#include <array>

namespace barmkeep::socket {
namespace {

constexpr std::size_t bytes_per_read = 16 << 10;

} // namespace

Connection::Connection(Stream stream, const Timeouts& timeouts, Closed closed, Warn warn)
    : stream_{std::move(stream)}, timeouts_{timeouts}, closed_{std::move(closed)},
      warn_{std::move(warn)}, may_read_{stream_.get_executor()}, may_write_{stream_.get_executor()},
      line_timer_{stream_.get_executor()}, write_timer_{stream_.get_executor()},
      farewell_timer_{stream_.get_executor()} {
    may_read_.expires_at(asio::steady_timer::time_point::max());
    may_write_.expires_at(asio::steady_timer::time_point::max());
}

void Connection::open(std::shared_ptr<const protocol::Service> service, Caller caller) {
    // The session may outlive the connection, in the hands of a method that still works.
    session_ =
        protocol::Session::open(std::move(service), std::move(caller), [self = weak_from_this()] {
            if (const auto connection = self.lock())
                asio::post(connection->stream_.get_executor(),
                           [connection] { connection->woken(); });
        });
}

void Connection::start(std::shared_ptr<const protocol::Service> service, Caller caller) {
    asio::post(stream_.get_executor(), [self = shared_from_this(), service = std::move(service),
                                        caller = std::move(caller)] {
        self->open(service, caller);
        self->spawn();
    });
}

void Connection::refuse(std::shared_ptr<const protocol::Service> service, const Error& reason) {
    asio::post(stream_.get_executor(),
               [self = shared_from_this(), service = std::move(service), reason] {
                   self->open(service, {});
                   self->session_->close(reason); // before anything is read
                   self->spawn();
               });
}

void Connection::set_access(std::optional<Access> access) {
    asio::post(stream_.get_executor(), [self = shared_from_this(), access] {
        if (self->session_)
            self->session_->set_access(access);
    });
}

void Connection::drain() {
    asio::post(stream_.get_executor(), [self = shared_from_this()] {
        self->draining_ = true;
        if (self->output_ended_)
            return self->finish();
        if (self->session_)
            self->session_->stop_taking();
    });
}

void Connection::spawn() {
    const Shared self = shared_from_this();
    const auto end = [self](std::exception_ptr failure) {
        self->ended(failure);
    };
    asio::co_spawn(stream_.get_executor(), read(self), end);
    asio::co_spawn(stream_.get_executor(), write(self), end);
}

/// A coroutine of ours ends by return.  What comes out of it is our fault or want of memory: this
/// connection is given up, so that its client sees it, and the others go on.
void Connection::ended(const std::exception_ptr& failure) {
    if (!failure)
        return;
    try {
        std::rethrow_exception(failure);
    } catch (const std::exception& error) {
        warn_(std::string("A connection ends because of a fault of the daemon: ") + error.what());
    }
    if (!finished_)
        give_up();
}

void Connection::close_now() {
    asio::post(stream_.get_executor(), [self = shared_from_this()] { self->give_up(); });
}

asio::awaitable<void> Connection::wait_for_wake(Shared, asio::steady_timer& alarm) {
    // Between the caller's look at the session and this wait nothing else runs on the strand, and
    // woken() runs on it too: no wake is lost.
    error_code ignored;
    co_await alarm.async_wait(asio::redirect_error(asio::use_awaitable, ignored));
}

asio::awaitable<void> Connection::read(Shared self) {
    std::array<char, bytes_per_read> bytes;
    error_code error;
    while (!self->finished_) {
        if (!self->session_->wants_input()) {
            self->line_timer_.cancel(); // it is we who do not read its rest
            self->timed_line_.reset();
            co_await wait_for_wake(self, self->may_read_);
            self->watch_partial_line();
            continue;
        }
        const std::size_t count = co_await self->stream_.async_read_some(
            asio::buffer(bytes), asio::redirect_error(asio::use_awaitable, error));
        if (error)
            break;
        self->session_->take({bytes.data(), count});
        self->watch_partial_line();
    }
    if (self->finished_)
        co_return;
    self->input_ended_ = true;
    self->session_->end_of_input();
    self->woken();
    if (self->output_ended_)
        co_return self->finish();
    if (self->session_->is_closing())
        co_return; // the writer says why, and ends it
    // The client may have closed one direction only and still wait for its answers.  If it is gone
    // altogether, this wait ends.
    co_await self->stream_.async_wait(Stream::wait_error,
                                      asio::redirect_error(asio::use_awaitable, error));
    if (!self->finished_)
        self->give_up();
}

asio::awaitable<void> Connection::write(Shared self) {
    error_code error;
    while (!self->finished_) {
        const auto bytes = self->session_->next_output();
        if (!bytes && self->session_->is_finished())
            break;
        if (!bytes) {
            co_await wait_for_wake(self, self->may_write_);
            continue;
        }
        self->arm(self->write_timer_, self->timeouts_.write, &Connection::give_up);
        co_await asio::async_write(self->stream_, asio::buffer(*bytes),
                                   asio::redirect_error(asio::use_awaitable, error));
        self->write_timer_.cancel();
        self->may_read_.cancel(); // there may be room again for what the next request answers
        if (error)
            co_return self->give_up();
    }
    self->end_writing();
}

void Connection::woken() {
    may_read_.cancel();
    may_write_.cancel();
    if (!farewell_begun_ && session_->is_closing() && !finished_) {
        farewell_begun_ = true;
        line_timer_.cancel();
        arm(farewell_timer_, timeouts_.farewell, &Connection::give_up);
    }
}

/// A line that has begun must end in time, or a client could hold its place for ever.
void Connection::watch_partial_line() {
    const auto line = session_->partial_line();
    if (line == timed_line_)
        return;
    timed_line_ = line;
    if (line)
        arm(line_timer_, timeouts_.partial_line, &Connection::partial_line_late);
    else
        line_timer_.cancel();
}

/// Everything is written.  If the client may still be sending, only our direction is closed and
/// what it sends is read and thrown away for a while: to close a socket with bytes unread would
/// break the client's own writing before it has read the reason.
void Connection::end_writing() {
    if (finished_)
        return;
    if (input_ended_ || draining_)
        return finish();
    error_code ignored;
    stream_.shutdown(Stream::shutdown_send, ignored);
    output_ended_ = true;
    woken();
}

void Connection::finish() {
    if (finished_)
        return;
    finished_ = true;
    error_code ignored;
    stream_.close(ignored);
    for (auto* timer : {&may_read_, &may_write_, &line_timer_, &write_timer_, &farewell_timer_})
        timer->cancel();
    closed_(*this);
}

void Connection::arm(asio::steady_timer& timer, std::chrono::milliseconds after,
                     void (Connection::*late)()) {
    timer.expires_after(after);
    timer.async_wait([self = shared_from_this(), &timer, late](error_code error) {
        // A timer set again just as it ran out shows this only by its new time.
        const bool is_due = timer.expiry() <= asio::steady_timer::clock_type::now();
        if (!error && is_due && !self->finished_)
            (self.get()->*late)();
    });
}

void Connection::partial_line_late() {
    if (!timed_line_ || session_->partial_line() != timed_line_)
        return; // it ended just in time
    session_->close(Error(ErrorKind::request, "line_unfinished", "A line did not end in time.",
                          "End each request with a line break."));
}

void Connection::give_up() {
    if (session_)
        session_->hang_up();
    finish();
}

} // namespace barmkeep::socket
