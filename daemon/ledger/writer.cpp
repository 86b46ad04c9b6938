#include "daemon/ledger/writer.hpp"

#include "daemon/ledger/keys.hpp"
#include "daemon/ledger/store_error.hpp"

#include <fmt/ranges.h>
#include <set>

namespace barmkeep::ledger {
namespace {

Error stopping_error() {
    return {ErrorKind::unavailable, "stopping", "The ledger is stopping.",
            "Send the request again with the same key when the daemon runs again."};
}

Error unknown_outcome_error(const std::string& why) {
    return {ErrorKind::unknown_outcome, "unknown_outcome",
            "The commit failed. It is not known whether the request was recorded: " + why,
            "Send the request again with the same key when the daemon runs again."};
}

} // namespace

Writer::Writer(std::unique_ptr<Store> store, const Clock& clock, Limits limits,
               std::shared_ptr<spdlog::logger> log, Committed committed, Fatal fatal)
    : store_{std::move(store)}, clock_{clock}, limits_{limits}, log_{std::move(log)},
      committed_{std::move(committed)}, fatal_{std::move(fatal)}, thread_{[this] {
          serve();
      }} {}

Writer::~Writer() {
    stop();
}

void Writer::post(Request request) {
    if (request.call.arrived == Instant{})
        request.call.arrived = clock_.now(); // the ledger's own
    {
        const std::lock_guard lock{mutex_};
        if (stopping_ || given_up_)
            throw stopping_error();
        if (waiting_.size() >= limits_.queue_max)
            throw Error(ErrorKind::busy, "queue_full", "Too many requests wait to be recorded.",
                        "Try again in a moment.");
        waiting_.push_back(std::move(request));
    }
    changed_.notify_one();
}

void Writer::stop() {
    {
        const std::lock_guard lock{mutex_};
        stopping_ = true;
    }
    changed_.notify_one();
    if (thread_.joinable())
        thread_.join();
}

void Writer::serve() {
    while (wait_for_request()) {
        serve_batch();
        if (!lost_.empty() && !given_up_)
            give_up(lost_);
    }
    try {
        if (!given_up_)
            store_->checkpoint();
    } catch (const StoreError& fault) {
        log_->warn("the last checkpoint failed, the log is kept: {}", fault.what());
    }
    store_.reset();
}

bool Writer::wait_for_request() {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [this] { return stopping_ || !waiting_.empty(); });
    return !waiting_.empty();
}

std::optional<Writer::Request> Writer::next() {
    const std::lock_guard lock{mutex_};
    if (waiting_.empty())
        return std::nullopt;
    Request request = std::move(waiting_.front());
    waiting_.pop_front();
    return request;
}

void Writer::serve_batch() {
    Batch batch;
    if (!begin(batch))
        return;
    take_batch(batch);
    if (store_->holds_transaction()) {
        commit(batch);
        return;
    }
    // SQLite has ended the transaction under the last request of the batch.
    log_->warn("the store ended a transaction of {} requests; they are run again one by one",
               batch.size());
    Batch failed;
    failed.push_back(std::move(batch.back()));
    batch.pop_back();
    if (std::holds_alternative<json::value>(failed.front().outcome))
        batch.push_back(std::move(failed.front())); // it did not even notice
    for (auto& answered : batch)
        serve_alone(std::move(answered));
    if (!std::holds_alternative<json::value>(failed.front().outcome))
        answer(failed);
}

bool Writer::begin(Batch& batch) {
    try {
        if (given_up_)
            throw StoreError(StoreErrorCode::other, "the writer has given up");
        store_->run("BEGIN IMMEDIATE");
        return true;
    } catch (const StoreError& fault) {
        const Error error = given_up_ ? stopping_error() : error_of(fault);
        while (auto request = next())
            batch.push_back({std::move(*request), error, {}});
        answer(batch);
        if (ends_service(fault))
            lost_ = fault.what();
        return false;
    }
}

void Writer::take_batch(Batch& batch) {
    // How long a batch takes is no time of the cellar's: a manual clock would stand still.
    const auto deadline = std::chrono::steady_clock::now() + limits_.batch_time_max;
    std::size_t bytes = 0;
    while (auto request = next()) {
        bytes += request->bytes;
        batch.push_back({std::move(*request), json::value(nullptr), {}});
        if (!attempt(batch.back()))
            return;
        if (batch.size() >= static_cast<std::size_t>(limits_.batch_count_max) ||
            bytes >= limits_.batch_bytes_max || std::chrono::steady_clock::now() >= deadline)
            return;
    }
}

bool Writer::attempt(Answered& answered) {
    answered.events.clear();
    try {
        store_->run("SAVEPOINT request");
        Transaction transaction{*store_, answered.request.call.arrived, limits_.events_kept};
        answered.outcome = done_once(transaction, answered.request);
        // A later savepoint would start a transaction of its own if this one were gone.
        if (!store_->holds_transaction())
            return false;
        store_->run("RELEASE request");
        answered.events = transaction.events();
        return true;
    } catch (const StoreError& fault) {
        answered.outcome = error_of(fault);
        log_->error("{} failed in the store: {}", answered.request.method, fault.what());
        if (ends_service(fault))
            lost_ = fault.what();
    } catch (...) {
        answered.outcome = error_of(std::current_exception());
        const auto& error = std::get<Error>(answered.outcome);
        if (error.kind() == ErrorKind::internal || error.kind() == ErrorKind::unavailable)
            log_->error("{} failed: {}", answered.request.method, error.what());
    }
    if (!store_->holds_transaction())
        return false;
    try {
        store_->run("ROLLBACK TO request");
        store_->run("RELEASE request");
    } catch (const StoreError& fault) {
        log_->error("a savepoint could not be rolled back: {}", fault.what());
        roll_back();
        return false;
    }
    return true;
}

json::value Writer::done_once(Transaction& transaction, const Request& request) {
    const Call& call = request.call;
    if (!call.key.empty())
        if (auto stored = stored_answer(transaction, call.key, call.digest))
            return std::move(*stored);
    json::value result = request.work(transaction, call);
    if (!call.key.empty())
        store_answer(transaction, call.key, call.digest, result);
    return result;
}

void Writer::commit(Batch& batch) {
    try {
        store_->run("COMMIT");
        ++commits_;
    } catch (const StoreError& fault) {
        commit_failed(batch, fault);
        return;
    }
    answer(batch);
}

void Writer::commit_failed(Batch& batch, const StoreError& fault) {
    std::set<std::string> methods;
    for (const auto& answered : batch)
        methods.insert(answered.request.method);
    log_->critical("a commit of {} requests ({}) failed: {}", batch.size(),
                   fmt::join(methods, ", "), fault.what());
    roll_back();
    // Want of room, or of leave to write, shows while the log is written; its last frame, the one
    // that makes a commit, is written last.  So it is certain that nothing of the batch is durable.
    const bool is_certain = fault.code() == StoreErrorCode::full ||
                            fault.code() == StoreErrorCode::busy ||
                            fault.code() == StoreErrorCode::read_only;
    if (is_certain && batch.size() > 1) {
        for (auto& answered : batch)
            serve_alone(std::move(answered));
        return;
    }
    for (auto& answered : batch)
        if (std::holds_alternative<json::value>(answered.outcome)) {
            answered.outcome = is_certain ? error_of(fault) : unknown_outcome_error(fault.what());
            answered.events.clear();
        }
    if (!is_certain)
        given_up_ = true;
    answer(batch);
    if (!is_certain)
        give_up(fault.what());
}

void Writer::serve_alone(Answered answered) {
    Batch batch;
    batch.push_back(std::move(answered));
    try {
        if (given_up_)
            throw stopping_error();
        store_->run("BEGIN IMMEDIATE");
        if (attempt(batch.front())) {
            commit(batch);
            return;
        }
        if (std::holds_alternative<json::value>(batch.front().outcome))
            throw Error(ErrorKind::unavailable, "disk_failed",
                        "The store ended the transaction: nothing was recorded.", "Ask again.");
    } catch (...) {
        batch.front().outcome = error_of(std::current_exception());
    }
    batch.front().events.clear();
    roll_back();
    answer(batch);
}

void Writer::answer(Batch& batch) {
    std::vector<contract::Event> events;
    for (auto& answered : batch)
        events.insert(events.end(), answered.events.begin(), answered.events.end());
    try {
        if (!events.empty())
            committed_(events);
    } catch (const std::exception& error) {
        log_->error("a listener to events failed: {}", error.what());
    }
    for (auto& answered : batch) {
        try {
            if (answered.request.done)
                answered.request.done(std::move(answered.outcome));
        } catch (const std::exception& error) {
            log_->error("an answer could not be delivered: {}", error.what());
        }
    }
}

void Writer::give_up(const std::string& why) {
    given_up_ = true;
    log_->critical("the ledger stops: {}", why);
    fatal_(why);
}

void Writer::roll_back() noexcept {
    try {
        if (store_->holds_transaction())
            store_->run("ROLLBACK");
    } catch (const StoreError& fault) {
        log_->error("a rollback failed: {}", fault.what());
    }
}

} // namespace barmkeep::ledger
