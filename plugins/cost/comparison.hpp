// A jar compared with bought cans, and the parts of its cost.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/cost/jar_cost.hpp"

#include <map>
#include <set>

namespace barmkeep::cost {

/// A can that is sold, or that was bought.
struct Can {
    std::string item;
    std::optional<std::string> where;
    std::optional<Date> day;
    Money price;                 ///< of all of them
    std::int64_t extract_mg = 0; ///< in all of them; above zero
    std::int64_t count = 1;      ///< cans that this is of
};

/// Everything that can be compared with a jar: price notes with volume and gravity; price notes of
/// goods of class bought_can, by their facts; bought cans on the shelf, by what was paid.
///
/// A note's pieces count how many cans the price is for where the extract comes from the good's
/// facts; its own volume is that of the whole package.
/// With `only`, just that item.  Throws Error(not_found), "no_can_price", if nothing is left, with
/// the command that notes a price.
[[nodiscard]] std::vector<Can> cans_known(std::span<const contract::PriceNote> notes,
                                          std::span<const contract::Good> goods,
                                          std::span<const contract::Shelf> shelves,
                                          std::span<const contract::JarSize> sizes,
                                          const std::optional<std::string>& only);

/// The can compared with jars that are worth `jars.value`.  REQUIRES: extract in both.
[[nodiscard]] CanComparison compare_can(const Can& can, const Totals& jars,
                                        std::int64_t used_last_year);

/// What made the cost of the batches, dearest first: the goods that went into the conversion each
/// lot came from, in proportion to their value in it.  A lot that was not made here is its own
/// part.  `origins` holds the entry that made each batch, by its number.
[[nodiscard]] std::vector<CostPart> parts_of(std::span<const Batch> batches,
                                             const std::map<std::int64_t, contract::Entry>& origins,
                                             std::span<const contract::Good> goods);

/// What failed jars cost the good ones: those that the conversions note as lost, and those that
/// came out as lots of `failed`.  Nothing if no conversion made any of the batches.
[[nodiscard]] std::optional<CostLost>
lost_of(std::span<const Batch> batches, const std::map<std::int64_t, contract::Entry>& origins,
        const std::set<LotCode>& failed);

/// Pieces of a lot that were used in the 12 months up to `today`, that day included; entries that
/// were undone do not count.
[[nodiscard]] std::int64_t used_last_year(std::span<const contract::Entry> entries,
                                          const LotCode& lot, Date today);

} // namespace barmkeep::cost
