#include "daemon/client/style.hpp"

#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

std::string in_colour(const Style& style, std::string_view code, std::string_view text) {
    if (!style.has_colour)
        return std::string(text);
    return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

} // namespace

std::string Style::heading(std::string_view text) const {
    return in_colour(*this, "1", text);
}
std::string Style::warning(std::string_view text) const {
    return in_colour(*this, "33", text);
}
std::string Style::alarm(std::string_view text) const {
    return in_colour(*this, "31", text);
}

std::string in_letters_of(const Style& style, std::string text) {
    if (style.has_utf8)
        return text;
    const auto replace = [&](std::string_view from, std::string_view to) {
        for (auto at = text.find(from); at != std::string::npos; at = text.find(from))
            text.replace(at, from.size(), to);
    };
    replace("\u00b0", "");
    replace("\u00b5", "u");
    return text;
}

std::size_t width_of(std::string_view text) {
    std::size_t width = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U)
            ++width;
    return width;
}

std::string printable(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        // The second set of control characters is C2 80 to C2 9F in UTF-8.
        const bool is_second_set =
            c == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
        if (c >= 0x20 && c != 0x7F && !is_second_set) {
            out += text[i];
            continue;
        }
        out += c == '\t' || c == '\n' ? ' ' : '?';
        i += is_second_set ? 1 : 0;
    }
    return out;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
    std::string out;
    std::size_t column = indent;
    while (!text.empty()) {
        const auto begin = text.find_first_not_of(' ');
        if (begin == std::string_view::npos)
            break;
        text.remove_prefix(begin);
        const auto word = text.substr(0, text.find(' '));
        text.remove_prefix(word.size());
        const std::size_t wide = width_of(word);
        if (column > indent && column + 1 + wide > width) {
            out += '\n' + std::string(indent, ' ');
            column = indent;
        } else if (column > indent) {
            out += ' ';
            ++column;
        }
        out += word;
        column += wide;
    }
    return out;
}

std::string first_sentence(std::string_view text, std::size_t width) {
    text = text.substr(0, text.find(". "));
    if (text.ends_with('.'))
        text.remove_suffix(1);
    if (width_of(text) <= width)
        return std::string(text);
    // Only ASCII letters end a part here, so no letter of UTF-8 is cut in two.
    for (auto at = text.find_last_of(":;"); at != std::string_view::npos && at > 0;
         at = text.find_last_of(":;", at - 1))
        if (width_of(text.substr(0, at)) <= width)
            return std::string(text.substr(0, at));
    constexpr std::string_view dots = "...";
    for (auto at = text.rfind(' '); at != std::string_view::npos && at > 0;
         at = text.rfind(' ', at - 1)) {
        const auto kept = text.substr(0, text.find_last_not_of(" ,", at) + 1);
        if (width_of(kept) + dots.size() <= width)
            return std::string(kept) + std::string(dots);
    }
    return std::string(text); // one long word, which stands as it is
}

} // namespace barmkeep::barm
