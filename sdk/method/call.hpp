// One call of a method: who asks, how to answer, and the table of all methods that can be called.
//
// The three doors (a socket, a plugin, a test) all end in MethodTable::start; behind it a handler
// answers through its Done, at once or later, from any thread, exactly once.
#pragma once

#include "sdk/method/about.hpp"
#include "sdk/method/clock.hpp"

#include <functional>
#include <memory>
#include <mutex>
#include <shared_mutex>
#include <stop_token>
#include <variant>

namespace barmkeep {

/// Who asks.  The journal keeps `name`.
struct Caller {
    std::string name;             ///< "anna", "uid 1001", "canning for anna"
    Access access = Access::look; ///< what the caller may do
    std::string plugin;           ///< the plugin that calls, if one does; it owns its records
};

/// Throws Error(refused, "not_allowed") unless a caller has the right that a method needs; its name
/// stands at `pointer` of what was asked.
void require_access(const Caller& caller, Access needed, std::string_view method,
                    std::string_view pointer = {});

/// A line back to whoever asked, for progress and events; it may outlive the connection.
/// Thread safety: any thread.
class Listener {
public:
    virtual ~Listener() = default;
    /// Sends a notification; false if the other side is gone.
    virtual bool notify(std::string_view method, json::object params) = 0;
    /// Whether so little waits for the other side to read that more may be sent.
    [[nodiscard]] virtual bool has_room() const { return true; }
    /// Calls `go_on` once there is room: on the spot, or later on any thread, or never, if the
    /// other side goes before.  It must not block.
    virtual void when_room(std::function<void()> go_on) { go_on(); }
    /// Says why, and ends the connection.
    virtual void close(const Error& reason) { (void)reason; }
};

/// The circumstances of a call.
struct Call {
    Caller caller;
    std::string key;                    ///< request key; empty if none was given
    std::string digest;                 ///< of the outermost request that carried the key
    std::stop_token cancelled;          ///< asked by long work, now and then
    std::shared_ptr<Listener> listener; ///< null where nothing can be sent
    json::value progress_token;         ///< null if the caller wants no progress
    int depth = 0;                      ///< plugins passed through so far
    /// When it arrived: the last byte of its line, by the clock of the house; what it records is
    /// recorded at this instant, however long it waits.  Calls made on its behalf have the same.
    /// The epoch where nobody has said: then MethodTable::start reads the clock.
    Instant arrived{};
};
inline constexpr int call_depth_max = 16;

/// Digest of a request, the same for the same method and params in whatever order of members.
[[nodiscard]] std::string request_digest(std::string_view method, const json::value& params);

/// A result, or the error that stands in its place.
using Outcome = std::variant<json::value, Error>;
using Done = std::function<void(Outcome)>;
/// REQUIRES: calls its Done exactly once.  Must not throw: an error is an outcome.
using Start = std::function<void(Call call, json::object params, Done done)>;

/// Makes the sheet that a person reads of an answer (sdk/sheet), as JSON, from the params as they
/// were named and the result: pure, on any thread, and without rights of its own.
/// REQUIRES: calls its Done exactly once.  Must not throw: an error is an outcome.
using MakeSheet = std::function<void(const Call& call, const json::object& params,
                                     const json::value& result, const Done& done)>;

/// Sends a step of a long work's progress to the caller, if it was asked for.
void send_progress(const Call& call, double done, double total, std::string_view message);

/// All methods, by name.  Thread safety: any thread.
class MethodTable {
public:
    struct Row {
        Description description;
        std::string provider; ///< "core", or the plugin's name
        Start start;
        MakeSheet sheet; ///< empty: nobody made one, and the general form is shown
    };

    /// Calls that come without an arrival are given it from this clock, which outlives the table.
    explicit MethodTable(const Clock& clock = system_clock()) : clock_{clock} {}

    [[nodiscard]] Instant now() const { return clock_.now(); }
    /// Another number after each change of the methods, for what is made from all of them.
    [[nodiscard]] std::uint64_t generation() const noexcept { return generation_.load(); }

    /// Throws Error(conflict) if the name is taken or malformed (noun.verb in lower case).
    void add(Description description, std::string provider, Start start, MakeSheet sheet = {});
    /// Takes out all methods of a provider; calls under way go on.
    void remove_provider(std::string_view provider);

    [[nodiscard]] std::shared_ptr<const Row> find(std::string_view name) const;
    /// The same, or Error(method_unknown) with the nearest name as a hint.
    [[nodiscard]] std::shared_ptr<const Row> require(std::string_view name) const;
    /// In order of name.
    [[nodiscard]] std::vector<std::shared_ptr<const Row>> rows() const;

    /// Checks the name and the caller's rights, names positional params, takes the request key
    /// out, and starts the handler.  Every failure arrives as an outcome.
    void start(std::string_view name, Call call, const json::value* params, const Done& done) const;
    /// The same, and waits for the outcome.  Not for a thread that the handler needs.
    [[nodiscard]] Outcome call(std::string_view name, Call call, const json::value* params) const;

private:
    const Clock& clock_;
    std::atomic<std::uint64_t> generation_ = 0; ///< changed within the lock
    mutable std::shared_mutex mutex_;
    std::map<std::string, std::shared_ptr<const Row>, std::less<>> rows_;
};

/// Typed call through a table; throws the Error that it answers.
template <Method M>
typename M::Result call(const MethodTable& table, const Call& circumstances,
                        const typename M::Params& params) {
    const json::value sent = to_json(params);
    Outcome outcome = table.call(M::about.name, circumstances, &sent);
    if (auto* error = std::get_if<Error>(&outcome))
        throw *error;
    return read_as<typename M::Result>(std::get<json::value>(outcome));
}

/// Adds a method whose handler answers on the spot, on the caller's thread.
template <Method M, class Handler>
void add_direct(MethodTable& table, std::string provider, Handler handler, MakeSheet sheet = {});

/// Runs `work`, which returns a json::value, and hands its outcome to `done`; any exception
/// becomes an Error, one that is no Error of ours an internal one.
void answer(const Done& done, const std::function<json::value()>& work) noexcept;

/// Runs `work`, which calls `done` itself, perhaps later; only what it throws is handed to `done`,
/// as answer() does.  REQUIRES: `work` throws only if it has not called `done` and never will.
void answer_or_fail(const Done& done, const std::function<void()>& work) noexcept;

template <Method M, class Handler>
void add_direct(MethodTable& table, std::string provider, Handler handler, MakeSheet sheet) {
    table.add(
        describe<M>(), std::move(provider),
        [handler](const Call& call, const json::object& params, const Done& done) {
            answer(done, [&] {
                return to_json<typename M::Result>(
                    handler(call, read_as<typename M::Params>(params)));
            });
        },
        std::move(sheet));
}

} // namespace barmkeep
