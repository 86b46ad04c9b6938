// A way to break into a wait for the daemon.
#pragma once

#include "sdk/system/descriptor.hpp"

namespace barmkeep::client {

/// Something a waiting client watches beside its socket: Ctrl-C of a program, or a button.
class Interruption {
public:
    virtual ~Interruption() = default;
    /// A descriptor that becomes readable when somebody wants to break in.
    [[nodiscard]] virtual int descriptor() const noexcept = 0;
    /// Takes note of it, so that the descriptor is readable no longer; false if nobody wanted to.
    [[nodiscard]] virtual bool take() noexcept = 0;
};

/// An interruption by another thread, or by a signal handler.
class StopButton final : public Interruption {
public:
    /// Throws std::system_error if the process has no descriptors left.
    StopButton();

    /// Any thread, and any signal handler.
    void press() noexcept;

    [[nodiscard]] int descriptor() const noexcept override { return descriptor_.get(); }
    [[nodiscard]] bool take() noexcept override;

private:
    Descriptor descriptor_;
};

} // namespace barmkeep::client
