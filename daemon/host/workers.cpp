#include "daemon/host/workers.hpp"

#include <algorithm>

namespace barmkeep::host {

Workers::Workers(std::size_t count, BeginThread begin)
    : threads_max_{count + replacements_max}, begin_{std::move(begin)} {
    const std::scoped_lock lock{mutex_};
    for (std::size_t i = 0; i < count; ++i)
        begin_thread();
}

Workers::~Workers() {
    finish();
}

bool Workers::post(Job job) {
    {
        const std::scoped_lock lock{mutex_};
        if (finishing_)
            return false;
        waiting_.push_back(std::move(job));
    }
    changed_.notify_one();
    return true;
}

bool Workers::replace_one() {
    const std::scoped_lock lock{mutex_};
    join_ended();
    if (finishing_ || threads_.size() >= threads_max_)
        return false;
    begin_thread();
    return true;
}

void Workers::finish() {
    std::list<std::thread> all;
    {
        const std::scoped_lock lock{mutex_};
        finishing_ = true;
        all.swap(threads_);
    }
    changed_.notify_all();
    for (auto& thread : all)
        thread.join();
}

void Workers::work() {
    std::unique_lock lock{mutex_};
    for (;;) {
        changed_.wait(lock, [this] { return finishing_ || !waiting_.empty(); });
        if (waiting_.empty())
            return;
        Job job = std::move(waiting_.front());
        waiting_.pop_front();
        lock.unlock();
        const bool replaced = job();
        job = nullptr; // what it holds is let go outside the lock
        lock.lock();
        if (replaced) {
            ended_.push_back(std::this_thread::get_id());
            return;
        }
    }
}

std::thread Workers::usual_begin(std::function<void()> work) {
    return std::thread{std::move(work)};
}

void Workers::begin_thread() {
    threads_.push_back(begin_([this] { work(); }));
}

void Workers::join_ended() {
    for (const auto id : ended_) {
        const auto found = std::find_if(threads_.begin(), threads_.end(),
                                        [&](const auto& thread) { return thread.get_id() == id; });
        if (found == threads_.end())
            continue;
        // It holds the mutex no more but for the moment of leaving, which we hold it for.
        found->join();
        threads_.erase(found);
    }
    ended_.clear();
}

} // namespace barmkeep::host
