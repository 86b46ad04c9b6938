#include "sdk/client/interruption.hpp"

#include <cerrno>
#include <cstdint>
#include <sys/eventfd.h>
#include <system_error>
#include <unistd.h>

namespace barmkeep::client {

// A semaphore: each press is taken once, so that a second Ctrl-C differs from the first.
StopButton::StopButton() : descriptor_{::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK | EFD_SEMAPHORE)} {
    if (!descriptor_)
        throw std::system_error(errno, std::generic_category(), "eventfd");
}

void StopButton::press() noexcept {
    const std::uint64_t one = 1;
    // It can only fail with the counter full, and then the button is pressed already.
    [[maybe_unused]] const auto written = ::write(descriptor_.get(), &one, sizeof one);
}

bool StopButton::take() noexcept {
    std::uint64_t count = 0;
    return ::read(descriptor_.get(), &count, sizeof count) == sizeof count;
}

} // namespace barmkeep::client
