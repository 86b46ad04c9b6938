// Parts of a page: escaped texts, charts, the style.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/wording.hpp"

namespace barmkeep::sheet {

/// A harmless text with the five characters of markup escaped; tight blanks stay, so that no line
/// breaks inside of a value.
[[nodiscard]] std::string escaped(std::string_view text);
/// A text with its days and instants as <time> and its commands as <code>.
[[nodiscard]] std::string html_text(const Text& text, const Reader& reader);
/// A <figure> with the chart as SVG and its legend; empty if there is nothing to draw.
[[nodiscard]] std::string html_chart(const Chart& chart, const Reader& reader);
/// What stands between <style> and </style>.
[[nodiscard]] std::string_view html_style() noexcept;

} // namespace barmkeep::sheet
