#include "daemon/ledger/readers.hpp"

#include "sdk/method/error.hpp"

namespace barmkeep::ledger {
namespace {

void end(Store& store) noexcept {
    try {
        if (store.holds_transaction())
            store.run("ROLLBACK");
    } catch (const StoreError&) {
        // The next BEGIN will fail, and its caller gets the error.
    }
}

} // namespace

Readers::Readers(Store::Options store, int kept, executor::Executor& executor, const Clock& clock)
    : options_{std::move(store)}, kept_{static_cast<std::size_t>(kept)}, executor_{executor},
      clock_{clock} {
    while (idle_.size() < kept_)
        idle_.push_back(std::make_unique<Store>(options_));
}

Readers::~Readers() {
    stop();
}

void Readers::post(const Call& call, Work work, Failed failed, Dropped dropped, bool is_long) {
    enter();
    const Instant now = call.arrived == Instant{} ? clock_.now() : call.arrived;
    if (call.depth > 0) { // from a plugin, whose thread waits for the answer
        look(now, work, failed);
        return leave();
    }
    executor::Task task;
    task.lane = Lane::look;
    task.caller = call.caller.name.empty() ? executor::TaskCaller{} : executor::turn_of(call);
    if (is_long) {
        task.group = "long reading";
        task.group_max = 1;
    }
    task.work = [self = shared_from_this(), now, work = std::move(work),
                 failed = std::move(failed)] {
        self->look(now, work, failed);
        self->leave();
    };
    if (dropped) {
        task.cancelled = call.cancelled;
        task.dropped = [self = shared_from_this(), dropped = std::move(dropped)] {
            dropped();
            self->leave();
        };
    }
    try {
        executor_.submit(std::move(task));
    } catch (...) {
        leave();
        throw;
    }
}

void Readers::stop() {
    std::vector<std::unique_ptr<Store>> closed;
    std::unique_lock lock{mutex_};
    stopping_ = true;
    left_.wait(lock, [this] { return under_way_ == 0; });
    closed.swap(idle_);
}

void Readers::look(Instant now, const Work& work, const Failed& failed) {
    std::unique_ptr<Store> store;
    try {
        store = take();
        store->run("BEGIN");
        store->run("SELECT only FROM cellar"); // the first statement that reads fixes the moment
    } catch (const StoreError& fault) {
        failed(fault);
        if (store)
            end(*store);
        return give_back(std::move(store));
    }
    work(View{*store, now});
    end(*store);
    give_back(std::move(store));
}

std::unique_ptr<Store> Readers::take() {
    {
        const std::scoped_lock lock{mutex_};
        if (!idle_.empty()) {
            auto store = std::move(idle_.back());
            idle_.pop_back();
            return store;
        }
    }
    return std::make_unique<Store>(options_);
}

void Readers::give_back(std::unique_ptr<Store> store) {
    const std::scoped_lock lock{mutex_};
    if (store && idle_.size() < kept_)
        idle_.push_back(std::move(store));
}

void Readers::enter() {
    const std::scoped_lock lock{mutex_};
    if (stopping_)
        throw Error(ErrorKind::unavailable, "stopping", "The ledger is stopping.",
                    "Try again when the daemon runs again.");
    ++under_way_;
}

void Readers::leave() {
    const std::scoped_lock lock{mutex_};
    --under_way_;
    left_.notify_all();
}

} // namespace barmkeep::ledger
