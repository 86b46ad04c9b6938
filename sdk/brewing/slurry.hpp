// How many cells a settled slurry holds.
//
// Formula: cells = volume x cells a millilitre.  The density of a slurry depends on how far it has
// settled, on trub and on the strain, so it is known to a factor of seven unless the settled solids
// are looked at, and still only to a factor of 1.5 then.  A count outranks both.
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
/// A quart jar holds 0.3 to 2 trillion, one trillion "a fair guess" (WOO2): 0.32, 1.06 and
/// 2.11 billion a millilitre.  Throws OutOfRange for a volume negative or not finite.
[[nodiscard]] Estimate<Cells> cells_in_slurry(Volume slurry);

/// The least and the largest share of solids the figure below is used for.
inline constexpr double thinnest_slurry = 0.05;
inline constexpr double thickest_slurry = 0.80;

/// Cells in slurry whose settled solids fill `solids_share` of it, seen after a night in the cold.
///
/// 1.2 billion a millilitre at 40 to 60 % solids (Wyeast, from memory, not confirmed), so a
/// millilitre of solids holds 2.0 to 3.0 billion, 2.4 at the middle; proportion is assumed.
/// Throws OutOfRange for a share outside [0.05, 0.80], where proportion was never shown, and for a
/// volume negative or not finite.
[[nodiscard]] Estimate<Cells> cells_in_slurry(Volume slurry, double solids_share);

/// Volume of slurry that holds `wanted` cells at `billion_per_millilitre`.
/// Throws OutOfRange unless the density is above zero and the cells not negative, both finite.
[[nodiscard]] Volume slurry_needed(Cells wanted, double billion_per_millilitre);

} // namespace barmkeep::brewing
