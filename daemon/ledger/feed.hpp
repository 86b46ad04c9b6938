// Events as they are sent: who watches, and what each is still to get.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

#include <deque>
#include <mutex>

namespace barmkeep::ledger {

class Methods;
class Readers;

/// Sends every event to every watcher once and in order.
///
/// A watcher is noted before its picture of the ledger is taken, so that nothing happens unseen.
/// Once it has got its picture it is sent what the ledger has beyond that, and from then on each
/// event as it happens.  One that reads too slowly for that gets its events from the ledger again,
/// at its own pace; only if they are no longer kept is its connection closed, with the reason.
///
/// Thread safety: any thread.  A listener's functions must not call back into the feed.
class Feed {
public:
    /// Adds event.watch and event.stop, which work on `feed`.
    static void add_methods(Methods& methods, const std::shared_ptr<Feed>& feed);

    /// Called with each batch's events, in their order.
    void publish(const std::vector<contract::Event>& events);

    /// Watchers there are, those found gone not counted.
    [[nodiscard]] std::size_t watchers() const;

private:
    /// One connection's watch.
    class Watch;

    static void start(const std::shared_ptr<Feed>& feed, Methods& methods);
    [[nodiscard]] std::shared_ptr<Watch> join(const std::shared_ptr<Listener>& listener,
                                              const std::shared_ptr<Readers>& readers);
    void leave(const std::shared_ptr<Listener>& listener);
    void leave(const std::shared_ptr<Watch>& watch);

    mutable std::mutex mutex_;
    std::vector<std::shared_ptr<Watch>> watches_;
};

} // namespace barmkeep::ledger
