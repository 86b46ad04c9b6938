#include "daemon/executor/lane_queue.hpp"

#include <algorithm>

namespace barmkeep::executor {

void LaneQueue::push(Shared job) {
    const std::uint64_t connection = job->task.caller.connection;
    Own& own = waiting_[connection];
    if (own.empty())
        turns_.push_back(connection);
    ++of_user_[job->task.caller.user];
    own.push_back(std::move(job));
    ++size_;
}

LaneQueue::Shared LaneQueue::take(const MayBegin& may_begin) {
    for (std::size_t waiting = turns_.size(); waiting > 0; --waiting) {
        const std::uint64_t connection = turns_.front();
        turns_.pop_front();
        Own& own = waiting_.at(connection);
        const auto found = std::find_if(own.begin(), own.end(),
                                        [&](const Shared& job) { return may_begin(job->task); });
        Shared job = found == own.end() ? nullptr : *found;
        if (!job || take_out(connection, found))
            turns_.push_back(connection);
        if (job)
            return job;
    }
    return nullptr;
}

void LaneQueue::remove(const Shared& job) {
    const std::uint64_t connection = job->task.caller.connection;
    Own& own = waiting_.at(connection);
    if (!take_out(connection, std::find(own.begin(), own.end(), job)))
        std::erase(turns_, connection);
}

std::size_t LaneQueue::size_of(std::uint64_t connection) const {
    const auto own = waiting_.find(connection);
    return own == waiting_.end() ? 0 : own->second.size();
}

std::size_t LaneQueue::size_of_user(std::uint64_t user) const {
    const auto found = of_user_.find(user);
    return found == of_user_.end() ? 0 : found->second;
}

bool LaneQueue::take_out(std::uint64_t connection, Own::iterator at) {
    --size_;
    Own& own = waiting_.at(connection);
    const auto user = of_user_.find((*at)->task.caller.user);
    if (--user->second == 0)
        of_user_.erase(user);
    own.erase(at);
    if (!own.empty())
        return true;
    waiting_.erase(connection);
    return false;
}

} // namespace barmkeep::executor
