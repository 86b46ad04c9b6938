#include "daemon/protocol/request.hpp"

#include <cmath>
#include <fmt/format.h>

namespace barmkeep::protocol {
namespace {

constexpr double exact_max = 9007199254740992.0; // 2^53

Error malformed(std::string_view reason, std::string_view message, std::string_view hint = {},
                std::string_view pointer = {}) {
    return {ErrorKind::request, reason, message, hint, pointer};
}

bool is_simple(const json::value& value) {
    return value.is_string() || value.is_number();
}

/// Nothing if the id can be used and sent back as it came.
std::optional<Error> fault_of_id(const json::value& id, const Limits& limits) {
    if (!is_simple(id) && !id.is_null())
        return malformed("bad_id", "An id is a string, a number or null.", {}, "/id");
    if (const auto* text = id.if_string(); text != nullptr && text->size() > limits.id_bytes_max)
        return malformed("id_too_long",
                         fmt::format("An id has at most {} bytes.", limits.id_bytes_max),
                         "Use a counter.", "/id");
    if (const auto* number = id.if_double(); number != nullptr && std::abs(*number) > exact_max)
        return malformed("id_too_large", "This id is too large to be sent back exactly.",
                         "Use an integer of at most 64 bits, or a string.", "/id");
    return std::nullopt;
}

std::optional<Error> fault_of_request(const json::object& request) {
    const auto* version = request.if_contains("jsonrpc");
    if (version == nullptr || !version->is_string() || version->get_string() != "2.0")
        return malformed("bad_version", "The member jsonrpc must be the string \"2.0\".",
                         "This is JSON-RPC 2.0, one request a line.", "/jsonrpc");
    const auto* method = request.if_contains("method");
    if (method == nullptr || !method->is_string())
        return malformed("bad_method", "The member method must be a string.",
                         "rpc.discover lists all methods.", "/method");
    const auto* params = request.if_contains("params");
    if (params != nullptr && !params->is_structured())
        return malformed("bad_params", "params is an object or an array, or left out.", {},
                         "/params");
    const auto* token = request.if_contains("progress");
    if (token != nullptr && !is_simple(*token) && !token->is_null())
        return malformed("bad_progress", "A progress token is a string or a number.", {},
                         "/progress");
    return std::nullopt;
}

template <class Member>
std::optional<json::value> copy_of(const json::object& object, Member name) {
    const auto* value = object.if_contains(name);
    return value != nullptr ? std::optional<json::value>{*value} : std::nullopt;
}

Error not_finite() {
    return {ErrorKind::internal, "not_finite", "The result holds a number that JSON cannot carry.",
            "This is a fault of the method; report it to its author."};
}

} // namespace

std::variant<Request, Refusal> read_request(const json::value& element, const Limits& limits) {
    const auto* object = element.if_object();
    if (object == nullptr)
        return Refusal{nullptr, malformed("not_an_object", "A request is an object.")};
    auto id = copy_of(*object, "id");
    if (id)
        if (const auto fault = fault_of_id(*id, limits))
            return Refusal{nullptr, *fault};
    if (const auto fault = fault_of_request(*object))
        return Refusal{id.value_or(nullptr), *fault};
    return Request{std::move(id), std::string(object->at("method").get_string()),
                   copy_of(*object, "params"), copy_of(*object, "progress").value_or(nullptr)};
}

std::string id_text(const json::value& id) {
    return write_json(id);
}

std::string reply_text(const json::value& id, const Outcome& outcome) {
    json::object reply{{"jsonrpc", "2.0"}, {"id", id}};
    if (const auto* error = std::get_if<Error>(&outcome))
        reply["error"] = error->to_json();
    else if (const auto& result = std::get<json::value>(outcome); all_finite(result))
        reply["result"] = result;
    else
        reply["error"] = not_finite().to_json();
    return write_json(reply);
}

std::optional<Error> internal_fault(const Outcome& outcome) {
    if (const auto* error = std::get_if<Error>(&outcome))
        return error->kind() == ErrorKind::internal ? std::optional{*error} : std::nullopt;
    return all_finite(std::get<json::value>(outcome)) ? std::nullopt : std::optional{not_finite()};
}

std::string notification_text(std::string_view method, json::object params) {
    return write_json(
        json::object{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
}

} // namespace barmkeep::protocol
