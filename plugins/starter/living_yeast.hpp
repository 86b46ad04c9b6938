// Living cells in an amount of a yeast lot on a day.
//
// Cells at packing: the lot's own fact outranks the sources (sdk/brewing/pack.hpp, slurry.hpp).
// Share alive: the sources (sdk/brewing/viability.hpp), and beyond the last age that one covers a
// guess that says so.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/yeast_messages.hpp"

#include <span>

namespace barmkeep::starter {

struct Storage {
    Date day;                     ///< the day asked about
    brewing::Temperature kept_at; ///< since it was packed
    brewing::Mass dry_pack;       ///< in a dry pack that has no cell fact
};

/// What a lot is kept as: by its form, or else by its measure.
[[nodiscard]] Material material_of(const contract::Lot& lot);

/// Never throws for what is in a lot: where nothing can be said of the cells they are left out and
/// a note says why, and which command fixes it.
[[nodiscard]] LivingYeast living_yeast(const contract::Lot& lot, const Amount& amount,
                                       const Storage& keeping);

/// All of them together: lows, likely ones and highs added.  REQUIRES: each has cells.
[[nodiscard]] Range<brewing::Cells> cells_of(std::span<const LivingYeast> yeast);

/// `more` appended to `keys`, each key once.
[[nodiscard]] std::string joined_sources(std::string_view keys, std::string_view more);

} // namespace barmkeep::starter
