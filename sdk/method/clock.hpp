// The one clock.  Nothing in the house asks the system for the time but SystemClock, so that a
// test or a demo sets the time for all of it.
#pragma once

#include "sdk/method/time.hpp"

#include <atomic>

namespace barmkeep {

/// Thread safety: now() may be called from any thread.
class Clock {
public:
    virtual ~Clock() = default;
    [[nodiscard]] virtual Instant now() const = 0;
};

class SystemClock final : public Clock {
public:
    [[nodiscard]] Instant now() const override {
        return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
    }
};

/// The machine's clock.  There is nothing in it that could change.
[[nodiscard]] inline const Clock& system_clock() noexcept {
    static const SystemClock clock;
    return clock;
}

/// Stands still until it is set.
class ManualClock final : public Clock {
public:
    explicit ManualClock(Instant start) : now_{start} {}
    [[nodiscard]] Instant now() const override { return now_.load(); }
    void set(Instant instant) { now_.store(instant); }
    void advance(std::chrono::milliseconds by) { now_.store(now_.load() + by); }

private:
    std::atomic<Instant> now_;
};

} // namespace barmkeep
