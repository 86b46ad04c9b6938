// Things to be done when a time is up, unless they are taken back before.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

namespace barmkeep::host {

/// Thread safety: any thread.
class Deadlines {
public:
    using Ticket = std::uint64_t;

    virtual ~Deadlines() = default;
    /// Runs `action` after so long, on another thread than this one.  It must be short and must
    /// not throw.
    virtual Ticket add(std::chrono::milliseconds after, std::function<void()> action) = 0;
    /// Takes it back; one that is being run just now still ends.
    virtual void remove(Ticket ticket) = 0;
};

/// By the system's steady clock, whatever the daemon's own clock is set to.
class TimedDeadlines final : public Deadlines {
public:
    TimedDeadlines();
    /// What is not yet due is not done.
    ~TimedDeadlines() override;
    TimedDeadlines(const TimedDeadlines&) = delete;
    TimedDeadlines& operator=(const TimedDeadlines&) = delete;

    Ticket add(std::chrono::milliseconds after, std::function<void()> action) override;
    void remove(Ticket ticket) override;

private:
    using Time = std::chrono::steady_clock::time_point;
    struct Due {
        Time at;
        std::function<void()> action;
    };

    void watch();
    [[nodiscard]] std::map<Ticket, Due>::iterator next();

    std::mutex mutex_; ///< guards what follows
    std::condition_variable changed_;
    std::map<Ticket, Due> due_;
    Ticket last_ = 0;
    bool ending_ = false;
    std::thread thread_; ///< last, for it uses the rest
};

} // namespace barmkeep::host
