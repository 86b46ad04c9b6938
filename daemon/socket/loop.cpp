#include "daemon/socket/loop.hpp"

#include "daemon/socket/asio.hpp"

#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace barmkeep::socket {
namespace {

void wait_for_signal(const std::shared_ptr<asio::signal_set>& signals,
                     const std::function<void(int)>& work) {
    signals->async_wait([signals, work](error_code error, int signal) {
        if (error)
            return; // the loop ends
        work(signal);
        wait_for_signal(signals, work);
    });
}

void wait_for_tick(const std::shared_ptr<asio::steady_timer>& timer,
                   std::chrono::milliseconds interval, const std::function<void()>& work) {
    timer->expires_after(interval);
    timer->async_wait([timer, interval, work](error_code error) {
        if (error)
            return;
        work();
        wait_for_tick(timer, interval, work);
    });
}

} // namespace

/// Keeps run() from returning while nothing happens to be waited for.
struct Loop::Waits {
    asio::executor_work_guard<asio::io_context::executor_type> open;
};

Loop::Loop()
    : context_{std::make_unique<asio::io_context>()}, waits_{std::make_unique<Waits>(Waits{
                                                          asio::make_work_guard(*context_)})} {}

Loop::~Loop() = default;

void Loop::run(unsigned threads) {
    std::mutex mutex;
    std::exception_ptr failure;
    const auto work = [&] {
        try {
            context_->run();
        } catch (...) {
            const std::lock_guard lock{mutex};
            failure = std::current_exception();
            context_->stop();
        }
    };
    {
        std::vector<std::jthread> others;
        for (unsigned i = 1; i < threads; ++i)
            others.emplace_back(work);
        work();
    }
    if (failure)
        std::rethrow_exception(failure);
}

void Loop::stop() {
    context_->stop();
}

void Loop::post(std::function<void()> work) {
    asio::post(*context_, std::move(work));
}

void Loop::on_signals(std::initializer_list<int> signals, std::function<void(int)> work) {
    const auto set = std::make_shared<asio::signal_set>(*context_);
    for (const int signal : signals)
        set->add(signal);
    wait_for_signal(set, work);
}

void Loop::after(std::chrono::milliseconds delay, std::function<void()> work) {
    const auto timer = std::make_shared<asio::steady_timer>(*context_, delay);
    timer->async_wait([timer, work = std::move(work)](error_code error) {
        if (!error)
            work();
    });
}

void Loop::every(std::chrono::milliseconds interval, std::function<void()> work) {
    wait_for_tick(std::make_shared<asio::steady_timer>(*context_), interval, work);
}

} // namespace barmkeep::socket
