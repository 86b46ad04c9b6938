// How many cells a settled slurry holds.
//
// Formula: cells = volume x cells a millilitre.  The density of a slurry depends on how far it has
// settled, on trub and on the strain, so it is known to a factor of seven.  A count outranks it.
//
// All figures are of cells, dead and alive; viability.hpp has what lives.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// Cells in settled slurry of which nothing more is known.
///
/// A quart jar holds 0.3 to 2 trillion, one trillion a fair guess (WOO2): 0.32, 1.06 and
/// 2.11 billion a millilitre.  Throws OutOfRange for a volume negative or not finite.
[[nodiscard]] Estimate<Cells> cells_in_slurry(Volume slurry);

/// Volume of slurry that holds `wanted` cells at `billion_per_millilitre`.
/// Throws OutOfRange unless the density is above zero and the cells not negative, both finite.
[[nodiscard]] Volume slurry_needed(Cells wanted, double billion_per_millilitre);

} // namespace barmkeep::brewing
