// "Did you mean ...": the known word nearest to a mistyped one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barmkeep {

/// The word of `known` with the fewest single-letter changes (insert, drop, replace, swap of
/// neighbours) from `typed`; nothing if even that one needs more than a third of its letters
/// changed, for a wild guess is worse than none.
[[nodiscard]] std::optional<std::string> nearest(std::string_view typed,
                                                 const std::vector<std::string>& known);

} // namespace barmkeep
