// Saturated steam: which pressure belongs to which temperature.
//
// Region 4 of the industrial formulation of 1997 (S67, section 8): one quadratic in both variables,
// solved for either, so the two functions are exact inverses.  The release gives 0.0033 % as the
// largest departure of its pressures from the scientific standard.
//
// This computes what steam does.  It says nothing about what a jar's contents have been through:
// docs/safety.md.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// Pressure of saturated steam.
/// @throws OutOfRange outside 273.15 to 647.096 K (0 to 373.946 C), the critical point.
[[nodiscard]] AbsolutePressure saturation_pressure(Temperature temperature);

/// Temperature at which water boils, and steam condenses, under a pressure.
/// @throws OutOfRange outside 0.611213 to 22064 kPa.
[[nodiscard]] Temperature saturation_temperature(AbsolutePressure pressure);

} // namespace barmkeep::brewing
