// One call of a plugin's method from outside, on its way through the executor.
#pragma once

#include "sdk/method/call.hpp"

#include <atomic>

namespace barmkeep::host {

/// Answers its caller once: with the plugin's outcome, or, when that takes too long, without it.
/// Thread safety: any thread.
class PendingCall {
public:
    PendingCall(std::string method, Call call, Done done);

    [[nodiscard]] const std::string& method() const noexcept { return method_; }
    /// The call as the plugin is to see it: cancelled by its caller, or when it is given up.
    [[nodiscard]] const Call& call() const noexcept { return call_; }

    /// Answers; false if that was done already and the outcome is dropped.
    bool answer(Outcome outcome);
    /// Answers that it was cancelled before the plugin saw it.
    void drop();
    /// Answers with an error in the plugin's stead, and shows the plugin that it is unwanted; false
    /// if it was answered already.
    bool give_up(bool begun, std::chrono::milliseconds after);

private:
    std::string method_;
    std::stop_source unwanted_;
    Call call_;
    Done done_;
    std::atomic<bool> answered_ = false;
    std::stop_callback<std::function<void()>> cancelled_by_caller_;
};

} // namespace barmkeep::host
