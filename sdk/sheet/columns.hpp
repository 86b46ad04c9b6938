// Text in columns: how wide it is, how it breaks, and what of it may reach a screen.
//
// Thread safety: pure functions.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::sheet {

/// The blank inside of a value, "4 oz", at which no line breaks if it can be helped.
inline constexpr std::string_view tight_blank = "\u00a0";

/// The text as it may be shown: tabs and line breaks are blanks; other control characters, marks
/// that turn the direction of writing, and bytes that are no UTF-8 are question marks; tight blanks
/// are plain ones.
[[nodiscard]] std::string harmless(std::string_view text);
/// ASCII for a text of harmless(): letters of Western Europe without their marks, a question mark
/// for what has no likeness.  Tight blanks stay.
[[nodiscard]] std::string in_ascii(std::string_view text);
/// The blanks of a value made tight, and made plain again.
[[nodiscard]] std::string with_tight_blanks(std::string_view text);
[[nodiscard]] std::string with_plain_blanks(std::string_view text);

/// Columns of a screen: two for East Asian wide letters, none for combining marks.
[[nodiscard]] std::size_t width_of(std::string_view text);
/// Lines of at most `width` columns.  Breaks at blanks; where a word alone is wider, at tight
/// blanks; at last within the word.  No lines for a text without words.  REQUIRES: width >= 2.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t width);
/// Blanks after (or before) the text up to a width; a wider text is left as it is.
[[nodiscard]] std::string padded(std::string_view text, std::size_t width, bool to_the_right);

} // namespace barmkeep::sheet
