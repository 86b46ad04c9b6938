#include "daemon/ledger/feed.hpp"

#include "daemon/ledger/cellar.hpp"
#include "daemon/ledger/events.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/store_error.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

constexpr std::int64_t events_a_page = 500; // of those a watcher is behind

} // namespace

/// What one connection is sent: events as they happen, and, while it is behind, those in the ledger
/// a page at a time, as fast as it reads.  None waits in memory for it.
class Feed::Watch : public std::enable_shared_from_this<Watch> {
public:
    Watch(const std::shared_ptr<Listener>& listener, std::shared_ptr<Readers> readers)
        : listener_{listener}, readers_{std::move(readers)} {}

    /// An event that has just happened.
    void take(const contract::Event& event) {
        {
            const std::lock_guard lock{mutex_};
            newest_ = std::max(newest_, event.sequence);
            if (is_over_ || !keeps_up_ || send(event))
                return;
            keeps_up_ = false;
        }
        go_on_with_room();
    }
    /// Begins after an event's number.
    void begin(const View& view, std::int64_t sequence) {
        {
            const std::lock_guard lock{mutex_};
            last_sent_ = sequence;
        }
        catch_up(view);
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
    /// Sends an event if it is new and there is room; false if there is none.
    bool send(const contract::Event& event) {
        // A batch can be in the picture before it is published: its events come here twice.
        if (is_over_ || event.sequence <= last_sent_)
            return true;
        const auto listener = listener_.lock();
        if (listener && !listener->has_room())
            return false;
        last_sent_ = event.sequence;
        is_over_ = !listener ||
                   !listener->notify(contract::event_notification, to_json(event).as_object());
        return true;
    }
    bool send_all(const std::vector<contract::Event>& events) {
        return std::ranges::all_of(events, [this](const auto& event) { return send(event); });
    }
    /// Sends a page of the events after the last one sent, and arranges for what follows.
    void catch_up(const View& view) noexcept {
        try {
            const std::int64_t after = last_sent();
            require_events_after(view, after);
            const auto page = events_after(view, after, events_a_page);
            const std::lock_guard lock{mutex_};
            // More may have happened since the picture was taken.
            if (send_all(page) && std::ssize(page) < events_a_page && newest_ <= last_sent_)
                keeps_up_ = true;
        } catch (...) {
            return break_off(error_of(std::current_exception()));
        }
        if (is_behind())
            go_on_with_room();
    }
    void go_on_with_room() {
        if (const auto listener = listener_.lock())
            listener->when_room([self = shared_from_this()] { self->go_on(); });
    }
    void go_on() {
        try {
            readers_->post([self = shared_from_this()](const View& view) { self->catch_up(view); },
                           [self = shared_from_this()](const StoreError& fault) {
                               self->break_off(error_of(fault));
                           });
        } catch (const Error& error) {
            break_off(error);
        }
    }
    /// A watcher must not have a gap: it comes back with its last number, and then gets an error if
    /// the events that it missed are gone.
    void break_off(const Error& reason) {
        end();
        if (const auto listener = listener_.lock())
            listener->close(reason);
    }
    [[nodiscard]] std::int64_t last_sent() const {
        const std::lock_guard lock{mutex_};
        return last_sent_;
    }
    [[nodiscard]] bool is_behind() const {
        const std::lock_guard lock{mutex_};
        return !is_over_ && !keeps_up_;
    }

    const std::weak_ptr<Listener> listener_;
    const std::shared_ptr<Readers> readers_;
    mutable std::mutex mutex_;
    std::int64_t last_sent_ = 0; ///< number of the last event sent or in the picture
    std::int64_t newest_ = 0;    ///< number of the last event that happened while it watched
    bool keeps_up_ = false;      ///< has all of the ledger's, and gets what happens
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
        throw Error(
            ErrorKind::refused, "no_listener",
            "This caller has no connection over which events could be sent.",
            "Call event.watch over the socket. A plugin declares its events when it is loaded.");
}

} // namespace

std::shared_ptr<Feed::Watch> Feed::join(const std::shared_ptr<Listener>& listener,
                                        const std::shared_ptr<Readers>& readers) {
    auto watch = std::make_shared<Watch>(listener, readers);
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
            const auto watch = feed->join(call.listener, readers);
            const auto refuse = [feed, watch, done](Error error) {
                feed->leave(watch);
                done(std::move(error));
            };
            const auto work = [call, read, watch, refuse, done](const View& view) {
                std::int64_t sequence = 0;
                json::value answer;
                try {
                    const auto result = picture(view, call, read);
                    sequence = result.sequence;
                    answer = to_json(result);
                } catch (...) {
                    return refuse(error_of(std::current_exception()));
                }
                // In this order: when the answer arrives, the watch has begun.  A caller that
                // closes its sending side after asking gets what it missed before the connection
                // ends.
                watch->begin(view, sequence);
                done(std::move(answer));
            };
            try {
                readers->post(work, [refuse](const StoreError& fault) { refuse(error_of(fault)); });
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
