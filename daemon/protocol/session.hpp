// One connection's conversation, without the connection: bytes in, lines out.
#pragma once

#include "daemon/protocol/batch.hpp"
#include "daemon/protocol/line_reader.hpp"
#include "daemon/protocol/outbox.hpp"
#include "daemon/protocol/request.hpp"
#include "daemon/protocol/service.hpp"

#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <set>

namespace barmkeep::protocol {

/// The notification that says why a connection ends; nothing follows it.
inline constexpr std::string_view closing_notification = "connection.closing";

/// The reason word, and the whole message, that a client gets while the daemon stops.
inline constexpr std::string_view stopping_reason = "stopping";
[[nodiscard]] Error stopping();

/// Takes requests, starts their calls, and keeps what is to be written until it is asked for.
///
/// Requests begin in the order in which they came, `in_flight_max` at a time, and are answered as
/// they are done.  The session does no I/O; whoever carries its bytes calls
/// it, and is woken when there is something to write, or to read again, or it has ended.
///
/// Thread safety: `take` and `end_of_input` on one thread at a time; everything else on any
/// thread.  The wake function is called on any thread, also from inside these functions, and must
/// not call back into the session on the spot.
class Session : public std::enable_shared_from_this<Session> {
public:
    using Wake = std::function<void()>;

    [[nodiscard]] static std::shared_ptr<Session> open(std::shared_ptr<const Service> service,
                                                       Caller caller, Wake wake);
    ~Session();

    /// Bytes that the client sent.  The requests whose lines end in them arrive now, by the clock
    /// of the method table.
    void take(std::string_view bytes);
    /// The client will send no more, but still reads: what is in flight is answered.
    void end_of_input();
    /// Whether more should be read now.  Once closing, what comes is read and thrown away.
    [[nodiscard]] bool wants_input() const;
    /// The number of the line that has begun and not ended, if there is one: while it stays the
    /// same, the client owes us the rest of the same line.
    [[nodiscard]] std::optional<std::size_t> partial_line() const;

    /// The next lines to write, nothing if none wait.
    [[nodiscard]] std::optional<std::string> next_output(std::size_t bytes_wanted = 64 << 10);
    /// Whether nothing more will ever be written.
    [[nodiscard]] bool is_finished() const;
    /// Whether it ends for a fault of the client's, who may still be writing.
    [[nodiscard]] bool is_closing() const;

    /// Says why, and ends: what is in flight is asked to stop and no longer answered.
    void close(const Error& reason);
    /// The caller's rights, for requests that begin from now on; nothing: the client is informed
    /// that it has none any more, and it ends.
    void set_access(std::optional<Access> access);
    /// Refuses new requests as unavailable; ends once those in flight are answered.
    void stop_taking();
    /// The client is gone: what is in flight is asked to stop, nothing more is written.  What a
    /// request has already recorded stays recorded.
    void hang_up();

    /// Requests taken and not yet answered.
    [[nodiscard]] std::size_t unanswered() const;

private:
    struct Task;
    class Reply;
    class Line;
    using Lock = std::unique_lock<std::mutex>;
    enum class State { open, closing, gone };

    Session(std::shared_ptr<const Service> service, Caller caller, Wake wake);

    void take_lines();
    void take_line(std::string_view line);
    void take_batch(const json::array& elements, std::size_t bytes);
    void take_element(const json::value& element, const std::shared_ptr<Batch>& batch,
                      std::size_t place, std::size_t bytes);
    [[nodiscard]] bool has_places_for(std::size_t count) const;
    [[nodiscard]] std::optional<Error> admit(const std::shared_ptr<Task>& task);
    void say(const json::value& id, const Error& error);

    [[nodiscard]] Caller caller() const;
    void begin_waiting();
    void begin(const std::shared_ptr<Task>& task);
    void tell_fault(const Task& task, const Outcome& outcome) const;
    void finish(const std::shared_ptr<Task>& task, const Outcome& outcome);

    bool notify(std::string_view method, json::object params);
    [[nodiscard]] bool has_room() const;
    void when_room(std::function<void()> go_on);
    bool cancel(const json::value& id);

    void deliver(const Lock&, Batch* batch, std::size_t place, std::string reply);
    void push(const Lock&, std::string line);
    void close(const Lock&, const Error& reason);
    void stop_all(const Lock&);
    void settle();

    const std::shared_ptr<const Service> service_;
    const Wake wake_;
    std::shared_ptr<Line> line_;  ///< the listener of all calls
    LineReader reader_;           ///< reader's thread only
    std::size_t lines_taken_ = 0; ///< reader's thread only
    Instant arrived_{};           ///< of the lines being taken; reader's thread only

    mutable std::mutex mutex_; ///< guards all below; never held while foreign code runs
    Caller caller_;
    State state_ = State::open;
    bool input_ended_ = false;
    bool stopping_ = false;
    bool beginning_ = false; ///< some thread is in begin_waiting
    Outbox outbox_;
    std::deque<std::shared_ptr<Task>> waiting_;
    std::size_t waiting_bytes_ = 0;
    std::size_t at_work_ = 0;
    std::set<std::shared_ptr<Task>> unanswered_;
    std::map<std::string, std::shared_ptr<Task>> by_id_;
    std::multiset<std::string> progress_tokens_;
    std::vector<std::shared_ptr<Task>> to_stop_;  ///< once the lock is free
    std::vector<std::function<void()>> for_room_; ///< wait for the client to read
};

} // namespace barmkeep::protocol
