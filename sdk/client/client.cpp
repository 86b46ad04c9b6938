#include "sdk/client/client.hpp"

#include "sdk/client/request_key.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::client {

/// What one try of a call needs to know.
struct Client::Attempt {
    std::string_view sent_method; ///< the method itself, or the one that shows its sheet
    std::string_view method;
    const json::object& params;
    Repeat repeat;
    const std::string& key;
    const CallOptions& options;
    Deadline deadline;
};

/// What went wrong so far with a call.
struct Client::Failure {
    bool was_sent = false; ///< some try got as far as sending
    bool is_final = false; ///< another try would be wrong, or would end the same way
    std::string why;
};

namespace {

/// The call broke off and nobody knows how far the daemon came with it.
Error open_outcome(std::string_view method, Repeat repeat, const std::string& key,
                   std::string_view why) {
    if (repeat == Repeat::freely)
        return {ErrorKind::unavailable, "no_answer", fmt::format("{}: {}.", method, why),
                "Try again; `barm service status` shows whether the daemon answers."};
    const std::string message =
        fmt::format("{}: {}; it may or may not have been done.", method, why);
    if (repeat == Repeat::by_key)
        return {
            ErrorKind::unknown_outcome, "no_answer", message,
            fmt::format("Repeat it with the key {}: with the same key it is done only once.", key)};
    return {ErrorKind::unknown_outcome, "no_answer", message,
            "Check whether it was done before you repeat it."};
}

Error interrupted(std::string_view method, Repeat repeat, const std::string& key) {
    if (repeat == Repeat::freely)
        return {ErrorKind::cancelled, "interrupted", fmt::format("{}: interrupted.", method)};
    const std::string message =
        fmt::format("{}: interrupted; it may or may not have been done.", method);
    return {
        ErrorKind::cancelled, "interrupted", message,
        repeat == Repeat::by_key
            ? fmt::format("Repeat it with the key {}: with the same key it is done only once.", key)
            : "Check whether it was done before you repeat it."};
}

void report(const Notification& notice, std::int64_t id, const CallOptions& options) {
    const auto* token = notice.params.if_contains("token");
    if (notice.method != "call.progress" || !options.progress || token == nullptr || *token != id)
        return;
    const auto number = [&](std::string_view name) {
        const auto* value = notice.params.if_contains(name);
        return value != nullptr && value->is_number() ? value->to_number<double>() : 0.0;
    };
    const auto* message = notice.params.if_contains("message");
    options.progress({number("progress"), number("total"),
                      message != nullptr && message->is_string()
                          ? std::string(message->get_string())
                          : std::string{}});
}

/// The answer, if the message is the reply to `id`.  Throws the error that it is instead.
std::optional<Answer> answer_to(std::int64_t id, Message& message) {
    auto* reply = std::get_if<Reply>(&message);
    // An error without a number is about a request that the daemon could not read: ours.
    if (reply == nullptr || (reply->id != id && !reply->id.is_null()))
        return std::nullopt;
    if (const auto* error = std::get_if<Error>(&reply->outcome))
        throw *error;
    return std::move(std::get<Answer>(reply->outcome));
}

} // namespace

Repeat repeat_of(Access access, Effect effect) noexcept {
    if (effect == Effect::writes)
        return Repeat::by_key;
    return access == Access::look ? Repeat::freely : Repeat::never;
}

Answer Client::await(Channel& channel, std::int64_t id, const Attempt& attempt) {
    bool asked_to_stop = false;
    for (;;) {
        auto received = channel.receive(attempt.deadline, attempt.options.interruption);
        if (received.waited == Waited::timed_out) {
            channel_.reset(); // its reply, when it comes, is nobody's any more
            throw open_outcome(attempt.method, attempt.repeat, attempt.key,
                               "no answer came in time");
        }
        if (received.waited == Waited::interrupted) {
            if (!attempt.options.interruption->take())
                continue;
            if (std::exchange(asked_to_stop, true)) {
                channel_.reset();
                throw interrupted(attempt.method, attempt.repeat, attempt.key);
            }
            channel.cancel(id, attempt.deadline);
            if (attempt.options.cancelling)
                attempt.options.cancelling();
            continue;
        }
        if (const auto* notice = std::get_if<Notification>(&*received.message))
            report(*notice, id, attempt.options);
        else if (auto answer = answer_to(id, *received.message))
            return std::move(*answer);
    }
}

void Client::pause(const Attempt& attempt, int tries) {
    const auto doubled = options_.pause_first * (1 << std::min(tries - 1, 10));
    const Deadline end = std::min(attempt.deadline, after(std::min(doubled, options_.pause_max)));
    if (wait_for(-1, 0, end, attempt.options.interruption) == Waited::interrupted &&
        attempt.options.interruption->take())
        throw interrupted(attempt.method, attempt.repeat, attempt.key);
}

std::optional<Answer> Client::try_once(const Attempt& attempt, Failure& failure) {
    try {
        if (!channel_)
            channel_.emplace(options_.socket,
                             std::min(attempt.deadline, after(options_.connect_time_out)));
    } catch (const Error& error) {
        if (!failure.was_sent)
            throw;
        failure.why = error.what(); // the daemon is being restarted: it may be back soon
        return std::nullopt;
    }
    failure.was_sent = true;
    try {
        const std::int64_t id = channel_->ask(attempt.sent_method, attempt.params, attempt.deadline,
                                              static_cast<bool>(attempt.options.progress));
        return await(*channel_, id, attempt);
    } catch (const ConnectionLost& lost) {
        // A daemon that stops will be back; any other reason, given twice, will stay.
        const std::string& reason = channel_->closing_reason();
        const bool will_stay =
            !reason.empty() && reason != "stopping" && failure.why == lost.what();
        failure.is_final = attempt.repeat == Repeat::never || will_stay;
        failure.why = lost.what();
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::unknown_outcome || attempt.repeat != Repeat::by_key ||
            !channel_)
            throw;
        failure.why = error.what(); // asked again by key, the daemon knows
    }
    channel_.reset();
    return std::nullopt;
}

Answer Client::call(std::string_view method, json::object params, Repeat repeat,
                    const CallOptions& options) {
    return call_as(method, method, std::move(params), repeat, options);
}

sheet::SheetShow::Result Client::show(std::string_view method, json::object params, Repeat repeat,
                                      const CallOptions& options) {
    const Answer answer =
        call_as(sheet::SheetShow::about.name, method, std::move(params), repeat, options);
    return understood<sheet::SheetShow::Result>(answer.result);
}

Answer Client::call_as(std::string_view sent_method, std::string_view method, json::object params,
                       Repeat repeat, const CallOptions& options) {
    std::string key;
    if (repeat == Repeat::by_key) {
        key = options.key.empty() ? new_request_key() : options.key;
        params[request_key_field] = key;
    }
    if (sent_method != method) // the key is the method's own, so it goes with its params
        params = {{"method", method}, {"params", json::object(params)}};
    const auto time_out = options.time_out.count() > 0 ? options.time_out : options_.time_out;
    const Attempt attempt{sent_method, method, params, repeat, key, options, after(time_out)};
    Failure failure;
    for (int tries = 1;; ++tries) {
        if (auto answer = try_once(attempt, failure))
            return std::move(*answer);
        if (failure.is_final || tries >= options_.attempts_max ||
            std::chrono::steady_clock::now() >= attempt.deadline)
            throw open_outcome(method, repeat, key, failure.why);
        pause(attempt, tries);
    }
}

Error Client::misfit(const Error& error) {
    const FieldError& first = error.faults().front();
    return {ErrorKind::text, "misfit",
            fmt::format("The answer does not fit its description, at '{}': {}", first.pointer,
                        first.message),
            "The daemon and this program are of different versions. Update the older one."};
}

json::object Client::discover(const CallOptions& options) {
    const Answer answer = call("rpc.discover", {}, Repeat::freely, options);
    if (const auto* document = answer.result.if_object())
        return *document;
    throw Error(ErrorKind::text, "misfit", "rpc.discover answered no document.");
}

} // namespace barmkeep::client
