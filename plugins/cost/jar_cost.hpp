// What jars cost: lots with their value, their extract, and the sums over them.
//
// Extract is rounded to the milligram once, for each jar; after that all is whole numbers.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/cost/messages.hpp"
#include "sdk/contract/equipment.hpp"

#include <span>

namespace barmkeep::cost {

/// Jars (or cans) of one lot that were valued.
struct Batch {
    contract::Lot lot;
    std::int64_t jars = 0; ///< above zero
    Money value;
    std::optional<std::int64_t> extract_mg; ///< in one of them; nothing if not known
    std::int64_t made_by = 0;               ///< the entry that made them; a split made nothing
};

/// Whether a lot counts for the cost of a jar.  One that never becomes shelf stock does not: the
/// good ones carry the cost of a failed seal, and nobody opens a jar whose process went wrong.
[[nodiscard]] bool has_cost(const contract::Lot& lot);

/// Extract in one jar or can, in milligrams: by its measured gravity and fill, or else as weighed
/// in.  If the lot has no fill, that of its jar size counts.  Nothing if neither is known.  Throws
/// Error(conflict), "facts_out_of_range", for facts that no formula holds for.
[[nodiscard]] std::optional<std::int64_t> extract_in_one(const contract::Facts& facts,
                                                         std::span<const contract::JarSize> sizes,
                                                         std::string_view whose);

/// The command that sets what extract_in_one() wants of a lot.
[[nodiscard]] std::string hint_for(const LotCode& lot);

/// A batch of the jars on hand; if there are none, of those that the lot was filled with, from
/// its line in `origin`.  Nothing if neither has a jar, if not has_cost(lot), or if a
/// recount found its jars, which came without a cost.
[[nodiscard]] std::optional<Batch> batch_of(const contract::Lot& lot, const contract::Entry* origin,
                                            std::span<const contract::JarSize> sizes);

/// Sums over batches of which the extract is known.
struct Totals {
    std::int64_t jars = 0;
    std::int64_t extract_mg = 0;
    Money value;
};
[[nodiscard]] Totals totals_of(std::span<const Batch> batches);

/// Lots of one good, and the sums over them.  REQUIRES: at least one batch.
[[nodiscard]] GoodCost cost_of(std::span<const Batch> batches, brewing::Gravity starter);

} // namespace barmkeep::cost
