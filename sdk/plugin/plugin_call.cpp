#include "sdk/plugin/plugin_call.hpp"

namespace barmkeep::plugin {
namespace {

/// What distinguishes the nested request's key from the outer one's.
constexpr std::string_view inner_suffix = "/1";

} // namespace

bool PluginCall::cancelled() const noexcept {
    return host_->cancelled(host_, within_) != 0;
}

void PluginCall::throw_if_cancelled() const {
    if (cancelled())
        throw Error(ErrorKind::cancelled, "cancelled", "The request was cancelled.");
}

void PluginCall::progress(double done, double total, std::string_view message) const {
    host_->progress(host_, within_, done, total, message.data(), message.size());
}

void PluginCall::begin_writing() const {
    if (has_written_.exchange(true))
        throw Error(ErrorKind::internal, "wrote_twice",
                    "A plugin's method makes one write only, and this one began a second.",
                    "Put both in one ledger.batch.");
}

std::string PluginCall::inner_key() const {
    if (key_.size() + inner_suffix.size() > request_key_length_max)
        throw Error(ErrorKind::params, "too_long",
                    "The request key is too long for a plugin's method; it takes at most " +
                        std::to_string(request_key_length_max - inner_suffix.size()) +
                        " characters.",
                    "Use a shorter key.", "/" + std::string(request_key_field));
    return key_ + std::string(inner_suffix);
}

} // namespace barmkeep::plugin
