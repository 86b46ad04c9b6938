// The conversation over one connection: requests with numbers, replies, what else arrives.
#pragma once

#include "sdk/client/connection.hpp"

namespace barmkeep::client {

/// Thread safety: one thread at a time.
class Channel {
public:
    Channel(const std::string& path, Deadline deadline) : connection_{path, deadline} {}

    /// Sends a request and returns its number.  Throws ConnectionLost.
    std::int64_t ask(std::string_view method, const json::object& params, Deadline deadline,
                     bool with_progress = false);
    /// Asks the daemon to stop a request; its reply still comes.
    void cancel(std::int64_t id, Deadline deadline);

    struct Received {
        Waited waited = Waited::ready;
        std::optional<Message> message; ///< when `waited` is ready
    };
    /// The next message.  The daemon's reason for closing is kept and thrown with ConnectionLost.
    [[nodiscard]] Received receive(Deadline deadline, const Interruption* interruption);

    /// The word the daemon gave for closing this connection ("stopping", "line_too_long"); empty
    /// if it gave none.
    [[nodiscard]] const std::string& closing_reason() const noexcept { return closing_reason_; }

private:
    Connection connection_;
    std::int64_t last_id_ = 0;
    std::string closing_reason_;
    std::string closing_message_;
};

} // namespace barmkeep::client
