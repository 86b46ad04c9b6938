// The threads that read.
#pragma once

#include "daemon/ledger/view.hpp"

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

namespace barmkeep::ledger {

/// A few threads, each with a read-only connection of its own, which hand each piece of work one
/// consistent picture of the ledger.  They never write and never checkpoint.
///
/// Thread safety: all functions, from any thread, but `stop` from one only.
class Readers {
public:
    /// Gets a View of one moment, or the fault that kept it from being opened.
    /// REQUIRES: throws nothing.
    using Work = std::function<void(const View&)>;
    using Failed = std::function<void(const StoreFault&)>;

    /// Opens `count` connections.  Throws StoreFault.
    Readers(const Store::Options& store, int count, std::size_t queue_max, const Clock& clock);
    ~Readers();

    /// Throws Error(busy) when too much waits and Error(unavailable) once stopped.
    void post(Work work, Failed failed);
    /// Finishes what waits and closes the connections.
    void stop();

private:
    struct Job {
        Work work;
        Failed failed;
    };

    void serve(std::unique_ptr<Store> store);
    void look(Store& store, const Job& job);

    const Clock& clock_;
    const std::size_t queue_max_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Job> waiting_;
    bool stopping_ = false;
    std::vector<std::thread> threads_;
};

} // namespace barmkeep::ledger
