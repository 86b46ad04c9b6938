#include "sdk/plugin/text.hpp"

#include "sdk/abi/barmkeep_plugin.h"
#include "sdk/method/error.hpp"
#include "sdk/method/text.hpp"

#include <stdexcept>

namespace barmkeep::plugin {
namespace {

/// Whether a text is UTF-8: the parser of JSON takes no other.
bool can_be_read_back(const std::string& text) {
    try {
        return parse_json(write_json(json::value(text))).is_string();
    } catch (const std::invalid_argument&) {
        return false;
    }
}

} // namespace

std::string text_of(const json::value& value) {
    if (!all_finite(value))
        throw Error(ErrorKind::internal, "not_finite",
                    "A number to be sent is infinite or undefined.");
    std::string text = write_json(value);
    if (text.size() > BARMKEEP_TEXT_LENGTH_MAX)
        throw Error(ErrorKind::internal, "text_too_long",
                    "A text of " + std::to_string(text.size()) +
                        " bytes is too long for the plugin boundary.",
                    "Ask for less at a time.");
    return text;
}

json::value value_of(std::string_view text) {
    if (text.empty())
        return nullptr;
    if (text.size() > BARMKEEP_TEXT_LENGTH_MAX)
        throw std::invalid_argument("a text of " + std::to_string(text.size()) + " bytes");
    return parse_json(text);
}

void keep_text(void* text, const char* bytes, std::size_t length) noexcept {
    try {
        if (length <= BARMKEEP_TEXT_LENGTH_MAX)
            static_cast<std::string*>(text)->assign(view_of(bytes, length));
    } catch (...) { // out of memory: an empty text is read as null, and refused as such
    }
}

std::string one_line(std::string_view text) {
    constexpr std::size_t length_max = 4000;
    std::string line{cut_at_character(text, length_max)};
    const bool is_utf8 = can_be_read_back(line);
    for (char& c : line) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x20 || byte == 0x7f)
            c = ' ';
        else if (byte >= 0x80 && !is_utf8)
            c = '?';
    }
    return line;
}

} // namespace barmkeep::plugin
