#include "daemon/executor/executor.hpp"

#include "daemon/executor/lane_queue.hpp"

#include <algorithm>
#include <boost/asio/post.hpp>
#include <boost/asio/thread_pool.hpp>
#include <condition_variable>

namespace barmkeep::executor {
namespace {

using Shared = std::shared_ptr<Job>;
using Stage = Job::Stage;

constexpr std::size_t lanes_count = enum_names(Lane{}).size();

std::size_t index_of(Lane lane) noexcept {
    return static_cast<std::size_t>(lane);
}

bool counts_group(const Task& task) noexcept {
    return !task.group.empty() && (task.group_max > 0 || task.lane != Lane::log);
}

bool counts_caller(const Task& task) noexcept {
    return task.caller.connection != 0 && task.lane != Lane::log;
}

bool counts_user(const Task& task) noexcept {
    return task.caller.user != 0 && task.lane != Lane::log;
}

Executor::Options completed(Executor::Options options) {
    options.threads = std::max<std::size_t>(options.threads, 1);
    if (!options.begin)
        options.begin = [](std::function<void()> work) {
            return std::thread{std::move(work)};
        };
    return options;
}

} // namespace

TaskCaller turn_of(const Call& call) noexcept {
    // 0 is the daemon itself.
    const std::uint64_t user =
        std::max<std::uint64_t>(std::hash<std::string>{}(call.caller.name), 1);
    return {call.listener ? reinterpret_cast<std::uintptr_t>(call.listener.get()) : user, user};
}

/// The mutex guards all that is not const, and is never held while a function of a task runs.
struct Executor::State : std::enable_shared_from_this<State> {
    using Lock = std::unique_lock<std::mutex>;

    explicit State(Options given)
        : options{completed(std::move(given))}, general{options.threads - (options.threads > 1)},
          share{(general + 1) / 2} {}

    const Options options;
    const std::size_t general; ///< threads for what is not for the log
    const std::size_t share;   ///< of them, what one connection, user or plugin may have

    mutable std::mutex mutex;
    std::condition_variable ended;
    std::array<LaneQueue, lanes_count> waiting;
    std::array<Counters, lanes_count> counted;
    std::map<std::string, std::size_t> of_group;
    std::map<std::uint64_t, std::size_t> of_connection;
    std::map<std::uint64_t, std::size_t> of_user;
    std::size_t stuck = 0; ///< jobs whose thread was replaced and that have not ended
    bool stopping = false;
    boost::asio::thread_pool pool{0}; ///< has no threads but ours
    std::vector<std::thread> threads;

    void submit(Task task);
    void stop();
    void begin_thread() {
        threads.push_back(options.begin([this] { pool.attach(); }));
    }

private:
    void require_room(const Lock&, const Task& task);
    [[nodiscard]] bool has_room(const Lock&, const Task& task) const;
    void begin_waiting(const Lock& lock);
    [[nodiscard]] Shared next(const Lock& lock);
    [[nodiscard]] bool may_begin(const Task& task) const;
    [[nodiscard]] std::size_t at_work(const Lock&) const;
    void count(const Lock&, const Task& task, bool begins);
    void run(const Shared& job);
    void time_is_up(const Shared& job);
    [[nodiscard]] bool replace_thread(const Lock&) noexcept;
};

void Executor::State::submit(Task task) {
    const auto job = std::make_shared<Job>();
    job->task = std::move(task);
    const Lock lock{mutex};
    require_room(lock, job->task);
    if (options.deadlines && job->task.time_max.count() > 0)
        job->ticket = options.deadlines->add(
            job->task.time_max, [self = shared_from_this(), job] { self->time_is_up(job); });
    waiting[index_of(job->task.lane)].push(job);
    begin_waiting(lock);
}

void Executor::State::require_room(const Lock& lock, const Task& task) {
    if (!stopping && has_room(lock, task))
        return;
    ++counted[index_of(task.lane)].refused;
    if (stopping)
        throw Error(ErrorKind::unavailable, "stopping", "The daemon is stopping.",
                    "Send the request again with the same key when the daemon runs again.");
    throw Error(ErrorKind::busy, "queue_full", "Too many requests wait to be served.",
                "Try again in a moment.");
}

bool Executor::State::has_room(const Lock&, const Task& task) const {
    if (task.caller.connection == 0)
        return true;
    const LaneQueue& lane = waiting[index_of(task.lane)];
    return lane.size() < options.waiting_max &&
           lane.size_of(task.caller.connection) < (options.waiting_max + 3) / 4 &&
           (task.caller.user == 0 ||
            lane.size_of_user(task.caller.user) < (options.waiting_max + 1) / 2);
}

void Executor::State::begin_waiting(const Lock& lock) {
    while (const Shared job = next(lock)) {
        job->stage = Stage::running;
        count(lock, job->task, true);
        boost::asio::post(pool, [this, job] { run(job); }); // a thread of the pool is free for it
    }
}

Shared Executor::State::next(const Lock& lock) {
    const std::size_t all = at_work(lock);
    if (all >= options.threads)
        return nullptr;
    const bool is_general = all - counted[index_of(Lane::log)].running < general;
    for (const auto& lane : enum_names(Lane{}))
        if (lane.value == Lane::log || is_general)
            if (auto job = waiting[index_of(lane.value)].take(
                    [this](const Task& task) { return may_begin(task); }))
                return job;
    return nullptr;
}

bool Executor::State::may_begin(const Task& task) const {
    const auto has_room = [](const auto& counts, const auto& whose, std::size_t most) {
        const auto found = counts.find(whose);
        return found == counts.end() || found->second < most;
    };
    return (!counts_group(task) ||
            has_room(of_group, task.group, task.group_max > 0 ? task.group_max : share)) &&
           (!counts_caller(task) || has_room(of_connection, task.caller.connection, share)) &&
           (!counts_user(task) || has_room(of_user, task.caller.user, share));
}

std::size_t Executor::State::at_work(const Lock&) const {
    std::size_t all = 0;
    for (const auto& lane : counted)
        all += lane.running;
    return all;
}

/// Counts a job in as it begins, or out as it ends or its thread is replaced.
void Executor::State::count(const Lock&, const Task& task, bool begins) {
    const auto change = [&](auto& counts, const auto& whose) {
        const auto at = counts.try_emplace(whose).first;
        if ((begins ? ++at->second : --at->second) == 0)
            counts.erase(at);
    };
    auto& lane = counted[index_of(task.lane)];
    begins ? ++lane.running : --lane.running;
    if (counts_group(task))
        change(of_group, task.group);
    if (counts_caller(task))
        change(of_connection, task.caller.connection);
    if (counts_user(task))
        change(of_user, task.caller.user);
}

void Executor::State::run(const Shared& job) {
    const bool is_dropped = job->task.cancelled.stop_requested();
    if (const auto& work = is_dropped ? job->task.dropped : job->task.work)
        work();
    Task task; // let go outside the lock
    {
        const Lock lock{mutex};
        if (job->is_replaced)
            --stuck;
        else
            count(lock, job->task, false);
        auto& lane = counted[index_of(job->task.lane)];
        ++(is_dropped ? lane.dropped : lane.done);
        job->stage = Stage::ended;
        task = std::move(job->task);
        begin_waiting(lock);
        ended.notify_all();
    }
    if (job->ticket != 0)
        options.deadlines->remove(job->ticket);
}

void Executor::State::time_is_up(const Shared& job) {
    bool begun = false;
    std::function<void(bool)> late;
    Task task; // of one that has not begun; let go outside the lock
    {
        const Lock lock{mutex};
        if (job->stage == Stage::ended)
            return;
        begun = job->stage == Stage::running;
        late = job->task.late;
        ++counted[index_of(job->task.lane)].late;
        if (!begun) {
            waiting[index_of(job->task.lane)].remove(job);
            job->stage = Stage::ended;
            task = std::move(job->task);
        } else if (replace_thread(lock)) {
            job->is_replaced = true;
            ++stuck;
            count(lock, job->task, false);
            begin_waiting(lock);
        }
        ended.notify_all();
    }
    if (late)
        late(begun);
}

/// Provides a thread for other work while one more is stuck.  A thread that replaced one whose job
/// has ended since is free.
bool Executor::State::replace_thread(const Lock&) noexcept {
    if (stuck >= replacements_max)
        return false;
    if (threads.size() > options.threads + stuck)
        return true;
    try {
        begin_thread();
        return true;
    } catch (const std::exception& error) {
        if (options.log)
            options.log->error("no thread can be begun in the place of a stuck one: {}",
                               error.what());
        return false; // the stuck one goes on when it is free
    }
}

void Executor::State::stop() {
    std::vector<std::thread> all;
    {
        Lock lock{mutex};
        stopping = true;
        ended.wait(lock, [&] {
            return stuck == 0 && at_work(lock) == 0 &&
                   std::ranges::all_of(waiting, [](const auto& lane) { return lane.size() == 0; });
        });
        all.swap(threads);
    }
    pool.stop();
    for (auto& thread : all)
        thread.join();
}

Executor::Executor(Options options) : state_{std::make_shared<State>(std::move(options))} {
    try {
        for (std::size_t i = 0; i < state_->options.threads; ++i)
            state_->begin_thread();
    } catch (...) {
        stop(); // joins those that were begun
        throw;
    }
}

Executor::~Executor() {
    stop();
}

void Executor::submit(Task task) {
    state_->submit(std::move(task));
}

void Executor::stop() {
    state_->stop();
}

Executor::Counters Executor::counters(Lane lane) const {
    const State::Lock lock{state_->mutex};
    Counters counters = state_->counted[index_of(lane)];
    counters.waiting = state_->waiting[index_of(lane)].size();
    return counters;
}

} // namespace barmkeep::executor
