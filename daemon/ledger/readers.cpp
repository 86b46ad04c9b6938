#include "daemon/ledger/readers.hpp"

#include "sdk/method/error.hpp"

namespace barmkeep::ledger {
namespace {

void end(Store& store) noexcept {
    try {
        if (store.holds_transaction())
            store.run("ROLLBACK");
    } catch (const StoreFault&) {
        // The next BEGIN will fail and tell its caller.
    }
}

} // namespace

Readers::Readers(const Store::Options& store, int count, std::size_t queue_max, const Clock& clock)
    : clock_{clock}, queue_max_{queue_max} {
    std::vector<std::unique_ptr<Store>> stores; // all opened before any thread starts
    for (int i = 0; i < count; ++i)
        stores.push_back(std::make_unique<Store>(store));
    for (auto& one : stores)
        threads_.emplace_back([this, held = std::move(one)]() mutable { serve(std::move(held)); });
}

Readers::~Readers() {
    stop();
}

void Readers::post(Work work, Failed failed) {
    {
        const std::lock_guard lock{mutex_};
        if (stopping_)
            throw Error(ErrorKind::unavailable, "stopping", "The ledger is stopping.",
                        "Ask again when the daemon runs again.");
        if (waiting_.size() >= queue_max_)
            throw Error(ErrorKind::busy, "queue_full", "Too many requests wait to be read.",
                        "Ask again in a moment.");
        waiting_.push_back({std::move(work), std::move(failed)});
    }
    changed_.notify_one();
}

void Readers::stop() {
    {
        const std::lock_guard lock{mutex_};
        stopping_ = true;
    }
    changed_.notify_all();
    for (auto& thread : threads_)
        if (thread.joinable())
            thread.join();
}

void Readers::serve(std::unique_ptr<Store> store) {
    while (true) {
        Job job;
        {
            std::unique_lock lock{mutex_};
            changed_.wait(lock, [this] { return stopping_ || !waiting_.empty(); });
            if (waiting_.empty())
                return;
            job = std::move(waiting_.front());
            waiting_.pop_front();
        }
        look(*store, job);
    }
}

void Readers::look(Store& store, const Job& job) {
    try {
        store.run("BEGIN");
        store.run("SELECT only FROM cellar"); // the first statement that reads fixes the moment
    } catch (const StoreFault& fault) {
        job.failed(fault);
        end(store);
        return;
    }
    job.work(View{store, clock_.now()});
    end(store);
}

} // namespace barmkeep::ledger
