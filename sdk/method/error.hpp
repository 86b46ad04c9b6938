// What went wrong, in a form that serves a program and a person alike.
#pragma once

#include "sdk/brewing/errors.hpp"
#include "sdk/method/json.hpp"

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace barmkeep {

/// What a caller can do about an error.  Each has one code on the wire (see `code_of`).
enum class ErrorKind {
    params,          ///< the request's fields are wrong: correct them
    not_found,       ///< what the request names does not exist
    not_enough,      ///< less in stock than asked for
    conflict,        ///< the state forbids it: already corrected, key used before, on hold
    refused,         ///< this caller may not do it
    busy,            ///< a limit was reached: try again later
    cancelled,       ///< the caller cancelled it
    unknown_outcome, ///< a commit failed in a way that leaves its outcome open: ask again by key
    unavailable,     ///< a plugin or the disk does not answer
    method_unknown,  ///< no such method
    request,         ///< the request itself is malformed
    text,            ///< the line is not JSON
    internal,        ///< our bug
};

/// The JSON-RPC error code of a kind: the standard's own below -32000, ours above zero.
[[nodiscard]] int code_of(ErrorKind kind) noexcept;
/// The kind of a code that came over the wire; `internal` for one we do not know.
[[nodiscard]] ErrorKind kind_of(int code) noexcept;

/// One fault of a request and where it is.
struct FieldError {
    std::string pointer; ///< JSON Pointer (RFC 6901) into the params; empty for the whole
    std::string reason;  ///< stable word, e.g. "out_of_range"
    std::string message; ///< one sentence for a person
    std::string hint;    ///< what to do about it
};

/// The one exception that crosses rooms.  It becomes an error object, and that becomes it again, at
/// two borders only: the socket (protocol and the clients) and the plugins (their C++ edge and
/// Hosted).
class Error : public std::runtime_error {
public:
    Error(ErrorKind kind, std::string_view reason, std::string_view message,
          std::string_view hint = {}, std::string_view pointer = {});
    /// Several faults at once.  REQUIRES: at least one.
    Error(ErrorKind kind, std::vector<FieldError> faults);

    [[nodiscard]] ErrorKind kind() const noexcept { return kind_; }
    [[nodiscard]] const std::vector<FieldError>& faults() const noexcept { return faults_; }
    /// The first fault's reason word.
    [[nodiscard]] const std::string& reason() const noexcept { return faults_.front().reason; }
    [[nodiscard]] const std::string& hint() const noexcept { return faults_.front().hint; }

    /// The `error` member of a JSON-RPC reply: code, message, and data with every fault.
    [[nodiscard]] json::object to_json() const;
    /// The reverse, for clients and plugins.  Takes what any JSON-RPC server may send.
    [[nodiscard]] static Error from_json(const json::value& error);

private:
    ErrorKind kind_;
    std::vector<FieldError> faults_;
};

/// The Error(params, "out_of_range") of a request whose value, at `pointer`, the science refused.
[[nodiscard]] Error error_of(const brewing::OutOfRange& fault, std::string_view pointer = {});

} // namespace barmkeep
