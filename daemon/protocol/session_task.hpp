// Inner parts of a session: a request in flight, its one reply, and the line back.
#pragma once

#include "daemon/protocol/session.hpp"

#include <atomic>

namespace barmkeep::protocol {

/// A request in flight.
struct Session::Task {
    Request request;
    std::shared_ptr<Batch> batch; ///< null for a request of its own
    std::size_t place = 0;        ///< in the batch
    Instant arrived;              ///< when the last byte of its line was read
    std::size_t bytes = 0;        ///< of the line it came in; for one of a batch, its share
    std::stop_source stop;

    /// Empty if it has no id, or null, which names no request.
    [[nodiscard]] std::string key() const {
        return request.id && !request.id->is_null() ? id_text(*request.id) : std::string{};
    }
    [[nodiscard]] bool passes_others() const;
};

/// Hands a task's outcome to the session, once, whatever a handler does with its Done: the second
/// outcome is dropped, and a Done that was thrown away unused is an error to the caller.
class Session::Reply {
public:
    Reply(std::shared_ptr<Session> session, std::shared_ptr<Task> task)
        : session_{std::move(session)}, task_{std::move(task)} {}
    ~Reply();
    Reply(const Reply&) = delete;
    Reply& operator=(const Reply&) = delete;

    void give(const Outcome& outcome);

private:
    std::shared_ptr<Session> session_;
    std::shared_ptr<Task> task_;
    std::atomic<bool> given_ = false;
};

/// The listener that handlers hold; it outlives the session without keeping it.
class Session::Line : public Connected {
public:
    explicit Line(std::weak_ptr<Session> session) : session_{std::move(session)} {}

    bool notify(std::string_view method, json::object params) override {
        const auto session = session_.lock();
        return session && session->notify(method, std::move(params));
    }
    [[nodiscard]] bool has_room() const override {
        const auto session = session_.lock();
        return session && session->has_room();
    }
    void when_room(std::function<void()> go_on) override {
        if (const auto session = session_.lock())
            session->when_room(std::move(go_on));
    }
    void close(const Error& reason) override {
        if (const auto session = session_.lock())
            session->close(reason);
    }
    bool cancel(const json::value& id) override {
        const auto session = session_.lock();
        return session && session->cancel(id);
    }

private:
    std::weak_ptr<Session> session_;
};

} // namespace barmkeep::protocol
