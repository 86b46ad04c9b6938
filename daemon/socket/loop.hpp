// The event loop: what waits for sockets, timers and signals.
#pragma once

#include <chrono>
#include <functional>
#include <initializer_list>
#include <memory>

namespace boost::asio {
class io_context;
}

namespace barmkeep::socket {

/// Wraps the I/O context, so that main needs nothing of the library under it.
/// Thread safety: any thread.
class Loop {
public:
    Loop();
    ~Loop();
    Loop(const Loop&) = delete;
    Loop& operator=(const Loop&) = delete;

    /// Works on the calling thread and `threads - 1` more until stop().  An exception out of a
    /// function it runs ends all threads and comes out here.
    void run(unsigned threads = 1);
    /// Makes run() return soon; what is left undone stays so.
    void stop();

    /// Runs a function on one of the loop's threads.
    void post(std::function<void()> work);
    /// Calls back for each of these signals, with its number, as often as they come.
    void on_signals(std::initializer_list<int> signals, std::function<void(int)> work);
    /// Calls back once, after this time.
    void after(std::chrono::milliseconds delay, std::function<void()> work);
    /// Calls back at this interval until the loop ends.
    void every(std::chrono::milliseconds interval, std::function<void()> work);

    [[nodiscard]] boost::asio::io_context& context() noexcept { return *context_; }

private:
    struct Waits;
    std::unique_ptr<boost::asio::io_context> context_;
    std::unique_ptr<Waits> waits_;
};

} // namespace barmkeep::socket
