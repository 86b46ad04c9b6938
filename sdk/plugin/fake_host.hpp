// A host without a daemon, for testing plugins.
//
//     FakeHost host;
//     host.stand_in<contract::StockList>([](const Call&, const contract::StockList::Params&) {
//         return contract::StockList::Result{...};
//     });
//     host.start<Canning>({{"altitude_m", 1200}});
//     const auto plan = host.call<CanningPlan>({.jars = 12});
//
// The plugin is on the far side of the same boundary as in the daemon: JSON text, the same checks,
// the same limits.  What is not there is the ledger; its methods are stand-ins of the test's own.
#pragma once

#include "sdk/contract/ledger.hpp"
#include "sdk/plugin/hosted.hpp"
#include "sdk/plugin/plugin.hpp"

#include <memory>
#include <mutex>
#include <vector>

namespace barmkeep::plugin {

/// Everything runs on the test's own thread.  Thread safety: call and log_lines from any thread;
/// the rest from one.
class FakeHost {
public:
    struct LogLine {
        LogLevel level;
        std::string text;
    };

    /// The clock stands at `start` until it is set.  `ledger.recall` is there from the beginning
    /// and knows what the writing stand-ins answered.
    explicit FakeHost(Instant start = parse_instant("2026-03-14T08:00:00Z"));
    ~FakeHost();

    [[nodiscard]] ManualClock& clock() noexcept { return clock_; }
    [[nodiscard]] MethodTable& methods() noexcept { return methods_; }

    /// Puts a handler in the place of a method of the core:
    ///     M::Result handler(const Call&, const M::Params&)
    /// A writing one keeps to its request keys as the ledger does: the same key and request is
    /// answered from memory without running the handler, another request with that key is refused.
    template <Method M, class Handler>
    void stand_in(Handler handler);

    /// Starts a plugin with settings, as the daemon would, and puts its methods into the table.
    /// Throws Error when it does not start.  One plugin a fake host; REQUIRES: none is started.
    template <class P>
    void start(const json::object& settings = {}) {
        start(&descriptor<P>(), settings);
    }
    void start(const barmkeep_plugin* plugin, const json::object& settings = {});
    /// Stops the plugin and takes its methods out; the destructor does so too.
    void stop() noexcept;
    [[nodiscard]] const Manifest& manifest() const { return hosted_->manifest(); }

    /// Who calls, for the calls below: "anna", who may do anything.
    [[nodiscard]] static Call circumstances();

    /// Calls a method; throws the Error that it answers.  `key` is the request key.
    template <Method M>
    [[nodiscard]] typename M::Result call(const typename M::Params& params,
                                          std::string_view key = {});
    /// The same with the name and the params as data; an error is an outcome.
    [[nodiscard]] Outcome call(std::string_view method, const json::object& params,
                               const Call& call = circumstances());

    /// The sheet that the plugin makes of an answer; throws Error(unavailable, "no_sheet") for
    /// none, and for one that the daemon would refuse.
    template <Method M>
    [[nodiscard]] sheet::Sheet sheet(const typename M::Params& params,
                                     const typename M::Result& result) const {
        return sheet(M::about.name, to_json(params).as_object(), to_json(result));
    }
    [[nodiscard]] sheet::Sheet sheet(std::string_view method, const json::object& params,
                                     const json::value& result) const;

    /// Delivers an event at the clock's time with the next number, if the plugin wants it.
    void deliver(std::string topic, json::object about = {});

    [[nodiscard]] std::vector<LogLine> log_lines() const;

private:
    /// What a writing stand-in answered under a request key.
    struct Kept {
        std::string digest;
        json::value answer;
    };

    void add_recall();
    /// The answer kept under the call's key; throws Error(conflict) if it is another request's.
    [[nodiscard]] std::optional<json::value> kept(const Call& call) const;
    void keep(const Call& call, const json::value& answer);

    ManualClock clock_;
    MethodTable methods_{clock_};
    std::unique_ptr<Hosted> hosted_;
    std::int64_t sequence_ = 0;

    mutable std::mutex mutex_; ///< guards what follows
    std::map<std::string, Kept> kept_;
    std::vector<LogLine> log_lines_;
};

template <Method M, class Handler>
void FakeHost::stand_in(Handler handler) {
    add_direct<M>(methods_, "core",
                  [this, handler](const Call& asked, const typename M::Params& params) {
                      Call call = asked;
                      if (!call.key.empty() && call.digest.empty())
                          call.digest = request_digest(M::about.name, to_json(params));
                      if (const auto before = kept(call))
                          return read_as<typename M::Result>(*before);
                      const typename M::Result result = handler(call, params);
                      keep(call, to_json(result));
                      return result;
                  });
}

template <Method M>
typename M::Result FakeHost::call(const typename M::Params& params, std::string_view key) {
    json::object sent = to_json(params).as_object();
    if (!key.empty())
        sent[request_key_field] = json::value(key);
    Outcome outcome = call(M::about.name, sent);
    if (const auto* error = std::get_if<Error>(&outcome))
        throw *error;
    return read_as<typename M::Result>(std::get<json::value>(outcome));
}

} // namespace barmkeep::plugin
