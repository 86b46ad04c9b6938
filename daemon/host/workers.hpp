// The threads that run plugins.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <list>
#include <mutex>
#include <thread>
#include <vector>

namespace barmkeep::host {

/// A pool of threads with one queue.  A job that does not end takes its thread out of work; another
/// can be begun in its place, so that one stuck plugin does not hold up the rest.
/// Thread safety: any thread, but `finish` is not for a worker.
class Workers {
public:
    /// Runs a job; true if a replacement was begun for the thread, which then ends.  Must not
    /// throw.
    using Job = std::function<bool()>;
    /// Replacements at the same time, beyond which stuck plugins do hold up the rest.
    static constexpr std::size_t replacements_max = 16;

    /// How a thread is begun; throws std::system_error where the system has no more.
    using BeginThread = std::function<std::thread(std::function<void()> work)>;

    /// The second is a seam for tests.
    explicit Workers(std::size_t count, BeginThread begin = usual_begin);
    /// Finishes.
    ~Workers();
    Workers(const Workers&) = delete;
    Workers& operator=(const Workers&) = delete;

    /// False if it is finishing: the job will not run.
    [[nodiscard]] bool post(Job job);
    /// Begins a thread in the place of one that is stuck in a job; false if there are too many.
    /// Throws std::system_error where the system has no more.
    [[nodiscard]] bool replace_one();
    /// Takes no more jobs, runs those that wait, and waits for all threads.
    void finish();

private:
    [[nodiscard]] static std::thread usual_begin(std::function<void()> work);
    void work();
    void begin_thread();
    void join_ended();

    const std::size_t threads_max_;
    const BeginThread begin_;
    std::mutex mutex_; ///< guards what follows
    std::condition_variable changed_;
    std::deque<Job> waiting_;
    std::list<std::thread> threads_;
    std::vector<std::thread::id> ended_; ///< have left work() and can be joined at once
    bool finishing_ = false;
};

} // namespace barmkeep::host
