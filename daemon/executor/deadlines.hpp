// Things to be done when a time is up, unless they are taken back before.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>

namespace boost::asio {
class io_context;
}

namespace barmkeep::executor {

/// Thread safety: any thread.
class Deadlines {
public:
    using Ticket = std::uint64_t;

    virtual ~Deadlines() = default;
    /// Runs `action` after so long, never inside this function.  It must be short and must not
    /// throw.
    virtual Ticket add(std::chrono::milliseconds after, std::function<void()> action) = 0;
    /// Takes it back; one that is being run just now still ends.
    virtual void remove(Ticket ticket) = 0;
};

/// By the system's steady clock, whatever the daemon's own clock is set to.  Actions run on the
/// threads of an event loop, so they need none of the executor's, which may all be taken.
class TimedDeadlines final : public Deadlines {
public:
    /// REQUIRES: the loop outlives it.
    explicit TimedDeadlines(boost::asio::io_context& loop);
    /// What is not yet due is not done.
    ~TimedDeadlines() override;
    TimedDeadlines(const TimedDeadlines&) = delete;
    TimedDeadlines& operator=(const TimedDeadlines&) = delete;

    Ticket add(std::chrono::milliseconds after, std::function<void()> action) override;
    void remove(Ticket ticket) override;

private:
    struct Timers;

    boost::asio::io_context& loop_;
    const std::shared_ptr<Timers> timers_; ///< the loop's handlers hold it weakly
};

} // namespace barmkeep::executor
