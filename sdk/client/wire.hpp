// The text of JSON-RPC as a client writes and reads it.  Pure: bytes in, messages out.
#pragma once

#include "sdk/method/error.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace barmkeep::client {

/// What a method answered, read and as it was written.
struct Answer {
    json::value result;
    std::string text; ///< the very bytes of the result, for a reader that wants it unchanged
};

struct Reply {
    json::value id;
    std::variant<Answer, Error> outcome;
};

/// A message that nobody has to answer: progress, an event, the reason of a closing.
struct Notification {
    std::string method;
    json::object params;
};

using Message = std::variant<Reply, Notification>;

/// One request in one line, with its line break.  `progress` is the token to ask progress with;
/// null for none.
[[nodiscard]] std::string request_line(std::int64_t id, std::string_view method,
                                       const json::object& params,
                                       const json::value& progress = nullptr);

/// Reads one line of the daemon's.  Throws Error(text, "bad_reply") for anything that is no
/// JSON-RPC 2.0 reply or notification: the other side is no daemon of ours.
[[nodiscard]] Message read_message(std::string_view line);

/// The bytes of a member's value in the text of a JSON object, without reading the numbers in it.
/// REQUIRES: `object` is the text of a valid JSON object that has this member.
[[nodiscard]] std::string_view member_text(std::string_view object, std::string_view name);

/// Cuts what arrives into lines.
class LineBuffer {
public:
    /// A line longer than this is refused, so that a broken peer cannot take all memory.
    static constexpr std::size_t line_length_max = 256U << 20;

    /// Throws Error(text, "line_too_long").
    void append(std::string_view bytes);
    /// The next whole line, without its break; nothing if there is none yet.
    [[nodiscard]] std::optional<std::string> next();

private:
    std::string bytes_;
    std::size_t searched_ = 0; ///< so far there is no line break
};

} // namespace barmkeep::client
