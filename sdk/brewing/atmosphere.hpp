// The pressure of the air by altitude: the lowest layer of the standard atmosphere (S69).
//
// Altitudes on maps are geometric: metres above the sea.  The standard's formula takes
// geopotential altitude, which counts the fall of gravity and is 1.5 m less at 3000 m;
// standard_pressure() converts, standard_pressure_at_geopotential() does not.
//
// Weather moves the air by 3 % either way and more in a storm (common practice, no source): where a
// barometer is at hand, its station pressure, not the one reduced to sea level, serves better.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

inline constexpr AbsolutePressure sea_level_pressure{101.325, kilopascal};

/// Lowest and highest altitude the functions take: below the shore of the Dead Sea, and the top of
/// the lowest layer.
inline constexpr Length lowest_altitude{-500.0, metre};
inline constexpr Length highest_altitude{11000.0, metre};

/// Geopotential altitude of a geometric one, by the standard's Earth radius of 6356.766 km.
[[nodiscard]] Length geopotential_altitude(Length geometric);

/// @param geometric altitude above the sea, as on a map
/// @throws OutOfRange outside lowest_altitude to highest_altitude.
[[nodiscard]] AbsolutePressure standard_pressure(Length geometric);

/// @param geopotential altitude as the standard's formula takes it
/// @throws OutOfRange outside lowest_altitude to highest_altitude.
[[nodiscard]] AbsolutePressure standard_pressure_at_geopotential(Length geopotential);

/// The geometric altitude at which the standard has a pressure: the inverse of standard_pressure().
/// @throws OutOfRange for a pressure the standard has only outside the altitudes above.
[[nodiscard]] Length altitude_of(AbsolutePressure pressure);

} // namespace barmkeep::brewing
