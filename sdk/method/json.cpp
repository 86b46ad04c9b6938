#include "sdk/method/json.hpp"

#include <cassert>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace barmkeep {
namespace {

template <class Number>
void append_number(std::string& out, Number number) {
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, number);
    out.append(digits, end.ptr);
}

void append(std::string& out, const json::value& value);

void append_string(std::string& out, const json::string& text) {
    // The library escapes and checks strings correctly; only its numbers are avoided.
    out += json::serialize(text);
}

void append_array(std::string& out, const json::array& array) {
    out += '[';
    bool first = true;
    for (const auto& element : array) {
        if (!std::exchange(first, false))
            out += ',';
        append(out, element);
    }
    out += ']';
}

void append_object(std::string& out, const json::object& object) {
    out += '{';
    bool first = true;
    for (const auto& member : object) {
        if (!std::exchange(first, false))
            out += ',';
        append_string(out, json::string(member.key()));
        out += ':';
        append(out, member.value());
    }
    out += '}';
}

void append(std::string& out, const json::value& value) {
    switch (value.kind()) {
    case json::kind::null:
        out += "null";
        break;
    case json::kind::bool_:
        out += value.get_bool() ? "true" : "false";
        break;
    case json::kind::int64:
        append_number(out, value.get_int64());
        break;
    case json::kind::uint64:
        append_number(out, value.get_uint64());
        break;
    case json::kind::double_:
        assert(std::isfinite(value.get_double()));
        append_number(out, value.get_double());
        break;
    case json::kind::string:
        append_string(out, value.get_string());
        break;
    case json::kind::array:
        append_array(out, value.get_array());
        break;
    case json::kind::object:
        append_object(out, value.get_object());
        break;
    }
}

} // namespace

bool all_finite(const json::value& value) {
    switch (value.kind()) {
    case json::kind::double_:
        return std::isfinite(value.get_double());
    case json::kind::array:
        for (const auto& element : value.get_array())
            if (!all_finite(element))
                return false;
        return true;
    case json::kind::object:
        for (const auto& member : value.get_object())
            if (!all_finite(member.value()))
                return false;
        return true;
    default:
        return true;
    }
}

json::value parse_json(std::string_view text) {
    json::stream_parser parser{{}, {.max_depth = json_depth_max}};
    json::error_code error;
    const std::size_t used = parser.write(text.data(), text.size(), error);
    if (!error)
        parser.finish(error);
    if (error)
        throw std::invalid_argument("not JSON: " + error.message() + " near byte " +
                                    std::to_string(used));
    json::value value = parser.release();
    if (!all_finite(value))
        throw std::invalid_argument("a number is too large for a double");
    return value;
}

std::string write_json(const json::value& value) {
    std::string out;
    append(out, value);
    return out;
}

} // namespace barmkeep
