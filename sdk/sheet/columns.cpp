#include "sdk/sheet/columns.hpp"

#include <algorithm>
#include <array>
#include <span>

namespace barmkeep::sheet {
namespace {

constexpr char32_t no_letter = 0xFFFD;

/// One character of UTF-8 and the bytes it took.
struct Letter {
    char32_t code = no_letter;
    std::size_t bytes = 1;
};

std::size_t bytes_of(unsigned char first) {
    if (first < 0x80)
        return 1;
    if (first >= 0xC2 && first < 0xE0)
        return 2;
    if (first >= 0xE0 && first < 0xF0)
        return 3;
    return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

/// The first character; no_letter and one byte for what is no UTF-8.  REQUIRES: not empty.
Letter first_letter(std::string_view text) {
    const auto first = static_cast<unsigned char>(text.front());
    const std::size_t bytes = bytes_of(first);
    if (bytes == 0 || bytes > text.size())
        return {};
    if (bytes == 1)
        return {first, 1};
    char32_t code = first & (0xFFU >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto next = static_cast<unsigned char>(text[i]);
        if ((next & 0xC0U) != 0x80U)
            return {};
        code = (code << 6U) | (next & 0x3FU);
    }
    constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
    const bool is_surrogate = code >= 0xD800 && code < 0xE000;
    if (code < least.at(bytes) || is_surrogate || code > 0x10FFFF)
        return {};
    return {code, bytes};
}

struct CodeRange {
    char32_t first;
    char32_t last;
};

bool is_among(std::span<const CodeRange> ranges, char32_t code) {
    return std::any_of(ranges.begin(), ranges.end(), [code](const CodeRange& range) {
        return code >= range.first && code <= range.last;
    });
}

// Unicode 15, the blocks that matter on a screen: general category Mn of the common scripts and
// joiners; East Asian Width W and F.
constexpr std::array no_width{
    CodeRange{0x0300, 0x036F}, CodeRange{0x0483, 0x0489},  CodeRange{0x0591, 0x05BD},
    CodeRange{0x0610, 0x061A}, CodeRange{0x064B, 0x065F},  CodeRange{0x0E31, 0x0E31},
    CodeRange{0x0E34, 0x0E3A}, CodeRange{0x0E47, 0x0E4E},  CodeRange{0x1AB0, 0x1AFF},
    CodeRange{0x1DC0, 0x1DFF}, CodeRange{0x200B, 0x200D},  CodeRange{0x20D0, 0x20FF},
    CodeRange{0x302A, 0x302D}, CodeRange{0x3099, 0x309A},  CodeRange{0xFE00, 0xFE0F},
    CodeRange{0xFE20, 0xFE2F}, CodeRange{0xE0100, 0xE01EF}};
constexpr std::array double_width{
    CodeRange{0x1100, 0x115F},   CodeRange{0x2E80, 0x303E},   CodeRange{0x3041, 0xA4CF},
    CodeRange{0xA960, 0xA97F},   CodeRange{0xAC00, 0xD7A3},   CodeRange{0xF900, 0xFAFF},
    CodeRange{0xFE30, 0xFE6F},   CodeRange{0xFF00, 0xFF60},   CodeRange{0xFFE0, 0xFFE6},
    CodeRange{0x1F300, 0x1F64F}, CodeRange{0x1F680, 0x1F6FF}, CodeRange{0x1F900, 0x1F9FF},
    CodeRange{0x20000, 0x3FFFD}};
// What turns or hides the text around it: a name must not make a line read otherwise.
constexpr std::array unwanted{
    CodeRange{0x00, 0x1F},     CodeRange{0x7F, 0x9F},     CodeRange{0x061C, 0x061C},
    CodeRange{0x200E, 0x200F}, CodeRange{0x2028, 0x202E}, CodeRange{0x2060, 0x206F},
    CodeRange{0xFEFF, 0xFEFF}, CodeRange{0xFFF9, 0xFFFF}, CodeRange{0xE0000, 0xE007F}};

std::size_t width_of_letter(char32_t code) {
    if (code < 0x300)
        return 1;
    if (is_among(no_width, code))
        return 0;
    return is_among(double_width, code) ? 2 : 1;
}

/// Likenesses of the letters from U+00C0 to U+00FF.
constexpr std::string_view latin =
    "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty";

std::string_view likeness(char32_t code) {
    switch (code) {
    case 0xB0: // a degree: the unit's letter says enough
        return "";
    case 0xB5:
        return "u";
    case 0xBC:
        return "1/4";
    case 0xBD:
        return "1/2";
    case 0xBE:
        return "3/4";
    case 0x2010:
    case 0x2011:
    case 0x2012:
    case 0x2013:
    case 0x2014:
    case 0x2212:
        return "-";
    case 0x2018:
    case 0x2019:
        return "'";
    case 0x201C:
    case 0x201D:
    case 0x201E:
        return "\"";
    case 0x2026:
        return "...";
    default:
        break;
    }
    if (code >= 0xC0 && code <= 0xFF)
        return latin.substr(code - 0xC0, 1);
    return is_among(no_width, code) ? "" : "?";
}

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
    std::string out;
    for (std::size_t at = text.find(from); at != std::string_view::npos; at = text.find(from)) {
        out += text.substr(0, at);
        out += to;
        text.remove_prefix(at + from.size());
    }
    return out.append(text);
}

/// The bytes of the longest beginning that fits, at least one character.
std::size_t bytes_that_fit(std::string_view text, std::size_t width) {
    std::size_t bytes = 0;
    std::size_t columns = 0;
    while (bytes < text.size()) {
        const Letter letter = first_letter(text.substr(bytes));
        columns += width_of_letter(letter.code);
        if (columns > width && bytes > 0)
            break;
        bytes += letter.bytes;
    }
    return bytes;
}

/// Fills lines with words.
class Filler {
public:
    explicit Filler(std::size_t width) : width_{width} {}

    void add(std::string_view words, std::string_view gap) {
        while (!words.empty()) {
            const std::size_t end = std::min(words.find(gap), words.size());
            if (end > 0)
                add_word(words.substr(0, end), gap);
            words.remove_prefix(std::min(end + gap.size(), words.size()));
        }
    }
    [[nodiscard]] std::vector<std::string> lines() && {
        if (!line_.empty())
            lines_.push_back(std::move(line_));
        return std::move(lines_);
    }

private:
    void add_word(std::string_view word, std::string_view gap) {
        const std::size_t wide = width_of(word);
        if (wide > width_ && gap != tight_blank && word.find(tight_blank) != word.npos) {
            add(word, tight_blank);
            return;
        }
        const std::size_t before = line_.empty() ? 0 : width_of(line_) + 1;
        if (before + wide <= width_) {
            line_.append(before == 0 ? "" : " ").append(word);
            return;
        }
        if (!line_.empty())
            lines_.push_back(std::exchange(line_, {}));
        while (width_of(word) > width_) {
            const std::size_t bytes = bytes_that_fit(word, width_);
            lines_.emplace_back(word.substr(0, bytes));
            word.remove_prefix(bytes);
        }
        line_ = word;
    }

    std::size_t width_;
    std::string line_;
    std::vector<std::string> lines_;
};

} // namespace

std::string harmless(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const Letter letter = first_letter(text);
        if (letter.code == U'\t' || letter.code == U'\n' || letter.code == U'\r' ||
            letter.code == 0xA0)
            out += ' ';
        else if (is_among(unwanted, letter.code))
            out += '?';
        else
            out += text.substr(0, letter.bytes);
        text.remove_prefix(letter.bytes);
    }
    return out;
}

std::string in_ascii(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const Letter letter = first_letter(text);
        if (letter.code < 0x80 || letter.code == 0xA0)
            out += text.substr(0, letter.bytes);
        else
            out += likeness(letter.code);
        text.remove_prefix(letter.bytes);
    }
    return out;
}

std::string with_tight_blanks(std::string_view text) {
    return replaced(text, " ", tight_blank);
}

std::string with_plain_blanks(std::string_view text) {
    return replaced(text, tight_blank, " ");
}

std::size_t width_of(std::string_view text) {
    std::size_t width = 0;
    while (!text.empty()) {
        const Letter letter = first_letter(text);
        width += width_of_letter(letter.code);
        text.remove_prefix(letter.bytes);
    }
    return width;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    Filler filler{width};
    filler.add(text, " ");
    return std::move(filler).lines();
}

std::string padded(std::string_view text, std::size_t width, bool to_the_right) {
    const std::string space(width - std::min(width, width_of(text)), ' ');
    return to_the_right ? space + std::string(text) : std::string(text) + space;
}

} // namespace barmkeep::sheet
