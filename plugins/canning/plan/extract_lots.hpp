// Extract by lot: what a lot yields, and which lots fill which jars.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/plan/messages.hpp"

#include <span>

namespace barmkeep::canning {

/// A lot of extract as the allocation sees it.
struct ExtractLot {
    LotCode code;
    brewing::Mass available;
    brewing::Estimate<double> points; ///< gravity points of a pound made up to a US gallon
    std::optional<std::string> supplier;
    std::optional<Date> best_by;

    [[nodiscard]] double fraction() const; ///< likely extract, as sucrose, by mass of the product
};

/// The potential of a lot from what is known of it.
///
/// A stated potential counts as printed, to the whole point, so it may be half a point off either
/// way. Else the dry solids stand for it, within a hundredth. Else the published range of its
/// form holds: dry extract 42 to 45 points, liquid 35 to 37 (docs/science.md).
/// Throws Error(conflict, "potential_unknown") if none of them is known.
[[nodiscard]] brewing::Estimate<double> potential_of(const contract::Facts& facts,
                                                     std::string_view what);

/// What one jar is to get.
struct JarNeed {
    bool by_extract = true; ///< the mass is dissolved extract; else it is weighed product
    brewing::Mass mass;
};

/// Product of one lot in one jar.
struct Part {
    std::size_t lot = 0; ///< index into the lots
    brewing::Mass mass;
    bool operator==(const Part&) const = default;
};

/// Neighbouring jars that get the same.
struct JarGroup {
    std::int64_t jars = 0;
    std::vector<Part> parts;
};

struct Allocation {
    std::vector<JarGroup> groups;
    std::int64_t jars = 0;
    brewing::Mass missing; ///< product still wanted for the jars asked for, at the last lot's yield
};

/// No share of a lot below this goes into a jar that has some already, for nobody weighs a crumb.
inline constexpr brewing::Mass smallest_share{1.0, brewing::gram};

/// Fills jars from the lots in the order given, several lots in one jar where one runs out.
///
/// Every share is a whole number of `step`, the smallest that the scale shows. A lot that is one
/// step short of a jar counts as enough for it, and a lot with less than a step as empty: the
/// ledger sweeps such a rest away with the last weighing.
[[nodiscard]] Allocation allocate(std::span<const ExtractLot> lots, const JarNeed& need,
                                  std::int64_t jars, brewing::Mass step);

} // namespace barmkeep::canning
