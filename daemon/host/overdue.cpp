#include "daemon/host/overdue.hpp"

namespace barmkeep::host {

bool Overdue::post(Surroundings& surroundings, std::function<void(bool)> work,
                   OnOverdue on_overdue) {
    auto watched = std::make_shared<Overdue>(surroundings, std::move(work), std::move(on_overdue));
    {
        const std::scoped_lock lock{watched->mutex_};
        watched->ticket_ = surroundings.deadlines->add(surroundings.call_time_max,
                                                       [watched] { watched->time_is_up(); });
    }
    if (surroundings.workers.post([watched] { return watched->run(); }))
        return true;
    surroundings.deadlines->remove(watched->ticket_);
    return false;
}

bool Overdue::run() {
    bool overdue = false;
    {
        const std::scoped_lock lock{mutex_};
        stage_ = Stage::running;
        overdue = is_overdue_;
    }
    work_(overdue);
    work_ = nullptr; // what it holds ends with it, not with the deadline
    const std::scoped_lock lock{mutex_};
    stage_ = Stage::ended;
    surroundings_.deadlines->remove(ticket_);
    return is_replaced_;
}

void Overdue::time_is_up() {
    bool begun = false;
    {
        const std::scoped_lock lock{mutex_};
        if (stage_ == Stage::ended)
            return;
        is_overdue_ = true;
        begun = stage_ == Stage::running;
        if (begun)
            is_replaced_ = replace_thread();
    }
    on_overdue_(begun);
}

bool Overdue::replace_thread() noexcept {
    try {
        return surroundings_.workers.replace_one();
    } catch (const std::exception& error) {
        // The deadlines must go on: others wait for theirs.  The thread goes on when it is free.
        surroundings_.log->error("no thread can be begun in the place of a plugin's: {}",
                                 error.what());
        return false;
    }
}

} // namespace barmkeep::host
