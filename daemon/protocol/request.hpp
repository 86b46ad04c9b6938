// One JSON-RPC request and its reply, as values and as text.
#pragma once

#include "daemon/protocol/limits.hpp"
#include "sdk/method/call.hpp"

#include <optional>
#include <string>
#include <variant>

namespace barmkeep::protocol {

/// A well-formed request.
struct Request {
    std::optional<json::value> id; ///< absent: a notification, which is never answered
    std::string method;
    std::optional<json::value> params; ///< an array or an object
    json::value progress_token;        ///< the extra member `progress`: a string or a number
};

/// What is said instead of serving a malformed request.
struct Refusal {
    json::value id; ///< the request's own where it could be read, else null
    Error error;
};

/// Checks one element.  Members that JSON-RPC does not know, other than `progress`, are passed
/// over, so that later versions may add some.  A malformed object is answered even if it has no
/// id: nobody can know whether it was meant as a notification.
[[nodiscard]] std::variant<Request, Refusal> read_request(const json::value& element,
                                                          const Limits& limits);

/// The text under which an id is known while its request is in flight: 1 and "1" differ.
[[nodiscard]] std::string id_text(const json::value& id);

/// A reply in one line, without the line break.  This is the one place that turns an Error into an
/// error reply.  A result that is no JSON (NaN, infinity) is an internal error to the caller.
[[nodiscard]] std::string reply_text(const json::value& id, const Outcome& outcome);

/// The internal error of an outcome, if it is one or becomes one in reply_text().
[[nodiscard]] std::optional<Error> internal_fault(const Outcome& outcome);

/// A notification in one line, without the line break.
[[nodiscard]] std::string notification_text(std::string_view method, json::object params);

} // namespace barmkeep::protocol
