// A piece of a plugin's work on a worker thread, watched for taking too long.
#pragma once

#include "daemon/host/surroundings.hpp"

#include <string>

namespace barmkeep::host {

/// Made before the work is posted; `run` is the job.  When the time is up and the work is still
/// running, its thread is replaced; `on_overdue` hears whether it had begun.
/// Thread safety: any thread.
class Overdue {
public:
    using OnOverdue = std::function<void(bool begun)>;

    /// Posts `work` with the host's time limit.  `work` is passed whether it is overdue already,
    /// before it was begun; it must not throw.  False if the workers take no more.
    [[nodiscard]] static bool post(Surroundings& surroundings,
                                   std::function<void(bool overdue)> work, OnOverdue on_overdue);

    Overdue(Surroundings& surroundings, std::function<void(bool)> work, OnOverdue on_overdue)
        : surroundings_{surroundings}, work_{std::move(work)}, on_overdue_{std::move(on_overdue)} {}

private:
    enum class Stage { waiting, running, ended };

    [[nodiscard]] bool run();
    void time_is_up();
    /// Whether another thread does the work of this one's, from now on.
    [[nodiscard]] bool replace_thread() noexcept;

    Surroundings& surroundings_;
    std::function<void(bool)> work_;
    OnOverdue on_overdue_;

    std::mutex mutex_; ///< guards what follows
    Stage stage_ = Stage::waiting;
    bool is_overdue_ = false;
    bool is_replaced_ = false;
    Deadlines::Ticket ticket_ = 0;
};

} // namespace barmkeep::host
