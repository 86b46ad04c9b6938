#include "daemon/host/deadlines.hpp"

#include <algorithm>

namespace barmkeep::host {

TimedDeadlines::TimedDeadlines()
    : thread_{[this] {
          watch();
      }} {}

TimedDeadlines::~TimedDeadlines() {
    {
        const std::scoped_lock lock{mutex_};
        ending_ = true;
    }
    changed_.notify_one();
    thread_.join();
}

Deadlines::Ticket TimedDeadlines::add(std::chrono::milliseconds after,
                                      std::function<void()> action) {
    const std::scoped_lock lock{mutex_};
    due_.emplace(++last_, Due{std::chrono::steady_clock::now() + after, std::move(action)});
    changed_.notify_one();
    return last_;
}

void TimedDeadlines::remove(Ticket ticket) {
    std::function<void()> dropped; // let go outside the lock, for it may hold the last of a call
    const std::scoped_lock lock{mutex_};
    const auto found = due_.find(ticket);
    if (found == due_.end())
        return;
    dropped = std::move(found->second.action);
    due_.erase(found);
}

void TimedDeadlines::watch() {
    std::unique_lock lock{mutex_};
    while (!ending_) {
        if (due_.empty()) {
            changed_.wait(lock);
            continue;
        }
        const auto first = next();
        if (const Time at = first->second.at; at > std::chrono::steady_clock::now()) {
            changed_.wait_until(lock, at);
            continue;
        }
        auto action = std::move(first->second.action);
        due_.erase(first);
        lock.unlock();
        action();
        action = nullptr;
        lock.lock();
    }
}

std::map<Deadlines::Ticket, TimedDeadlines::Due>::iterator TimedDeadlines::next() {
    return std::min_element(due_.begin(), due_.end(), [](const auto& one, const auto& other) {
        return one.second.at < other.second.at;
    });
}

} // namespace barmkeep::host
