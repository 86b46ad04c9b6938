// A file descriptor with an owner.
#pragma once

#include <unistd.h>
#include <utility>

namespace barmkeep {

/// Closes what it owns; owns nothing when it was given a negative number, as failed calls answer.
/// Thread safety: one thread at a time.
class Descriptor {
public:
    Descriptor() = default;
    explicit Descriptor(int number) noexcept : number_{number} {}
    Descriptor(Descriptor&& other) noexcept : number_{other.release()} {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }
    ~Descriptor() {
        if (number_ >= 0)
            ::close(number_);
    }

    [[nodiscard]] int get() const noexcept { return number_; }
    explicit operator bool() const noexcept { return number_ >= 0; }
    /// Gives the ownership away.
    [[nodiscard]] int release() noexcept { return std::exchange(number_, -1); }

private:
    int number_ = -1;
};

} // namespace barmkeep
