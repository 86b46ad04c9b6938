#include "sdk/client/wire.hpp"

#include <cassert>
#include <fmt/format.h>

namespace barmkeep::client {
namespace {

[[noreturn]] void refuse(std::string_view why) {
    throw Error(ErrorKind::text, "bad_reply",
                fmt::format("The answer does not come from a Barmkeep daemon: {}.", why),
                "Check that this is the daemon's socket. `--socket` names another.");
}

/// Where the JSON string that begins at `at` ends: the place after its closing quote.
std::size_t after_string(std::string_view text, std::size_t at) {
    for (++at; at < text.size() && text[at] != '"'; ++at)
        if (text[at] == '\\')
            ++at;
    return at + 1;
}

/// Where the JSON value that begins at `at` ends.
std::size_t after_value(std::string_view text, std::size_t at) {
    int depth = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (c == '"') {
            at = after_string(text, at);
            if (depth == 0)
                return at;
            continue;
        }
        if (c == '{' || c == '[')
            ++depth;
        else if (c == '}' || c == ']') {
            if (depth == 0)
                return at; // of a number or word, at the end of what holds it
            if (--depth == 0)
                return at + 1;
        } else if (c == ',' && depth == 0)
            return at;
        ++at;
    }
    return at;
}

std::size_t after_space(std::string_view text, std::size_t at) {
    while (at < text.size() && (text[at] == ' ' || text[at] == '\t' || text[at] == '\r' ||
                                text[at] == '\n' || text[at] == ',' || text[at] == ':'))
        ++at;
    return at;
}

Reply read_reply(const json::object& message, std::string_view line) {
    const auto* id = message.if_contains("id");
    const auto* result = message.if_contains("result");
    const auto* error = message.if_contains("error");
    if (id == nullptr || (result == nullptr) == (error == nullptr))
        refuse("it is neither a result nor an error");
    if (error != nullptr)
        return {*id, Error::from_json(*error)};
    std::string_view text = member_text(line, "result");
    while (!text.empty() && (text.back() == ' ' || text.back() == '\r'))
        text.remove_suffix(1);
    return {*id, Answer{*result, std::string(text)}};
}

} // namespace

std::string request_line(std::int64_t id, std::string_view method, const json::object& params,
                         const json::value& progress) {
    json::object request{{"jsonrpc", "2.0"}, {"id", id}, {"method", method}};
    if (!params.empty())
        request["params"] = params;
    if (!progress.is_null())
        request["progress"] = progress;
    return write_json(request) + '\n';
}

std::string_view member_text(std::string_view object, std::string_view name) {
    std::size_t at = after_space(object, object.find('{') + 1);
    std::string_view found;
    while (at < object.size() && object[at] == '"') {
        const std::size_t name_end = after_string(object, at);
        const std::string_view member = object.substr(at + 1, name_end - at - 2);
        const std::size_t begin = after_space(object, name_end);
        const std::size_t end = after_value(object, begin);
        if (member == name)
            found = object.substr(begin, end - begin); // of a member named twice, the last
        at = after_space(object, end);
    }
    return found;
}

Message read_message(std::string_view line) {
    json::value value;
    try {
        value = parse_json(line);
    } catch (const std::invalid_argument& error) {
        refuse(error.what());
    }
    const auto* message = value.if_object();
    if (message == nullptr)
        refuse("it is no JSON object");
    const auto* version = message->if_contains("jsonrpc");
    if (version == nullptr || *version != "2.0")
        refuse("it does not say that it is JSON-RPC 2.0");
    const auto* method = message->if_contains("method");
    if (method == nullptr)
        return read_reply(*message, line);
    if (!method->is_string())
        refuse("its method is no text");
    const auto* params = message->if_contains("params");
    const auto* named = params != nullptr ? params->if_object() : nullptr;
    return Notification{std::string(method->get_string()),
                        named != nullptr ? *named : json::object{}};
}

void LineBuffer::append(std::string_view bytes) {
    if (bytes_.size() + bytes.size() > line_length_max)
        throw Error(ErrorKind::text, "line_too_long",
                    fmt::format("The reply is longer than {} MiB.", line_length_max >> 20),
                    "Ask for fewer at once, with --limit.");
    bytes_ += bytes;
}

std::optional<std::string> LineBuffer::next() {
    const std::size_t end = bytes_.find('\n', searched_);
    if (end == std::string::npos) {
        searched_ = bytes_.size();
        return std::nullopt;
    }
    std::string line = bytes_.substr(0, end);
    bytes_.erase(0, end + 1);
    searched_ = 0;
    return line;
}

} // namespace barmkeep::client
