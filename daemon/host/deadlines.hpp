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

    Deadlines();
    /// What is not yet due is not done.
    ~Deadlines();
    Deadlines(const Deadlines&) = delete;
    Deadlines& operator=(const Deadlines&) = delete;

    /// Runs `action` on a thread of its own after so long.  It must be short and must not throw.
    Ticket add(std::chrono::milliseconds after, std::function<void()> action);
    /// Takes it back; one that is being run just now still ends.
    void remove(Ticket ticket);

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
