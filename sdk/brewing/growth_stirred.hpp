// Growth in stirred starters: new cells per gram of extract in the wort at the start.
//
//     new cells = yield x grams of extract
//
// Published yields (rows of tests/published/data/yeast/growth_other.csv, all read at their source
// or second hand, none from memory):
//
//     0.72 billion a gram   GR06, one dry strain from an active culture: the low figure
//     1.0                   GR15, the lower of its figures: the likely one
//     1.5                   GR15, the upper of its figures: the high one
//
// A yield per gram consumed is another figure and takes no part.  What fermentation can give is
// bounded by 0.9 to 2.0 billion a gram of sugar (GR36); the likely and the high figure lie inside.
//
// A yield does not know when too many cells share too little extract.  So a start whose likely end
// would be denser than any counted starter is marked: is_dense_start().
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// Billion new cells a gram of extract at the start.
inline constexpr Estimate<double> stirred_yield{0.72, 1.0, 1.5, "GR06 GR15 GR36"};

/// The thinnest start, in billion cells a gram of extract: 1 million a millilitre in wort of 10 P,
/// where the widest experiment began (GR02).
inline constexpr double thinnest_stirred_start = 0.009;

/// Million cells a millilitre at the end of the densest stirred starter that was counted (GR13).
inline constexpr double densest_stirred_end = 282.11;

/// New cells from `initial` cells in wort with `extract`.
/// Throws OutOfRange below 0.009 billion a gram, for extract not above zero, and for anything not
/// finite.
[[nodiscard]] Estimate<Cells> stirred_new_cells(Cells initial, Mass extract);

/// The inverse: the extract in which `wanted` new cells grow, at `yield` billion a gram.
/// Throws OutOfRange if either number of cells is not above zero and finite, or if so much growth
/// is wanted in one step that the start falls below 0.009 billion a gram.
[[nodiscard]] Mass stirred_extract_needed(Cells initial, Cells wanted,
                                          double yield = stirred_yield.likely);

/// The least wort of `gravity` in which the start is not dense.
/// Throws OutOfRange for a gravity the fits do not hold for.
[[nodiscard]] Volume least_stirred_volume(Cells initial, Gravity gravity);

/// Whether the start is so dense that fewer cells grow than the yield says: by the likely figure it
/// would end denser than densest_stirred_end.
[[nodiscard]] bool is_dense_start(Cells initial, const Wort& wort);

} // namespace barmkeep::brewing
