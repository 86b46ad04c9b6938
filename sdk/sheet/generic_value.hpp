// JSON values in words by their schema: the inside of generic.hpp.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/text.hpp"

namespace barmkeep::sheet {

/// "best by" for "best_by".
[[nodiscard]] std::string words_of(std::string_view field);
/// Whether an object is one value and no list of fields: an amount, or a range.
[[nodiscard]] bool is_one_value(const json::value& value, const json::object& schema);
/// Whether its cells stand at the right.
[[nodiscard]] bool is_figure(const json::object& schema);
/// One value as a text of typed runs; empty for null, an empty text and an empty list.  `field` is
/// its name, which separates an altitude from a length.
[[nodiscard]] Text generic_text(const json::value& value, const json::object& schema,
                                std::string_view field);

} // namespace barmkeep::sheet
