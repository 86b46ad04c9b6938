// What waits in one lane: a queue for each connection, and whose turn it is.
#pragma once

#include "daemon/executor/task.hpp"

#include <deque>
#include <map>
#include <memory>

namespace barmkeep::executor {

/// A task on its way through the executor, whose lock guards all but `task.work` and
/// `task.dropped`: these belong to the thread that runs it.
struct Job {
    enum class Stage { waiting, running, ended };

    Task task;
    Stage stage = Stage::waiting;
    bool is_replaced = false; ///< another thread does the work of the one that is stuck in it
    std::uint64_t ticket = 0; ///< of its deadline
};

/// Connections take turns, one job a turn, so that none starves another however much it asks; the
/// jobs of one connection come in their order.  Not thread-safe: the executor guards it.
class LaneQueue {
public:
    using Shared = std::shared_ptr<Job>;
    using MayBegin = std::function<bool(const Task&)>;

    void push(Shared job);
    /// The next that may begin; null if there is none.
    [[nodiscard]] Shared take(const MayBegin& may_begin);
    /// Takes one out that is in it.
    void remove(const Shared& job);

    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    [[nodiscard]] std::size_t size_of(std::uint64_t connection) const;
    [[nodiscard]] std::size_t size_of_user(std::uint64_t user) const;

private:
    using Own = std::deque<Shared>;

    /// Takes one job of a connection out; false if it was the connection's last.
    bool take_out(std::uint64_t connection, Own::iterator at);

    std::map<std::uint64_t, Own> waiting_;         ///< by connection; none of them empty
    std::map<std::uint64_t, std::size_t> of_user_; ///< how many jobs wait; none of them 0
    std::deque<std::uint64_t> turns_;              ///< each connection that waits, once
    std::size_t size_ = 0;
};

} // namespace barmkeep::executor
