#include "daemon/ledger/feed.hpp"

#include "daemon/ledger/cellar.hpp"
#include "daemon/ledger/events.hpp"
#include "daemon/ledger/faults.hpp"
#include "daemon/ledger/methods.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

constexpr std::int64_t events_a_page = 500; // of those missed, held in memory at once

} // namespace

class Feed::Watch {
public:
    explicit Watch(const std::shared_ptr<Listener>& listener) : listener_{listener} {}

    /// A live event: sent, or kept until the watch has begun.
    void take(const contract::Event& event) {
        const std::lock_guard lock{mutex_};
        if (has_begun_)
            send(event);
        else
            waiting_.push_back(event);
    }
    /// Sends the events after a number, read in pages for as long as somebody listens.  Live ones
    /// are kept waiting meanwhile, not held up.  A watch whose events cannot be read is over: a gap
    /// is the one thing it must not have.
    void catch_up(const View& view, std::int64_t after) noexcept {
        try {
            while (!is_over()) {
                const auto missed = events_after(view, after, events_a_page);
                for (const auto& event : missed) {
                    const std::lock_guard lock{mutex_};
                    send(event);
                }
                if (static_cast<std::int64_t>(missed.size()) < events_a_page)
                    return;
                after = missed.back().sequence;
            }
        } catch (const std::exception&) {
            end();
        }
    }
    /// Sends what waited of the events after `sequence`, and live ones from now on.
    void begin(std::int64_t sequence) {
        const std::lock_guard lock{mutex_};
        last_sent_ = std::max(last_sent_, sequence);
        for (const auto& event : waiting_)
            send(event);
        waiting_.clear();
        has_begun_ = true;
    }
    [[nodiscard]] bool is_over() const {
        const std::lock_guard lock{mutex_};
        return is_over_ || listener_.expired();
    }
    void end() {
        const std::lock_guard lock{mutex_};
        is_over_ = true;
    }
    [[nodiscard]] bool is_for(const std::shared_ptr<Listener>& listener) const {
        return listener_.lock() == listener;
    }

private:
    void send(const contract::Event& event) {
        // A batch can be in the picture before it is published: its events come here twice.
        if (is_over_ || event.sequence <= last_sent_)
            return;
        last_sent_ = event.sequence;
        const auto listener = listener_.lock();
        if (!listener ||
            !listener->notify(contract::event_notification, to_json(event).as_object()))
            is_over_ = true;
    }

    const std::weak_ptr<Listener> listener_;
    mutable std::mutex mutex_;
    std::deque<contract::Event> waiting_;
    std::int64_t last_sent_ = 0; ///< number of the last event sent or in the picture
    bool has_begun_ = false;
    bool is_over_ = false;
};

namespace {

using contract::EventWatch;

EventWatch::Result picture(const View& view, const Call& call, const EventWatch::Params& params) {
    if (params.after) {
        require_events_after(view, *params.after);
        return {*params.after, std::nullopt};
    }
    contract::Glance state = glance_at(view, call);
    const std::int64_t sequence = state.sequence;
    return {sequence, std::move(state)};
}

void require_listener(const Call& call) {
    if (!call.listener)
        throw Error(ErrorKind::refused, "no_listener",
                    "This caller has no connection that events could be sent over.",
                    "Watch over the socket; a plugin names the events it wants when it is loaded.");
}

} // namespace

std::shared_ptr<Feed::Watch> Feed::join(const std::shared_ptr<Listener>& listener) {
    auto watch = std::make_shared<Watch>(listener);
    const std::lock_guard lock{mutex_};
    watches_.push_back(watch);
    return watch;
}

void Feed::leave(const std::shared_ptr<Listener>& listener) {
    const std::lock_guard lock{mutex_};
    std::erase_if(watches_, [&](const auto& watch) {
        const bool leaves = watch->is_for(listener);
        if (leaves)
            watch->end();
        return leaves;
    });
}

void Feed::leave(const std::shared_ptr<Watch>& watch) {
    const std::lock_guard lock{mutex_};
    watch->end();
    std::erase(watches_, watch);
}

void Feed::publish(const std::vector<contract::Event>& events) {
    std::vector<std::shared_ptr<Watch>> watches;
    {
        const std::lock_guard lock{mutex_};
        std::erase_if(watches_, [](const auto& watch) { return watch->is_over(); });
        watches = watches_;
    }
    for (const auto& watch : watches)
        for (const auto& event : events)
            watch->take(event);
}

std::size_t Feed::watchers() const {
    const std::lock_guard lock{mutex_};
    std::size_t count = 0;
    for (const auto& watch : watches_)
        count += watch->is_over() ? 0 : 1;
    return count;
}

void Feed::start(const std::shared_ptr<Feed>& feed, Methods& methods) {
    const auto readers = methods.readers();
    methods.add(
        describe<EventWatch>(),
        [feed, readers](const Call& call, const json::object& params, const Done& done) {
            require_listener(call);
            const auto read = read_as<EventWatch::Params>(params);
            feed->leave(call.listener); // a second watch of one connection replaces the first
            const auto watch = feed->join(call.listener);
            const auto refuse = [feed, watch, done](Error error) {
                feed->leave(watch);
                done(std::move(error));
            };
            const auto work = [call, read, watch, refuse, done](const View& view) {
                std::int64_t last = 0;
                json::value answer;
                try {
                    answer = to_json(picture(view, call, read));
                    last = last_event(view);
                } catch (...) {
                    refuse(error_of(std::current_exception()));
                    return;
                }
                done(std::move(answer));
                if (read.after)
                    watch->catch_up(view, *read.after);
                watch->begin(last);
            };
            try {
                readers->post(work, [refuse](const StoreFault& fault) { refuse(error_of(fault)); });
            } catch (const Error& error) {
                refuse(error);
            }
        });
}

void Feed::add_methods(Methods& methods, const std::shared_ptr<Feed>& feed) {
    start(feed, methods);
    methods.add(describe<contract::EventStop>(),
                [feed](const Call& call, const json::object& params, const Done& done) {
                    (void)read_as<Nothing>(params);
                    if (call.listener)
                        feed->leave(call.listener);
                    done(to_json(Nothing{}));
                });
}

} // namespace barmkeep::ledger
