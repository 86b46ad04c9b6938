// Ctrl-C as something to wait for, and not as something that strikes at any moment.
#pragma once

#include "sdk/client/interruption.hpp"
#include "sdk/system/descriptor.hpp"

#include <csignal>

namespace barmkeep::barm {

/// While it lives, SIGINT and SIGTERM of this thread are held back and can be taken one by one;
/// before and after, they end the program as usual.  REQUIRES: the program has one thread.
class SignalInterruption final : public client::Interruption {
public:
    /// Throws std::system_error if the process has no descriptors left.
    SignalInterruption();
    ~SignalInterruption() override;
    SignalInterruption(const SignalInterruption&) = delete;
    SignalInterruption& operator=(const SignalInterruption&) = delete;

    [[nodiscard]] int descriptor() const noexcept override { return descriptor_.get(); }
    [[nodiscard]] bool take() noexcept override;

private:
    sigset_t before_{};
    Descriptor descriptor_;
};

} // namespace barmkeep::barm
