// A plugin seen from the host's side of the boundary: the daemon's and the fake host's alike.
#pragma once

#include "sdk/contract/event.hpp"
#include "sdk/method/call.hpp"
#include "sdk/method/clock.hpp"
#include "sdk/plugin/host.hpp"
#include "sdk/plugin/manifest.hpp"

#include <map>

namespace barmkeep::plugin {

/// Checks a plugin, holds the table of functions that it is given, carries calls and events to it,
/// and judges what comes back.  Runs everything on the thread that asks, and knows no files, queues
/// or time limits; those are the daemon's.
///
/// Thread safety: call and event may be called from any thread between start and stop; start and
/// stop from one thread at a time.
class Hosted {
public:
    /// What plugins are served with.  Both references outlive the Hosted.
    struct Services {
        const MethodTable& methods;
        const Clock& clock;
        /// Takes a line about or from this plugin; from any thread, and must not throw.
        std::function<void(LogLevel, std::string_view)> log;
    };

    /// Checks the descriptor and reads the manifest.  Throws Error(unavailable).
    Hosted(const barmkeep_plugin* plugin, Services services);
    /// REQUIRES: it is not started, or was stopped.
    ~Hosted() = default;
    Hosted(const Hosted&) = delete;
    Hosted& operator=(const Hosted&) = delete;

    [[nodiscard]] const Manifest& manifest() const noexcept { return manifest_; }
    [[nodiscard]] bool wants(std::string_view topic) const noexcept;

    /// Throws Error(params) for settings that do not fit the plugin's description of them, which do
    /// not reach it; the plugin's own Error; or Error(unavailable) where it gives none.
    void start(const json::object& settings);
    /// Stops it, if it was started.
    void stop() noexcept;

    /// Runs a method on this thread.  Params that do not fit the method's description are refused
    /// before the plugin sees them.  All that the plugin can do wrong (throw, answer invalid JSON,
    /// twice, or not at all) is an error in the outcome and a line in the log.
    [[nodiscard]] Outcome call(std::string_view method, const Call& call,
                               const json::object& params) noexcept;
    void event(const contract::Event& event) noexcept;
    /// Makes the sheet of an answer, on this thread; needs no start.  Nothing, and a line in the
    /// log, if the plugin makes none, or one that a sheet must not be (sdk/sheet/limits.hpp).
    [[nodiscard]] std::optional<json::value> sheet(std::string_view method,
                                                   const json::object& params,
                                                   const json::value& result) const noexcept;

private:
    struct OpenCall {
        Call call;
        std::optional<Outcome> outcome;
        bool answered_again = false;
    };

    /// The host's functions, as they reach us from the plugin.
    struct Table;

    [[nodiscard]] Outcome run(std::string_view method, const Call& call,
                              const json::object& params);
    [[nodiscard]] barmkeep_call_number open(const Call& call);
    [[nodiscard]] Outcome close(barmkeep_call_number number, std::string_view method, bool threw);
    [[nodiscard]] std::optional<Call> find(barmkeep_call_number number) const;

    void take_answer(barmkeep_call_number number, barmkeep_ending ending, std::string_view text);
    [[nodiscard]] Outcome nested(barmkeep_call_number within, std::string_view method,
                                 std::string_view params);
    [[nodiscard]] Call nested_call(barmkeep_call_number within, const json::value& params) const;

    const barmkeep_plugin* plugin_;
    Services services_;
    Manifest manifest_;
    barmkeep_host table_;
    void* state_ = nullptr;

    mutable std::mutex mutex_; ///< guards what follows
    barmkeep_call_number last_number_ = BARMKEEP_OWN_ACCORD;
    std::map<barmkeep_call_number, OpenCall> open_calls_;
};

} // namespace barmkeep::plugin
