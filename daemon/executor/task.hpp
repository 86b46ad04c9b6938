// A piece of work for the executor.
#pragma once

#include "sdk/method/call.hpp"

#include <chrono>
#include <functional>
#include <stop_token>

namespace barmkeep::executor {

/// Whose a task is.  0 stands for the daemon itself, which has no caps.
struct TaskCaller {
    std::uint64_t connection = 0; ///< whose turn it takes
    std::uint64_t user = 0;       ///< all connections of one user share a cap

    // Not explicit: a number alone is a caller of no user, such as a plugin.
    TaskCaller(std::uint64_t connection = 0, std::uint64_t user = 0) noexcept
        : connection{connection}, user{user} {}
};

/// None of the functions may throw.  `work` must wait for nothing but the commit of the ledger's
/// writer.  The code that submits the task holds no lock that the work takes.
struct Task {
    Lane lane = Lane::look;
    TaskCaller caller{};         ///< see turn_of()
    std::string group{};         ///< a plugin's name: its tasks share a cap; empty: no cap
    std::size_t group_max = 0;   ///< the group's cap; 0: half of the threads, none for the log
    std::stop_token cancelled{}; ///< asked when its turn comes: then `dropped` runs, not `work`
    std::function<void()> work{};
    std::function<void()> dropped{};
    std::chrono::milliseconds time_max{0}; ///< from the submission to the end; 0: no limit
    /// Called when the time is up, on a thread of the deadlines.  A task that has not begun does
    /// not begin any more, and nothing else of it is called.  If it has begun, its thread is
    /// replaced; it may end at the same moment.
    std::function<void(bool begun)> late{};
};

/// The caller as a task has it.  All calls of one connection take their turn together, and so do
/// the calls of one name that come over no connection.  The user is known by the caller's name,
/// which the kernel's user id gives: the login name, or "uid 1001".
[[nodiscard]] TaskCaller turn_of(const Call& call) noexcept;

} // namespace barmkeep::executor
