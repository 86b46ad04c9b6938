#include "sdk/plugin/host.hpp"

#include "sdk/plugin/text.hpp"

namespace barmkeep::plugin {

json::value Requester::call(std::string_view method, const json::object& params) const {
    const std::string sent = text_of(params);
    std::string answer;
    const auto ending = host_->call(host_, within_, method.data(), method.size(), sent.data(),
                                    sent.size(), keep_text, &answer);
    json::value value = value_of(answer);
    if (ending != BARMKEEP_RESULT)
        throw Error::from_json(value);
    return value;
}

Error Requester::not_understood(std::string_view method, const Error& cause) {
    return {ErrorKind::internal, "result_not_understood",
            "The answer of " + std::string(method) + " is not as described: " + cause.what(),
            "The plugin and Barmkeep are of different versions. Update both."};
}

Instant Host::now() const {
    return Instant{std::chrono::milliseconds{host_->now(host_)}};
}

void Host::log(LogLevel level, std::string_view text) const {
    host_->log(host_, static_cast<barmkeep_log_level>(level), text.data(), text.size());
}

} // namespace barmkeep::plugin
