// Text at the boundary: JSON to and from a pointer and a length.  For the SDK's own use.
#pragma once

#include "sdk/method/json.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace barmkeep::plugin {

/// A view of what came over the boundary; a null pointer is an empty text.
[[nodiscard]] inline std::string_view view_of(const char* text, std::size_t length) noexcept {
    return text == nullptr ? std::string_view{} : std::string_view{text, length};
}

/// Writes JSON for the boundary.  Throws Error(internal) for a number that JSON has no text for
/// (NaN, infinity) and for a text longer than the boundary takes.
[[nodiscard]] std::string text_of(const json::value& value);

/// Reads JSON from the boundary; nothing is null.  Throws std::invalid_argument.
[[nodiscard]] json::value value_of(std::string_view text);

/// A barmkeep_sink that appends to the std::string that is its context.  When memory gives out the
/// string stays empty.
void keep_text(void* text, const char* bytes, std::size_t length) noexcept;

/// A text as one line of a log: control characters become blanks, bytes that are no UTF-8 become
/// question marks, and it ends after 4000 bytes or a little before, never within a character.
[[nodiscard]] std::string one_line(std::string_view text);

} // namespace barmkeep::plugin
