// The daemon as a plugin sees it: methods to call, a clock, a log.
#pragma once

#include "sdk/abi/barmkeep_plugin.h"
#include "sdk/method/about.hpp"
#include "sdk/method/time.hpp"

#include <string>
#include <string_view>

namespace barmkeep::plugin {

/// The values are those of the boundary.
enum class LogLevel {
    debug = BARMKEEP_LOG_DEBUG,
    info = BARMKEEP_LOG_INFO,
    warning = BARMKEEP_LOG_WARNING,
    error = BARMKEEP_LOG_ERROR
};

/// Calls methods of the core and of other plugins.  Thread safety: any thread.
///
/// The called method runs to its end before the function returns; what it answers as an error is
/// thrown as an Error.
class Requester {
public:
    Requester(const barmkeep_host& host, barmkeep_call_number within) noexcept
        : host_{&host}, within_{within} {}

    /// Calls a method by its tag, as in `call<contract::StockList>({.good = "DME"})`.  A writing
    /// method takes a request key; a plugin's own writing method uses PluginCall::once instead.
    /// Throws the method's Error, or Error(internal, "result_not_understood") when the other side
    /// is of another version.
    template <Method M>
    [[nodiscard]] typename M::Result call(const typename M::Params& params,
                                          std::string_view key = {}) const {
        json::object sent = to_json(params).as_object();
        if (!key.empty())
            sent[request_key_field] = json::value(key);
        return understood<typename M::Result>(M::about.name, call(M::about.name, sent));
    }

    /// The same with the name and the params as data.
    [[nodiscard]] json::value call(std::string_view method, const json::object& params) const;

protected:
    ~Requester() = default;

    /// Reads an answer, and does not blame the caller's params for one that cannot be read.
    template <class Result>
    [[nodiscard]] static Result understood(std::string_view method, const json::value& answer) {
        try {
            return decode<Result>(answer);
        } catch (const Error& error) {
            throw not_understood(method, error);
        }
    }

    const barmkeep_host* host_;
    barmkeep_call_number within_;

private:
    [[nodiscard]] static Error not_understood(std::string_view method, const Error& cause);
};

/// What a plugin does through it, it does of its own accord: the journal names the plugin alone.
/// Inside a method use the PluginCall instead, so that the person who asked is named too.
class Host final : public Requester {
public:
    explicit Host(const barmkeep_host& host) noexcept : Requester{host, BARMKEEP_OWN_ACCORD} {}

    /// The time, which a test or a demo may have set.
    [[nodiscard]] Instant now() const;
    /// One line for the daemon's log, under the plugin's name.
    void log(LogLevel level, std::string_view text) const;
};

} // namespace barmkeep::plugin
