// A piece of work for the executor.
#pragma once

#include "sdk/method/call.hpp"

#include <chrono>
#include <functional>
#include <stop_token>

namespace barmkeep::executor {

/// None of the functions may throw.  `work` must wait for nothing but the commit of the ledger's
/// writer; the one who makes the task holds no lock that the work takes.
struct Task {
    Lane lane = Lane::look;
    std::uint64_t caller = 0;    ///< whose turn it takes, see turn_of(); 0: the daemon's own
    std::string group{};         ///< a plugin's name: its tasks share a cap; empty: no cap
    std::size_t group_max = 0;   ///< the group's cap; 0: half of the threads, none for the log
    std::stop_token cancelled{}; ///< asked when its turn comes: then `dropped` runs, not `work`
    std::function<void()> work{};
    std::function<void()> dropped{};
    std::chrono::milliseconds time_max{0}; ///< from the submission to the end; 0: no limit
    /// Called when the time is up, on a thread of the deadlines.  One that had not begun will not
    /// be begun any more, and this is the last that is called of it; of one that had, the thread is
    /// replaced, and it may end at the same moment.
    std::function<void(bool begun)> late{};
};

/// The caller as a task has it: all calls of one connection are of one caller, and so are the calls
/// of one name that come over none.
[[nodiscard]] std::uint64_t turn_of(const Call& call) noexcept;

} // namespace barmkeep::executor
