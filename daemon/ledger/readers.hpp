// What reads the ledger.
#pragma once

#include "daemon/executor/executor.hpp"
#include "daemon/ledger/view.hpp"

#include <condition_variable>
#include <mutex>

namespace barmkeep::ledger {

/// Hands each piece of work one consistent picture of the ledger, on a thread of the executor.
///
/// A few read-only connections are kept open; they never write and never checkpoint.  A piece of
/// work takes one, or one opened for it if all are taken, and gives it back at its end.  So nothing
/// waits for a connection, and none is held while a plugin runs: what a plugin's method asks of the
/// ledger is a piece of work of its own, done on the plugin's thread.
///
/// Thread safety: all functions, from any thread, but `stop` from one only.
class Readers : public std::enable_shared_from_this<Readers> {
public:
    /// Gets a View of the moment of the call, or the fault that kept it from being opened.
    /// REQUIRES: throws nothing.
    using Work = std::function<void(const View&)>;
    using Failed = std::function<void(const StoreError&)>;
    /// In place of both, where the call was cancelled before its turn came.
    using Dropped = std::function<void()>;

    /// Keeps `kept` connections open.  Throws StoreError.
    Readers(Store::Options store, int kept, executor::Executor& executor, const Clock& clock);
    ~Readers();

    /// Throws Error(busy) when too much waits and Error(unavailable) once stopped.  `is_long`: it
    /// may take seconds, and only one such piece of work is done at a time.
    void post(const Call& call, Work work, Failed failed, Dropped dropped, bool is_long = false);
    /// The same for what no call asks.
    void post(Work work, Failed failed) { post({}, std::move(work), std::move(failed), {}); }
    /// Finishes what waits and closes the connections.  REQUIRES: the executor works, or has
    /// stopped.
    void stop();

private:
    void look(Instant now, const Work& work, const Failed& failed);
    [[nodiscard]] std::unique_ptr<Store> take();
    void give_back(std::unique_ptr<Store> store);
    void enter();
    void leave();

    const Store::Options options_;
    const std::size_t kept_;
    executor::Executor& executor_;
    const Clock& clock_;
    std::mutex mutex_; ///< guards what follows
    std::condition_variable left_;
    std::vector<std::unique_ptr<Store>> idle_;
    std::size_t under_way_ = 0; ///< pieces of work posted and not ended
    bool stopping_ = false;
};

} // namespace barmkeep::ledger
