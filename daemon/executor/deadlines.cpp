#include "daemon/executor/deadlines.hpp"

#include <boost/asio/io_context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <map>
#include <mutex>

namespace barmkeep::executor {

namespace asio = boost::asio;

struct TimedDeadlines::Timers {
    struct Due {
        std::unique_ptr<asio::steady_timer> timer;
        std::function<void()> action;
    };

    /// Takes one out; what it holds is let go by the caller, outside the lock.
    Due extract(Ticket ticket) {
        const std::scoped_lock lock{mutex};
        const auto node = due.extract(ticket);
        return node.empty() ? Due{} : std::move(node.mapped());
    }

    std::mutex mutex; ///< guards what follows, the use of the timers too
    std::map<Ticket, Due> due;
    Ticket last = 0;
};

TimedDeadlines::TimedDeadlines(asio::io_context& loop)
    : loop_{loop}, timers_{std::make_shared<Timers>()} {}

TimedDeadlines::~TimedDeadlines() = default;

Deadlines::Ticket TimedDeadlines::add(std::chrono::milliseconds after,
                                      std::function<void()> action) {
    auto timer = std::make_unique<asio::steady_timer>(loop_, after);
    const std::scoped_lock lock{timers_->mutex};
    const Ticket ticket = ++timers_->last;
    timer->async_wait([weak = std::weak_ptr{timers_}, ticket](boost::system::error_code) {
        // The entry shows whether it was taken back: a timer may run out while it is being ended.
        const auto timers = weak.lock();
        const auto due = timers ? timers->extract(ticket) : Timers::Due{};
        if (due.action)
            due.action();
    });
    timers_->due.emplace(ticket, Timers::Due{std::move(timer), std::move(action)});
    return ticket;
}

void TimedDeadlines::remove(Ticket ticket) {
    (void)timers_->extract(ticket);
}

} // namespace barmkeep::executor
