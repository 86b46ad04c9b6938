// The one thread that writes.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

#include <condition_variable>
#include <deque>
#include <spdlog/logger.h>
#include <thread>

namespace barmkeep::ledger {

/// Group commit: the writer takes what waits, gives each request a savepoint of its own, commits
/// all of them at once, and only then answers.  It never waits for more requests to come.
///
/// A request that fails is rolled back to its savepoint and the others go on.  SQLite itself ends
/// the whole transaction after some failures (a full disk, a failing one); then nothing of the
/// batch is durable, the request that met the failure gets the error, and the others are run again
/// alone. A commit that fails for anything but want of room or of leave to write leaves its outcome
/// open: every request of the batch gets the error to ask again by key, and the writer stops for
/// good.
///
/// Thread safety: all functions, from any thread, but `stop` from one only.
class Writer {
public:
    struct Limits {
        int batch_count_max = 256;
        std::size_t batch_bytes_max = 4 << 20;
        std::chrono::milliseconds batch_time_max{50};
        std::size_t queue_max = 4096;
        std::int64_t events_kept = 100'000;
    };
    /// May be run more than once; changes nothing but the transaction.
    using WriteWork = std::function<json::value(Transaction&, const Call&)>;
    struct Request {
        std::string method;
        Call call; ///< with a digest if it has a key; recorded at its arrival
        std::size_t bytes = 0;
        WriteWork work;
        Done done; ///< null if nobody waits
    };
    using Committed = std::function<void(const std::vector<contract::Event>&)>;
    using Fatal = std::function<void(const std::string&)>;

    /// `committed` is called on the writer's thread with each batch's events, before its answers;
    /// `fatal` once, on the same thread, when the writer has stopped for good.
    Writer(std::unique_ptr<Store> store, const Clock& clock, Limits limits,
           std::shared_ptr<spdlog::logger> log, Committed committed, Fatal fatal);
    ~Writer();

    /// Throws Error(busy) when too much waits and Error(unavailable) once stopped.
    void post(Request request);
    /// Finishes what waits, checkpoints, closes the store.
    void stop();

    /// How many transactions were committed.
    [[nodiscard]] std::int64_t commits() const noexcept { return commits_.load(); }

private:
    struct Answered {
        Request request;
        Outcome outcome;
        std::vector<contract::Event> events;
    };
    using Batch = std::vector<Answered>;

    void serve();
    bool wait_for_request();
    [[nodiscard]] std::optional<Request> next();
    void serve_batch();
    void take_batch(Batch& batch);
    [[nodiscard]] bool attempt(Answered& answered);
    [[nodiscard]] json::value done_once(Transaction& transaction, const Request& request);
    void commit(Batch& batch);
    void commit_failed(Batch& batch, const StoreError& fault);
    void serve_alone(Answered answered);
    void answer(Batch& batch);
    void give_up(const std::string& why);
    void roll_back() noexcept;
    [[nodiscard]] bool begin(Batch& batch);

    std::unique_ptr<Store> store_;
    const Clock& clock_;
    const Limits limits_;
    std::shared_ptr<spdlog::logger> log_;
    Committed committed_;
    Fatal fatal_;
    std::string lost_; ///< why the disk is lost, once it is; of the writer's thread alone

    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Request> waiting_;
    bool stopping_ = false;
    std::atomic<bool> given_up_{false};
    std::atomic<std::int64_t> commits_{0};
    std::thread thread_;
};

} // namespace barmkeep::ledger
