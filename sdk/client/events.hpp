// The cellar's events, one after the other, without a gap even across restarts of the daemon.
#pragma once

#include "sdk/client/client.hpp"
#include "sdk/contract/event.hpp"

#include <deque>
#include <iterator>

namespace barmkeep::client {

/// A watch of its own connection.  Reads as a range:
///
///     EventStream events{{.socket = path}};
///     for (const contract::Event& event : events)
///         ...;
///
/// Thread safety: one thread at a time.
class EventStream {
public:
    /// Begins a watch; with `after`, first gives the events after that number.  The stream ends
    /// when `interruption` (may be null) wants in.  Throws as Client::call does.
    explicit EventStream(ClientOptions options, std::optional<std::int64_t> after = std::nullopt,
                         Interruption* interruption = nullptr);

    /// The next event; waits for it for as long as it takes.  A lost connection is made again
    /// and goes on after the last number.  Nothing once the interruption came.  Throws
    /// Error(unavailable) when the daemon does not come back within the options' attempts, and
    /// Error(text, "event_gap") when it left out a number.
    [[nodiscard]] std::optional<contract::Event> next();

    /// The cellar when the watch began; nothing if it began after a given number.
    [[nodiscard]] const std::optional<contract::Glance>& state() const noexcept { return state_; }
    /// The number of the last event given, or of the state.
    [[nodiscard]] std::int64_t last() const noexcept { return last_; }

    class Iterator {
    public:
        explicit Iterator(EventStream* stream) : stream_{stream} { ++*this; }
        Iterator& operator++() {
            event_ = stream_->next();
            return *this;
        }
        const contract::Event& operator*() const { return *event_; }
        bool operator==(std::default_sentinel_t) const { return !event_.has_value(); }

    private:
        EventStream* stream_;
        std::optional<contract::Event> event_;
    };
    [[nodiscard]] Iterator begin() { return Iterator{this}; }
    [[nodiscard]] static std::default_sentinel_t end() { return {}; }

private:
    void watch(std::optional<std::int64_t> after);
    bool watch_again(); ///< false if interrupted
    std::optional<contract::Event> take(Message& message);

    ClientOptions options_;
    Interruption* interruption_;
    std::optional<Channel> channel_;
    std::deque<Message> early_; ///< events that came before the answer to event.watch
    std::optional<contract::Glance> state_;
    std::int64_t last_ = 0;
};

} // namespace barmkeep::client
