#include "sdk/client/channel.hpp"

#include "sdk/method/schema_words.hpp"

namespace barmkeep::client {
std::int64_t Channel::ask(std::string_view method, const json::object& params, Deadline deadline,
                          bool with_progress) {
    const std::int64_t id = ++last_id_;
    const json::value token = with_progress ? json::value(id) : json::value(nullptr);
    connection_.send(request_line(id, method, params, token), deadline);
    return id;
}

void Channel::cancel(std::int64_t id, Deadline deadline) {
    ask("call.cancel", {{"id", id}}, deadline);
}

Channel::Received Channel::receive(Deadline deadline, const Interruption* interruption) {
    try {
        for (;;) {
            auto line = connection_.read_line(deadline, interruption);
            if (line.waited != Waited::ready)
                return {line.waited, std::nullopt};
            Message message = read_message(line.text);
            const auto* notice = std::get_if<Notification>(&message);
            if (notice == nullptr || notice->method != "connection.closing")
                return {Waited::ready, std::move(message)};
            closing_reason_ = text_of(notice->params, "reason");
            closing_message_ = text_of(notice->params, "message");
        }
    } catch (const ConnectionLost& lost) {
        if (closing_reason_.empty())
            throw;
        throw ConnectionLost("the daemon closed the connection: " +
                             (closing_message_.empty() ? closing_reason_ : closing_message_));
    }
}

} // namespace barmkeep::client
