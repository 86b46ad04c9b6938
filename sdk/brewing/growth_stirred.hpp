// Growth in stirred starters, by Troester's piecewise rule.
//
// With r = cells at the start over grams of extract, in billion a gram, new cells a gram are
//
//     1.4               for r <= 1.4
//     2.33 - 0.67 r     for 1.4 < r, down to
//     0                 from r = 3.48 on, where the line meets zero
//
// Source: Troester (KAI1, KAI2).  The coefficients here are FROM MEMORY: the page that states them
// could not be read, only the set-up of the experiment (one strain, 230 mL of wort of about 10 P,
// foil, 1 to 270 million a millilitre, so r from 0.01 to 2.6).
// At r = 1.4 the two printed pieces miss each other by 0.008; it is left as it is.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

inline constexpr double stirred_full_growth = 1.4; ///< billion new cells a gram of extract
inline constexpr double stirred_full_until = 1.4;  ///< billion cells a gram at the start
inline constexpr double stirred_line_start = 2.33;
inline constexpr double stirred_line_slope = 0.67;
inline constexpr double lowest_stirred_ratio = 0.009; ///< 1 million a millilitre in 10 P wort
inline constexpr double measured_stirred_ratio = 2.6; ///< 270 million a millilitre in 10 P wort

/// New cells a gram of extract, in billion, by the rule alone and without a check of the range.
[[nodiscard]] constexpr double stirred_growth_per_gram(double billion_per_gram) noexcept {
    if (billion_per_gram <= stirred_full_until)
        return stirred_full_growth;
    const double line = stirred_line_start - stirred_line_slope * billion_per_gram;
    return line > 0.0 ? line : 0.0;
}

/// New cells from `initial` cells in wort with `extract`.
/// Above 2.6 billion a gram nothing was measured, and the rule is followed down to no growth.
/// Throws OutOfRange below 0.009 billion a gram, where it was never tried, for extract not above
/// zero, and for anything not finite.
[[nodiscard]] Cells stirred_new_cells(Cells initial, Mass extract);

/// The inverse: the least extract in which `initial` cells bring forth `wanted` new ones.
/// Throws OutOfRange if either is not above zero and finite, or if so much growth is wanted in one
/// step that the start falls below 0.009 billion a gram.
[[nodiscard]] Mass stirred_extract_needed(Cells initial, Cells wanted);

} // namespace barmkeep::brewing
