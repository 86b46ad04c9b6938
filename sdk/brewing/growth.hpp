// Growth in starters across the sources: a low, a likely and a high figure.
//
// Let N be the cells at the start, E the extract of the wort in grams, and T(N, E) new cells by
// Troester's rule (growth_stirred.hpp), W(N, V) new cells by the still series (growth_still.hpp).
//
//              low               likely      high
//   stirred    T x 0.72 / 1.4    T           T x 1.5 / 1.4
//   still      W / 1.46          W           the larger of W x 1.46 and T x 1.04 / 1.4
//
// All yields a gram that were published share one weakness, that they do not know when too many
// cells share too little extract; so they are laid over the shape of Troester's rule.  0.72 is the
// least published (WOO4, active culture), 1.04 the most of the same author's strains, 1.5 the
// most of all (DEC).  1.46 is the root of 2.12, the ratio of what two strains gave in equal
// starters (SHA: 282 and 133 million a millilitre).  The coefficients of T and parts of W are from
// memory.
//
// One's own counts outrank all of this (personal.hpp).
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

enum class Aeration {
    still,   ///< left alone, or shaken now and then
    stirred, ///< on a stir plate
};

/// The worts a stirred starter is answered for: the rule was measured at 8.8 to 10.6 P and speaks
/// of extract, not of strength; the width is ours.
inline constexpr double weakest_stirred_plato = 4.0;
inline constexpr double strongest_stirred_plato = 13.0;

/// How far single strains lie from a source that used another one, each way; see above.
inline constexpr double strain_spread = 1.46;

/// New cells from `initial` living cells in `wort`.
///
/// Grows with the volume of the wort.  Throws OutOfRange, naming the valid range, for
///   still    an inoculation below 5 or above 200 million a millilitre, or wort outside 7 to 11 P;
///   stirred  a start below 0.009 billion a gram of extract, or wort outside 4 to 13 P;
///   both     cells or volume not above zero and finite.
[[nodiscard]] Estimate<Cells> new_cells(Cells initial, const Wort& wort, Aeration aeration);

/// Cells at the end: `initial` and the new ones.  Throws as new_cells().
[[nodiscard]] Estimate<Cells> cells_after(Cells initial, const Wort& wort, Aeration aeration);

/// The same from a start known only as a range: the spread of the start is added to that of the
/// growth.  The growth is that of the likely start, for new cells depend on the extract far more
/// than on the start.  `sources` are those of the growth.  Throws as new_cells(), and unless
/// low <= likely <= high.
[[nodiscard]] Estimate<Cells> cells_after(const Estimate<Cells>& initial, const Wort& wort,
                                          Aeration aeration);

/// Wort of `gravity` that a starter needs to reach `target` cells, the inverse of cells_after():
/// `likely` is the volume at which the likely figure reaches the target, `low` the volume that is
/// enough if growth is high, `high` the one that is enough even if growth is low.
///
/// The smallest still starter the series covers is 200 million a millilitre and grows 1.12-fold;
/// where less growth is wanted, the volume is that of this one.
/// Throws OutOfRange as new_cells(); if `target` is not above `initial`; and if one step cannot be
/// relied on to do it: if low growth would need more than largest_covered_factor() allows
/// (plan_starter() in starter_plan.hpp finds several steps).
[[nodiscard]] Estimate<Volume> starter_volume_needed(Cells initial, Cells target, Gravity gravity,
                                                     Aeration aeration);

/// The volume of starter_volume_needed() for the likely figure alone; so it answers where only the
/// bad case is out of reach.
[[nodiscard]] Volume likely_starter_volume(Cells initial, Cells target, Gravity gravity,
                                           Aeration aeration);

/// The largest factor by which cells may grow in one step and still be within the sources:
/// 6 for still starters, whatever the wort; 156 for stirred ones.
[[nodiscard]] double largest_covered_factor(Aeration aeration) noexcept;

} // namespace barmkeep::brewing
