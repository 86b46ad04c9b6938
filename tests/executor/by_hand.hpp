// What tests with threads of the executor hold in their hands: a gate, and time limits.
#pragma once

#include "daemon/executor/executor.hpp"

#include <condition_variable>
#include <map>
#include <mutex>
#include <unistd.h>

namespace barmkeep::executor::test {

/// Ends the program if a test does not end, so that a fault is seen at once and not at the limit
/// of the whole run.
class EndsInTime {
public:
    EndsInTime() { ::alarm(60); }
    ~EndsInTime() { ::alarm(0); }
    EndsInTime(const EndsInTime&) = delete;
    EndsInTime& operator=(const EndsInTime&) = delete;
};

/// Where work stands still until the test lets it go on.
class Gate {
public:
    /// For the test: waits until so many have come.
    void wait_for(int count) {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return came_ >= count; });
    }
    void open() {
        const std::scoped_lock lock{mutex_};
        open_ = true;
        changed_.notify_all();
    }
    void close() {
        const std::scoped_lock lock{mutex_};
        open_ = false;
    }
    /// For the work: counts, and waits until the gate is open.
    void pass() {
        std::unique_lock lock{mutex_};
        ++came_;
        most_ = std::max(most_, ++inside_);
        changed_.notify_all();
        changed_.wait(lock, [this] { return open_; });
        --inside_;
    }
    /// The most that were inside at a time.
    [[nodiscard]] int most_at_once() const {
        const std::scoped_lock lock{mutex_};
        return most_;
    }
    [[nodiscard]] int came() const {
        const std::scoped_lock lock{mutex_};
        return came_;
    }

private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    bool open_ = false;
    int came_ = 0;
    int inside_ = 0;
    int most_ = 0;
};

/// Time limits that end when the test says so.
class HandDeadlines final : public Deadlines {
public:
    Ticket add(std::chrono::milliseconds, std::function<void()> action) override {
        const std::scoped_lock lock{mutex_};
        running_.emplace(++last_, std::move(action));
        changed_.notify_all();
        return last_;
    }
    void remove(Ticket ticket) override {
        std::function<void()> dropped; // let go outside the lock
        const std::scoped_lock lock{mutex_};
        if (const auto found = running_.find(ticket); found != running_.end()) {
            dropped = std::move(found->second);
            running_.erase(found);
        }
    }
    /// Waits until so many are running.
    void wait_for(std::size_t count) {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return running_.size() >= count; });
    }
    /// Lets the time of all that are running be up.
    void expire() {
        std::map<Ticket, std::function<void()>> due;
        {
            const std::scoped_lock lock{mutex_};
            due.swap(running_);
        }
        for (const auto& [ticket, action] : due)
            action();
    }
    /// Lets the time of the one that was begun last be up.
    void expire_latest() {
        std::function<void()> action;
        {
            const std::scoped_lock lock{mutex_};
            action = std::move(std::prev(running_.end())->second);
            running_.erase(std::prev(running_.end()));
        }
        action();
    }
    [[nodiscard]] std::size_t running() const {
        const std::scoped_lock lock{mutex_};
        return running_.size();
    }

private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::map<Ticket, std::function<void()>> running_;
    Ticket last_ = 0;
};

} // namespace barmkeep::executor::test
