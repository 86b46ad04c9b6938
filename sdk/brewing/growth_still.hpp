// Growth in unstirred starters, from a published series (WZ1, WZ2).
//
// Its authors put 100 billion cells into 0.5 to 4 L of 9 P wort and counted what came out, and read
// the result by inoculation rate: the same rate gives the same growth factor whatever the size.
// Here the factor is a straight line over the logarithm of the rate between their rows.
//
// The series goes on to thinner starts, but those rows could not be read at any source.  So it ends
// at 25 million a millilitre here.
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
};

/// The rows from the lowest inoculation rate to the highest.
[[nodiscard]] std::span<const StillRow> still_rows() noexcept;

inline constexpr double lowest_still_rate = 25.0;
inline constexpr double highest_still_rate = 200.0;

/// The wort of the series.
inline constexpr double still_series_plato = 9.0;
/// The worts it is used for, with a wider range the farther they are from its own; the width is
/// ours.
inline constexpr double weakest_still_plato = 7.0;
inline constexpr double strongest_still_plato = 11.0;

/// Cells after over cells before, at an inoculation rate in million cells a millilitre.
/// Falls as the rate grows: 2.76 at 25, 1.52 at 100, 1.12 at 200.
/// Throws OutOfRange outside 25 to 200 and for NaN.
[[nodiscard]] double still_growth_factor(double million_per_millilitre);

/// The inverse: the inoculation rate at which cells grow by `factor`.
/// Throws OutOfRange outside the factors of the series, 1.12 to 2.76.
[[nodiscard]] double still_rate_for_factor(double factor);

} // namespace barmkeep::brewing
