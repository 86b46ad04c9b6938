// Lots on the shelf: which of them are meant, and how much of them may be taken.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/brew.hpp"

#include <span>

namespace barmkeep::starter {

/// What a request may take of a lot: what is free, and what its own brew day has set aside.
/// Nothing while the lot is on hold.
[[nodiscard]] Amount available(const contract::Lot& lot, const contract::Brew* brew);

/// Whether a lot's code (in either case) or a good's name means this lot.
[[nodiscard]] bool is_meant(const contract::Lot& lot, const std::string& what);

/// The lots of a class, first to expire first; lots without a date last, and the older code first.
[[nodiscard]] std::vector<contract::Lot> lots_of(std::span<const contract::Shelf> shelves,
                                                 contract::GoodClass goods);

/// Those of `lots` that `what` means (all if left out) and that have something to take; and of
/// these only the ones of the same good as the first, for two goods are not mixed unasked.
/// Throws Error(not_found) at `pointer` if `what` means none of `lots`.
[[nodiscard]] std::vector<contract::Lot> to_take_from(const std::vector<contract::Lot>& lots,
                                                      const std::optional<std::string>& what,
                                                      const contract::Brew* brew,
                                                      std::string_view pointer);

} // namespace barmkeep::starter
