// Lots on the shelf: which of them are meant, and how much of them may be taken.
//
// What is stock, and the order of taking, is sdk/contract/shelf.hpp's to say; here it is only asked
// for a lot that was named, for a brew day's own stock, and for jars that are boiled first.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/brew.hpp"

#include <span>

namespace barmkeep::starter {

/// For whom and when something is taken.
struct Taking {
    const contract::Brew* brew = nullptr; ///< may use what it has reserved; null for none
    Date day;
    bool is_boiled = false; ///< confirmed: a chilled jar that is named was kept cold, and is boiled
};

/// What a request may take of a lot: what is not reserved, and what its own brew day has.  Of a
/// lot that is no stock on the day nothing, unless it is named: then sealed food past its best by,
/// and with Taking::is_boiled a jar that is_usable_chilled().
[[nodiscard]] Amount available(const contract::Lot& lot, const Taking& taking,
                               bool is_named = false);

/// What the brew day has reserved of a lot that is stock on the day.
[[nodiscard]] Amount reserved_of(const contract::Lot& lot, const Taking& taking);

/// Why a lot that is no stock may not be used, in plain words: "it did not seal (lid flexed)".
[[nodiscard]] std::string why_held(const contract::Lot& lot);

/// The holds of a lot that were released with a reason, to be shown wherever it is used.
void add_releases(std::vector<contract::UsedDespite>& despite, const contract::Lot& lot);

/// Whether a text is the lot's code, in either case.
[[nodiscard]] bool is_code_of(const contract::Lot& lot, const std::string& text);
/// Whether a text is the lot's code or its good's name.
[[nodiscard]] bool is_meant(const contract::Lot& lot, const std::string& what);

/// The lots of a class, in the order in which they are taken.
[[nodiscard]] std::vector<contract::Lot> lots_of(std::span<const contract::Shelf> shelves,
                                                 contract::Category category);

/// Those of `lots` that `what` means (all if left out) and that have something to take; and of
/// these only the ones of the same good as the first, for two goods are not mixed unasked.
/// Throws Error(not_found) at `pointer` if `what` means none of `lots`.
[[nodiscard]] std::vector<contract::Lot> to_take_from(const std::vector<contract::Lot>& lots,
                                                      const std::optional<std::string>& what,
                                                      const Taking& taking,
                                                      std::string_view pointer);

} // namespace barmkeep::starter
