// Growth in still starters, from the series of White and Zainasheff.
//
// They put 100 billion cells into 0.5 to 20 L of 9 P wort and counted what came out, and read the
// result by inoculation rate: the same rate gives the same growth factor whatever the size.  Here
// the factor is a straight line over the logarithm of the rate between their rows.
//
// Rows at 0.8, 1.5, 8 and 20 L are from memory and not confirmed; the one at 8 L is doubtful.  So
// everything below 25 million a millilitre rests on memory.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <span>

namespace barmkeep::brewing {

/// A row of the series: 100 billion cells in so much wort of 9 P.
struct StillRow {
    double million_per_millilitre; ///< inoculation rate
    double factor;                 ///< cells after over cells before
    bool from_memory;
};

/// The rows from the lowest inoculation rate to the highest.
[[nodiscard]] std::span<const StillRow> still_rows() noexcept;

inline constexpr double lowest_still_rate = 5.0;
inline constexpr double highest_still_rate = 200.0;
/// At and above this rate the neighbouring rows are read at their source (125 and 66.7 apart).
inline constexpr double lowest_confirmed_still_rate = 25.0;

/// The worts the series is used for; it was made at 9 P and nothing shows it elsewhere.  The width
/// of the range is ours.
inline constexpr double weakest_still_plato = 7.0;
inline constexpr double strongest_still_plato = 11.0;

/// Cells after over cells before, at an inoculation rate in million cells a millilitre.
/// Falls as the rate grows: 6.0 at 5, 1.52 at 100, 1.12 at 200.
/// Throws OutOfRange outside 5 to 200 and for NaN.
[[nodiscard]] double still_growth_factor(double million_per_millilitre);

/// The inverse: the inoculation rate at which cells grow by `factor`.
/// Throws OutOfRange outside the factors of the series, 1.12 to 6.0.
[[nodiscard]] double still_rate_for_factor(double factor);

} // namespace barmkeep::brewing
