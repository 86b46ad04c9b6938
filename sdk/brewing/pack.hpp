// How many living cells a pack holds when it leaves its maker.
//
// Formula: cells = packs x cells a pack, or grams x cells a gram.  What age takes away is in
// viability.hpp; living_cells() joins the two.
//
// Makers print minima, single lots and ranges, for products whose size changed over the years, so
// the figures differ by more than twofold.  A count on the label of one's own pack outranks them.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"

#include <span>
#include <string_view>

namespace barmkeep::brewing {

enum class PackKind {
    liquid_pack, ///< a laboratory's liquid pack or vial for one household batch
    agar_slant,  ///< a slant or small jar of agar
    dry_gram,    ///< one gram of a maker's dry yeast
};

/// One published figure: living cells in one piece, or in one gram for dry_gram.
struct PackFigure {
    std::string_view key; ///< row of tests/published/data/yeast
    std::string_view source;
    char access; ///< P, A, Q
    PackKind kind;
    Cells low;
    Cells high; ///< equal to `low` where one figure is printed
    std::string_view conditions;
};

/// All figures, in the order of their keys.
[[nodiscard]] std::span<const PackFigure> pack_figures() noexcept;

/// The figure with that key, or a null pointer.
[[nodiscard]] const PackFigure* find_pack_figure(std::string_view key) noexcept;

/// Living cells at packing in `packs` liquid packs (parts of a pack are meant).
///
/// Low 58.8 billion a pack, a single lot's report (WL8); likely 100, the maker's minimum of the
/// pack whose maker prints it first hand (WYE2); high 150, an older leaflet (WL6).
/// Throws OutOfRange for a negative number, NaN or infinity.
[[nodiscard]] Estimate<Cells> cells_in_liquid_packs(double packs);

/// Living cells at packing in `amount` of dry yeast.
///
/// Low 5 billion a gram, a maker's minimum (LAL1); likely 7.5, the lower figure implied by another
/// maker's doses (FER1: 6 million a millilitre from 80 g a hectolitre); high 14, used in an article
/// (MAD).  Throws OutOfRange for a negative mass, NaN or infinity.
[[nodiscard]] Estimate<Cells> cells_in_dry_yeast(Mass amount);

/// Living cells and where both factors come from.
struct LivingCells {
    Estimate<Cells> cells; ///< its `sources` are those of the count
    std::string_view viability_sources;
};

/// Cells at packing times the share alive: low by low, likely by likely, high by high.
/// Throws OutOfRange for a share outside 0 to 1 and for cells that are negative or not finite.
[[nodiscard]] LivingCells living_cells(const Estimate<Cells>& at_packing,
                                       const Estimate<double>& share_alive);

} // namespace barmkeep::brewing
