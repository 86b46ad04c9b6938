#include "daemon/executor/lane_queue.hpp"

#include <algorithm>

namespace barmkeep::executor {

void LaneQueue::push(Shared job) {
    const std::uint64_t caller = job->task.caller;
    Own& own = waiting_[caller];
    if (own.empty())
        turns_.push_back(caller);
    own.push_back(std::move(job));
    ++size_;
}

LaneQueue::Shared LaneQueue::take(const MayBegin& may_begin) {
    for (std::size_t callers = turns_.size(); callers > 0; --callers) {
        const std::uint64_t caller = turns_.front();
        turns_.pop_front();
        Own& own = waiting_.at(caller);
        const auto found = std::find_if(own.begin(), own.end(),
                                        [&](const Shared& job) { return may_begin(job->task); });
        Shared job = found == own.end() ? nullptr : *found;
        if (!job || take_out(caller, found))
            turns_.push_back(caller);
        if (job)
            return job;
    }
    return nullptr;
}

void LaneQueue::remove(const Shared& job) {
    const std::uint64_t caller = job->task.caller;
    Own& own = waiting_.at(caller);
    if (!take_out(caller, std::find(own.begin(), own.end(), job)))
        std::erase(turns_, caller);
}

std::size_t LaneQueue::size_of(std::uint64_t caller) const {
    const auto own = waiting_.find(caller);
    return own == waiting_.end() ? 0 : own->second.size();
}

bool LaneQueue::take_out(std::uint64_t caller, Own::iterator at) {
    --size_;
    Own& own = waiting_.at(caller);
    own.erase(at);
    if (!own.empty())
        return true;
    waiting_.erase(caller);
    return false;
}

} // namespace barmkeep::executor
