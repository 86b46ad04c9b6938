// The threads that do the daemon's work, and the order in which it is done.
//
//     Executor executor{{.threads = 8, .deadlines = deadlines, .log = log}};
//     executor.submit({.lane = Lane::look, .caller = turn_of(call), .work = [...] { ... }});
#pragma once

#include "daemon/executor/deadlines.hpp"
#include "daemon/executor/task.hpp"

#include <array>
#include <spdlog/logger.h>
#include <thread>

namespace barmkeep::executor {

/// Asio's thread pool, with a queue of our own above it:
///
/// - Lanes: what keeps a log goes before what else writes, and that before what looks.  One thread
///   is kept free for the log, so that it never waits for work of another kind to end.
/// - Turns: within a lane connections take turns.
/// - Caps: one connection, one user and one plugin each have at most half of the threads that are
///   not kept for the log; work for the log is not counted.  Of the room to wait in a lane, one
///   connection has at most a quarter and one user a half.
/// - Limits: work that takes too long is reported to whoever submitted it, and another thread is
///   begun in the place of the one that is stuck in it.
///
/// The executor owns its threads, and waits for all of them when it ends, the stuck ones too: none
/// is detached, because it may hold what is about to be destroyed.  If the
/// host reports stuck plugins, the daemon does not end its executor; it leaves the process by
/// _Exit.
///
/// Thread safety: any thread; `stop` not from a task.
class Executor {
public:
    /// Threads begun in the place of stuck ones, beyond which stuck work does hold up the rest.
    static constexpr std::size_t replacements_max = 16;
    /// How a thread is begun; throws std::system_error where the system has no more.
    using BeginThread = std::function<std::thread(std::function<void()> work)>;

    struct Options {
        std::size_t threads = 8;                ///< at least 1; one of several is kept for the log
        std::size_t waiting_max = 4096;         ///< in one lane
        std::shared_ptr<Deadlines> deadlines{}; ///< null: tasks have no time limit
        std::shared_ptr<spdlog::logger> log{};  ///< null: nothing is logged
        BeginThread begin{};                    ///< seam for tests
    };
    /// What happened in one lane.
    struct Counters {
        std::size_t waiting = 0; ///< now
        std::size_t running = 0; ///< now; stuck ones that were replaced are not counted
        std::uint64_t done = 0;
        std::uint64_t dropped = 0; ///< cancelled before they began
        std::uint64_t refused = 0; ///< for want of room, or while stopping
        std::uint64_t late = 0;    ///< whose time was up
    };

    /// Throws std::system_error where the system has no thread.
    explicit Executor(Options options);
    /// Stops.
    ~Executor();
    Executor(const Executor&) = delete;
    Executor& operator=(const Executor&) = delete;

    /// Throws Error(busy, "queue_full") and Error(unavailable, "stopping"); then nothing of the
    /// task is called.  The daemon's own work is never refused for want of room.
    void submit(Task task);
    /// Takes no more, does what waits, and waits for all threads.  Again: without effect.
    void stop();

    [[nodiscard]] Counters counters(Lane lane) const;

private:
    struct State;
    const std::shared_ptr<State> state_; ///< shared with deadlines that may just be running out
};

} // namespace barmkeep::executor
