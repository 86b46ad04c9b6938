#include "sdk/client/events.hpp"

#include <fmt/format.h>

namespace barmkeep::client {
namespace {

/// As good as for ever; a deadline has to be some point in time.
constexpr std::chrono::hours for_ever{24 * 365};

} // namespace

EventStream::EventStream(ClientOptions options, std::optional<std::int64_t> after,
                         Interruption* interruption)
    : options_{std::move(options)}, interruption_{interruption} {
    try {
        watch(after);
    } catch (const ConnectionLost& lost) {
        throw Error(ErrorKind::unavailable, "no_answer",
                    fmt::format("event.watch: {}.", lost.what()), "Try again.");
    }
}

void EventStream::watch(std::optional<std::int64_t> after_number) {
    channel_.emplace(options_.socket, after(options_.connect_time_out));
    early_.clear();
    const Deadline deadline = after(options_.time_out);
    const contract::EventWatch::Params params{.after = after_number};
    const std::int64_t id = channel_->ask(contract::EventWatch::about.name,
                                          barmkeep::to_json(params).as_object(), deadline);
    for (;;) {
        auto received = channel_->receive(deadline, nullptr);
        if (received.waited != Waited::ready)
            throw ConnectionLost("no answer came in time");
        auto* reply = std::get_if<Reply>(&*received.message);
        if (reply == nullptr) {
            early_.push_back(std::move(*received.message));
            continue;
        }
        if (const auto* error = std::get_if<Error>(&reply->outcome))
            throw *error;
        if (reply->id != id)
            continue;
        auto begun = Client::understood<contract::EventWatch::Result>(
            std::get<Answer>(reply->outcome).result);
        last_ = after_number.value_or(begun.sequence);
        if (!after_number)
            state_ = std::move(begun.state);
        return;
    }
}

bool EventStream::watch_again() {
    auto pause = options_.pause_first;
    for (int tries = 1;; ++tries) {
        if (wait_for(-1, 0, after(pause), interruption_) == Waited::interrupted &&
            interruption_->take())
            return false;
        pause = std::min(pause * 2, options_.pause_max);
        try {
            watch(last_);
            return true;
        } catch (const ConnectionLost& lost) {
            if (tries >= options_.attempts_max)
                throw Error(ErrorKind::unavailable, "no_answer",
                            fmt::format("event.watch: {}.", lost.what()),
                            fmt::format("Go on with --after {}.", last_));
        } catch (const Error& error) {
            if (error.kind() != ErrorKind::unavailable || tries >= options_.attempts_max)
                throw;
        }
    }
}

std::optional<contract::Event> EventStream::take(Message& message) {
    const auto* notice = std::get_if<Notification>(&message);
    if (notice == nullptr || notice->method != contract::event_notification)
        return std::nullopt;
    auto event = Client::understood<contract::Event>(notice->params);
    if (event.sequence <= last_)
        return std::nullopt; // seen before the connection was lost
    if (event.sequence != last_ + 1)
        throw Error(
            ErrorKind::text, "event_gap",
            fmt::format("Event {} came where {} was due.", event.sequence, last_ + 1),
            fmt::format("Watch again with --after {}; if it persists, report a fault.", last_));
    last_ = event.sequence;
    return event;
}

std::optional<contract::Event> EventStream::next() {
    for (;;) {
        Message message;
        if (!early_.empty()) {
            message = std::move(early_.front());
            early_.pop_front();
        } else {
            try {
                auto received = channel_->receive(after(for_ever), interruption_);
                if (received.waited == Waited::interrupted && interruption_->take())
                    return std::nullopt;
                if (received.waited != Waited::ready)
                    continue;
                message = std::move(*received.message);
            } catch (const ConnectionLost&) {
                if (!watch_again())
                    return std::nullopt;
                continue;
            }
        }
        if (auto event = take(message))
            return event;
    }
}

} // namespace barmkeep::client
