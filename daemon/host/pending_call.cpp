#include "daemon/host/pending_call.hpp"

#include <fmt/format.h>

namespace barmkeep::host {
namespace {

Call seen_by_plugin(Call call, const std::stop_source& unwanted) {
    call.cancelled = unwanted.get_token();
    return call;
}

Error slow(const std::string& method, const Call& call, std::chrono::milliseconds after) {
    return {ErrorKind::unavailable, "plugin_slow",
            fmt::format("{} did not answer within {} s.", method,
                        static_cast<double>(after.count()) / 1000),
            call.key.empty() ? "If it writes, check whether it was done before you try again."
                             : "Ask again with the same request key. It is not done "
                               "twice."};
}

Error never_begun(const std::string& method, std::chrono::milliseconds after) {
    return {ErrorKind::busy, "plugins_busy",
            fmt::format("{} waited {} s for other calls of plugins and did not begin.", method,
                        static_cast<double>(after.count()) / 1000),
            "Try again later."};
}

} // namespace

PendingCall::PendingCall(std::string method, Call call, Done done)
    : method_{std::move(method)}, call_{seen_by_plugin(call, unwanted_)}, done_{std::move(done)},
      cancelled_by_caller_{call.cancelled, [this] {
                               unwanted_.request_stop();
                           }} {}

bool PendingCall::answer(Outcome outcome) {
    if (answered_.exchange(true))
        return false;
    done_(std::move(outcome));
    return true;
}

void PendingCall::drop() {
    answer(Error(ErrorKind::cancelled, "cancelled", "The request was cancelled before it began."));
}

bool PendingCall::give_up(bool begun, std::chrono::milliseconds after) {
    // Settled before the plugin hears of it: one that follows the request might answer at once, and
    // its half-done work would pass for an answer in time.
    if (answered_.exchange(true))
        return false;
    unwanted_.request_stop();
    done_(begun ? slow(method_, call_, after) : never_begun(method_, after));
    return true;
}

} // namespace barmkeep::host
