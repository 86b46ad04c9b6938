#include "daemon/client/signals.hpp"

#include <cerrno>
#include <sys/signalfd.h>
#include <system_error>
#include <unistd.h>

namespace barmkeep::barm {

SignalInterruption::SignalInterruption() {
    sigset_t held{};
    sigemptyset(&held);
    sigaddset(&held, SIGINT);
    sigaddset(&held, SIGTERM);
    descriptor_ = Descriptor{::signalfd(-1, &held, SFD_CLOEXEC | SFD_NONBLOCK)};
    if (!descriptor_)
        throw std::system_error(errno, std::generic_category(), "signalfd");
    ::pthread_sigmask(SIG_BLOCK, &held, &before_);
}

SignalInterruption::~SignalInterruption() {
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

bool SignalInterruption::take() noexcept {
    signalfd_siginfo signal{};
    return ::read(descriptor_.get(), &signal, sizeof signal) == sizeof signal;
}

} // namespace barmkeep::barm
