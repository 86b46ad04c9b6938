// The calls of a session's requests, and what is sent back.
#include "daemon/protocol/session.hpp"

#include "daemon/protocol/session_task.hpp"
#include "sdk/contract/service.hpp"

#include <fmt/format.h>

namespace barmkeep::protocol {
namespace {

Error cancelled() {
    return {ErrorKind::cancelled, "cancelled", "The request was cancelled before it began."};
}

Error too_long(std::size_t most, bool is_result) {
    return {
        ErrorKind::busy, "reply_too_long",
        fmt::format("The {} would be longer than {} bytes.", is_result ? "reply" : "refusal", most),
        is_result ? "If it records something, this was done. Ask for smaller pages."
                  : "It was refused. Send less at once to read why."};
}

} // namespace

/// call.cancel must reach a connection whose places are all taken by what it must stop.
bool Session::Task::passes_others() const {
    return request.method == contract::CallCancel::about.name;
}

Session::Reply::~Reply() {
    if (!given_)
        give(Error(ErrorKind::internal, "no_answer", "The method ended without an answer.",
                   "This is a fault of the method; report it to its author."));
}

void Session::Reply::give(const Outcome& outcome) {
    if (!given_.exchange(true))
        session_->finish(task_, outcome);
}

void Session::begin_waiting() {
    {
        const Lock lock{mutex_};
        if (beginning_)
            return; // a handler answered on the spot: the loop below goes on with the next
        beginning_ = true;
    }
    for (;;) {
        std::shared_ptr<Task> task;
        {
            const Lock lock{mutex_};
            if (waiting_.empty() || at_work_ >= service_->limits.in_flight_max) {
                beginning_ = false;
                break;
            }
            task = std::move(waiting_.front());
            waiting_.pop_front();
            waiting_bytes_ -= task->bytes;
            ++at_work_;
        }
        begin(task);
    }
}

Caller Session::caller() const {
    const Lock lock{mutex_};
    return caller_;
}

void Session::begin(const std::shared_ptr<Task>& task) {
    const auto reply = std::make_shared<Reply>(shared_from_this(), task);
    const auto work = [service = service_, caller = caller(), line = line_, task, reply] {
        if (task->stop.stop_requested())
            return reply->give(cancelled());
        Call call{
            caller, {},           {}, task->stop.get_token(), line, task->request.progress_token,
            0,      task->arrived};
        const auto& params = task->request.params;
        start_call(*service, task->request.method, std::move(call), params ? &*params : nullptr,
                   [reply](const Outcome& outcome) { reply->give(outcome); });
    };
    if (service_->run && !task->passes_others())
        service_->run(work);
    else
        work();
}

void Session::tell_fault(const Task& task, const Outcome& outcome) const {
    if (!service_->fault)
        return;
    if (const auto fault = internal_fault(outcome))
        service_->fault(fmt::format("{}, asked by {}: {}: {}", task.request.method, caller().name,
                                    fault->reason(), fault->what()));
}

void Session::finish(const std::shared_ptr<Task>& task, const Outcome& outcome) {
    const auto& id = task->request.id;
    tell_fault(*task, outcome);
    std::string reply = id ? reply_text(*id, outcome) : std::string{};
    const std::size_t most = service_->limits.reply_bytes_max;
    const std::string key = task->key();
    {
        const Lock lock{mutex_};
        --at_work_;
        unanswered_.erase(task);
        if (!key.empty())
            by_id_.erase(key);
        if (const auto& token = task->request.progress_token; !token.is_null())
            progress_tokens_.extract(id_text(token)); // one of them, where two requests share it
        if (id && reply.size() + (task->batch ? task->batch->bytes() : 0) > most)
            reply = reply_text(*id, too_long(most, std::holds_alternative<json::value>(outcome)));
        deliver(lock, task->batch.get(), task->place, std::move(reply));
        if (stopping_ && unanswered_.empty())
            close(lock, stopping());
    }
    begin_waiting();
    settle();
}

bool Session::notify(std::string_view method, json::object params) {
    const bool is_progress = method == "call.progress";
    const json::value* token = is_progress ? params.if_contains("token") : nullptr;
    const std::string key = token != nullptr ? id_text(*token) : std::string{};
    const bool can_be_sent = all_finite(params);
    const std::string line =
        can_be_sent ? notification_text(method, std::move(params)) : std::string{};
    bool is_there = false;
    {
        const Lock lock{mutex_};
        is_there = state_ == State::open;
        // A step of progress is no loss: a slow client goes without, and so does a request that is
        // already answered.
        const bool is_wanted =
            !is_progress || (progress_tokens_.contains(key) && !outbox_.is_half_full());
        if (is_there && can_be_sent && is_wanted)
            push(lock, line);
    }
    settle();
    return is_there;
}

bool Session::has_room() const {
    const Lock lock{mutex_};
    return !outbox_.is_half_full();
}

void Session::when_room(std::function<void()> go_on) {
    {
        const Lock lock{mutex_};
        if (outbox_.is_half_full()) {
            for_room_.push_back(std::move(go_on));
            return;
        }
    }
    go_on();
}

bool Session::cancel(const json::value& id) {
    std::shared_ptr<Task> task;
    bool was_waiting = false;
    {
        const Lock lock{mutex_};
        const auto found = by_id_.find(id_text(id));
        if (found == by_id_.end())
            return false;
        task = found->second;
        was_waiting = std::erase(waiting_, task) > 0;
        if (was_waiting) {
            waiting_bytes_ -= task->bytes;
            ++at_work_; // finish() counts it off
        }
    }
    task->stop.request_stop();
    if (was_waiting)
        finish(task, cancelled());
    return true;
}

void Session::deliver(const Lock& lock, Batch* batch, std::size_t place, std::string reply) {
    if (batch == nullptr) {
        if (!reply.empty())
            push(lock, std::move(reply));
        return;
    }
    batch->put(place, std::move(reply));
    if (!batch->is_complete())
        return;
    if (auto text = batch->text())
        push(lock, std::move(*text));
}

void Session::push(const Lock& lock, std::string line) {
    if (state_ != State::open)
        return;
    if (outbox_.has_room(line.size()))
        return outbox_.push(std::move(line));
    close(lock, Error(ErrorKind::busy, "reader_too_slow",
                      fmt::format("More than {} bytes wait for this client to read them.",
                                  service_->limits.reply_bytes_max),
                      "Read replies while sending; connect again and repeat with the same keys."));
}

void Session::close(const Error& reason) {
    {
        const Lock lock{mutex_};
        close(lock, reason);
    }
    settle();
}

void Session::close(const Lock& lock, const Error& reason) {
    if (state_ != State::open)
        return;
    outbox_.push(notification_text(
        closing_notification,
        {{"reason", reason.reason()}, {"message", reason.what()}, {"hint", reason.hint()}}));
    state_ = State::closing;
    stop_all(lock);
}

void Session::hang_up() {
    std::vector<std::function<void()>> forgotten; // what they hold dies once the lock is free
    {
        const Lock lock{mutex_};
        outbox_.clear();
        forgotten.swap(for_room_);
        state_ = State::gone;
        stop_all(lock);
    }
    settle();
}

void Session::set_access(std::optional<Access> access) {
    {
        const Lock lock{mutex_};
        if (access)
            caller_.access = *access;
        else
            close(lock, Error(ErrorKind::refused, "not_admitted",
                              fmt::format("{} may no longer use this cellar.", caller_.name),
                              "Ask the cellar's owner to add you in the settings (section "
                              "[access])."));
    }
    settle();
}

void Session::stop_taking() {
    {
        const Lock lock{mutex_};
        stopping_ = true;
        if (unanswered_.empty())
            close(lock, stopping());
    }
    settle();
}

/// What waits is forgotten, what is at work is asked to stop as soon as the lock is free.
void Session::stop_all(const Lock&) {
    for (const auto& task : waiting_) {
        unanswered_.erase(task);
        by_id_.erase(task->key());
    }
    waiting_.clear();
    waiting_bytes_ = 0;
    to_stop_.insert(to_stop_.end(), unanswered_.begin(), unanswered_.end());
}

/// Does what must not be done under the lock: stop callbacks and the wake function are foreign.
void Session::settle() {
    std::vector<std::shared_ptr<Task>> tasks;
    {
        const Lock lock{mutex_};
        tasks.swap(to_stop_);
    }
    for (const auto& task : tasks)
        task->stop.request_stop();
    wake_();
}

} // namespace barmkeep::protocol
