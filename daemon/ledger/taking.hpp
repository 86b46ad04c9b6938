// From which lots an amount is taken.
#pragma once

#include "daemon/ledger/lots.hpp"

namespace barmkeep::ledger {

/// A part of what is taken.
struct Part {
    std::int64_t lot = 0;
    std::int64_t steps = 0;
    std::int64_t from_set_aside = 0; ///< how many of them the brew day had set aside
};

/// Chooses the lots for an amount: of the lot named, or of a good's lots in the order they expire;
/// first what `brew` has set aside, then what nobody has.  Lots on hold are left out, and refused
/// when named; jars and cans past their best by are left out unless their lot is named.  Throws
/// Error(not_enough), which says what there is, and Error(conflict, "on_hold"). REQUIRES: the
/// amount is in the good's measure and above zero.
[[nodiscard]] std::vector<Part> choose(const View& view, const Named& named, const Amount& amount,
                                       const std::optional<std::int64_t>& brew,
                                       std::string_view pointer);

/// The error of having too little: says what is on hand, set aside, on hold and free in `lots`.
[[nodiscard]] Error not_enough(const std::string& of_what, const std::vector<KnownLot>& lots,
                               const Amount& asked, std::string_view pointer);

} // namespace barmkeep::ledger
