// The share of living cells from a stained count.
//
// Of n cells, k stayed clear: share = k / n.  Interval: the exact one (CLP), from beta quantiles.
// It is chosen over the one of WIL, because it never holds the true share less often than it says;
// it is a little wider for that. That one is here too, for comparison.
//
// What the stain itself gets wrong is in neither: methylene blue calls too many cells alive in old
// yeast (OCC, JIB59), and can read stress as death in strong wort (CAS).
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/estimate.hpp"

#include <cstdint>

namespace barmkeep::brewing {

/// Cells that a stain separates.
struct StainedCount {
    std::uint64_t living = 0; ///< clear
    std::uint64_t dead = 0;   ///< stained

    [[nodiscard]] constexpr std::uint64_t total() const noexcept { return living + dead; }
};

/// Share alive with the exact interval of CLP.
/// Throws OutOfRange for no cells at all and for a confidence outside 0.5 to 0.9999.
[[nodiscard]] Estimate<double> stained_share(const StainedCount& count,
                                             double confidence = usual_confidence);

/// The interval of WIL of the same share.  Throws as stained_share().
[[nodiscard]] Interval score_interval(const StainedCount& count,
                                      double confidence = usual_confidence);

/// Living cells: density times share, low by low and high by high, so that the interval is wide
/// rather than narrow.  The sources are those of the density.
/// Throws OutOfRange for a share outside 0 to 1 or a density negative or not finite.
[[nodiscard]] Estimate<double> living_density(const CountedDensity& density,
                                              const Estimate<double>& share_alive);

} // namespace barmkeep::brewing
