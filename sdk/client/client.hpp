// Calls of the daemon's methods that survive its restarts.
//
//     Client client{{.socket = path}};
//     auto shelf = client.call<contract::StockList>({.good = "light dry extract"});
//
// Every writing call carries a request key.  If the connection is lost, the call is made again on
// a new one with the same key, and the daemon does it once.  A reading call is simply made again.
// A managing call without a key (a backup, a plugin added) is never repeated: its caller gets
// the error that the outcome is open.
#pragma once

#include "sdk/client/channel.hpp"
#include "sdk/contract/service.hpp"
#include "sdk/method/about.hpp"
#include "sdk/sheet/messages.hpp"

#include <functional>

namespace barmkeep::client {

/// What may be done about a call whose connection was lost.
enum class Repeat {
    freely, ///< it only reads
    by_key, ///< it writes, with a request key
    never,
};
/// How a method with this description may be repeated.
[[nodiscard]] Repeat repeat_of(Access access, Effect effect) noexcept;

struct Progress {
    double done = 0;
    double total = 0; ///< 0 if it is not known
    std::string message;
};

struct CallOptions {
    std::string key;                               ///< request key; one is made where it is empty
    std::chrono::milliseconds time_out{0};         ///< for the whole call; 0: the client's own
    std::function<void(const Progress&)> progress; ///< asked for if set
    Interruption* interruption = nullptr;
    std::function<void()> cancelling; ///< called when an interruption made it ask for a stop
};

struct ClientOptions {
    std::string socket; ///< path
    std::chrono::milliseconds connect_time_out{5000};
    std::chrono::milliseconds time_out{30000};
    int attempts_max = 12;                     ///< connections tried for one call
    std::chrono::milliseconds pause_first{50}; ///< before the second; doubled for each further
    std::chrono::milliseconds pause_max{1000};
};

/// Thread safety: one thread at a time.
class Client {
public:
    explicit Client(ClientOptions options) : options_{std::move(options)} {}

    /// Calls a method and waits.  Throws the Error that the daemon answered, or one of its own:
    /// unavailable (no connection, time-out of a reading call), unknown_outcome (the connection
    /// or the time was lost and the call may have been done; its hint names the key), cancelled
    /// (interrupted), text (what came back is no reply).
    Answer call(std::string_view method, json::object params, Repeat repeat,
                const CallOptions& options = {});

    /// The same with types.  Members of the answer that are unknown here are passed over.
    template <Method M>
    typename M::Result call(const typename M::Params& params = {},
                            const CallOptions& options = {}) {
        const Answer answer = call(M::about.name, barmkeep::to_json(params).as_object(),
                                   repeat_of(M::about.access, M::about.effect), options);
        return understood<typename M::Result>(answer.result);
    }

    /// The answer of a method with its sheet, by way of sheet.show; the rest is as in `call`.
    sheet::SheetShow::Result show(std::string_view method, json::object params, Repeat repeat,
                                  const CallOptions& options = {});

    /// The daemon's description of all its methods, an OpenRPC document.
    [[nodiscard]] json::object discover(const CallOptions& options = {});

    /// Turns an answer into its struct, and a misfit into Error(text): the two sides are of
    /// different make.
    template <class T>
    static T understood(const json::value& answer) {
        try {
            return decode<T>(answer);
        } catch (const Error& error) {
            throw misfit(error);
        }
    }

private:
    struct Attempt;
    struct Failure;
    Answer call_as(std::string_view sent_method, std::string_view method, json::object params,
                   Repeat repeat, const CallOptions& options);
    /// One try; nothing if it broke off, and `failure` then says whether to make another.
    std::optional<Answer> try_once(const Attempt& attempt, Failure& failure);
    void pause(const Attempt& attempt, int tries);
    Answer await(Channel& channel, std::int64_t id, const Attempt& attempt);
    [[nodiscard]] static Error misfit(const Error& error);

    ClientOptions options_;
    std::optional<Channel> channel_;
};

} // namespace barmkeep::client
