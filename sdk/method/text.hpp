// Cutting a text short without spoiling it.
#pragma once

#include <cstddef>
#include <string_view>

namespace barmkeep {

/// The beginning of a text, at most `length_max` bytes of it.  It ends before a character of UTF-8
/// that would not be whole, so that what was UTF-8 stays UTF-8: JSON takes nothing else.  Of a
/// text that is no UTF-8 it leaves out at most three bytes more than it must.
[[nodiscard]] constexpr std::string_view cut_at_character(std::string_view text,
                                                          std::size_t length_max) noexcept {
    if (text.size() <= length_max)
        return text;
    constexpr std::size_t following_max = 3; // bytes after the first of a character
    for (std::size_t back = 0; back <= following_max && back <= length_max; ++back)
        if ((static_cast<unsigned char>(text[length_max - back]) & 0xC0U) != 0x80U)
            return text.substr(0, length_max - back);
    return text.substr(0, length_max);
}

} // namespace barmkeep
