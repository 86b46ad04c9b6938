// Growth in starters: a low, a likely and a high figure.
//
// Let N be the cells at the start, E the extract of the wort in grams, V its volume and P its
// strength in degrees Plato; W(N, V) new cells by the published series (growth_still.hpp), and
// d = P/9 or 9/P, whichever is larger.
//
//                low              likely     high
//   stirred      0.72 E           1.0 E      1.5 E           billion; growth_stirred.hpp
//   unstirred    W / (1.46 d)     W          W x 1.46 d
//
// 1.46 is the root of 2.12, the ratio of what two strains gave in equal starters (GR13, GR14).
// The series was made at 9 P, where d is 1.  In another wort growth may follow the extract or not;
// d is what the one differs from the other, so the range holds both.  That widening is ours.
//
// One's own counts outrank all of this (personal.hpp).
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

enum class Stirring {
    unstirred, ///< left alone, or shaken now and then
    stirred,   ///< on a stir plate
};

/// The worts a stirred starter is answered for: a yield speaks of extract, not of strength, but
/// falls in strong wort (GR26, GR33); the width is ours.
inline constexpr double weakest_stirred_plato = 4.0;
inline constexpr double strongest_stirred_plato = 13.0;

/// How far single strains lie from a source that used another one, each way; see above.
inline constexpr double strain_spread = 1.46;

/// New cells from `initial` living cells in `wort`.
///
/// Grows with the volume of the wort.  Throws OutOfRange, naming the valid range, for
///   unstirred  an inoculation below 25 or above 200 million a millilitre, or wort outside
///              7 to 11 P;
///   stirred    a start below 0.009 billion a gram of extract, or wort outside 4 to 13 P;
///   both       cells or volume not above zero and finite.
[[nodiscard]] Estimate<Cells> new_cells(Cells initial, const Wort& wort, Stirring stirring);

/// Cells at the end: `initial` and the new ones.  Throws as new_cells().
[[nodiscard]] Estimate<Cells> cells_after(Cells initial, const Wort& wort, Stirring stirring);

/// The same from a start known only as a range: the spread of the start is added to that of the
/// growth.  The growth is that of the likely start, because new cells depend on the extract far
/// more than on the start.  `sources` are those of the growth.  Throws as new_cells(), and unless
/// low <= likely <= high.
[[nodiscard]] Estimate<Cells> cells_after(const Estimate<Cells>& initial, const Wort& wort,
                                          Stirring stirring);

/// Wort of `gravity` that a starter needs to reach `target` cells, the inverse of cells_after():
/// `likely` is the volume at which the likely figure reaches the target, `low` the volume that is
/// enough if growth is high, `high` the one that is enough even if growth is low.
///
/// The smallest unstirred starter the series covers is 200 million a millilitre and grows
/// 1.12-fold; where less growth is wanted, the volume is that of this one.
/// Throws OutOfRange as new_cells(); if `target` is not above `initial`; and if one step cannot be
/// relied on to do it: if low growth would need more than largest_covered_factor() allows
/// (plan_starter() in starter_plan.hpp finds several steps).
[[nodiscard]] Estimate<Volume> starter_volume_needed(Cells initial, Cells target, Gravity gravity,
                                                     Stirring stirring);

/// The volume of starter_volume_needed() for the likely figure alone; so it answers where only the
/// bad case is out of reach.
[[nodiscard]] Volume likely_starter_volume(Cells initial, Cells target, Gravity gravity,
                                           Stirring stirring);

/// The largest factor by which cells may grow in one step and still be within the sources:
/// 2.76 for unstirred starters, whatever the wort; 112 for stirred ones.
[[nodiscard]] double largest_covered_factor(Stirring stirring) noexcept;

} // namespace barmkeep::brewing
