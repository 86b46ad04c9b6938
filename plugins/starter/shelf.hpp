// Lots on the shelf: which of them are meant, and how much of them may be taken.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/brew.hpp"

#include <span>

namespace barmkeep::starter {

/// For whom and when something is taken.
struct Taking {
    const contract::Brew* brew = nullptr; ///< may use what it has set aside; null for none
    Date today;
};

/// What a request may take of a lot: what is not set aside, and what its own brew day has.
/// Nothing while the lot is on hold, or is_past_best_by() and not named.
[[nodiscard]] Amount available(const contract::Lot& lot, const Taking& taking,
                               bool is_named = false);

/// Whether a text is the lot's code, in either case.
[[nodiscard]] bool is_code_of(const contract::Lot& lot, const std::string& text);
/// Whether a text is the lot's code or its good's name.
[[nodiscard]] bool is_meant(const contract::Lot& lot, const std::string& what);

/// The lots of a class, first to expire first; lots without a date last, and the older code first.
[[nodiscard]] std::vector<contract::Lot> lots_of(std::span<const contract::Shelf> shelves,
                                                 contract::GoodClass goods);

/// Those of `lots` that `what` means (all if left out) and that have something to take; and of
/// these only the ones of the same good as the first, for two goods are not mixed unasked.
/// Throws Error(not_found) at `pointer` if `what` means none of `lots`.
[[nodiscard]] std::vector<contract::Lot> to_take_from(const std::vector<contract::Lot>& lots,
                                                      const std::optional<std::string>& what,
                                                      const Taking& taking,
                                                      std::string_view pointer);

} // namespace barmkeep::starter
