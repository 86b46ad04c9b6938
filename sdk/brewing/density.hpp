// Densities of water and of sucrose solutions, and what weighing in air makes of them.
//
// All densities here are true ones (in vacuo) at one standard atmosphere unless the name says
// apparent.  Wort is taken as a sucrose solution of the same degrees Plato, as the scale intends;
// dissolved malt expands a little differently, by less than brewers' instruments resolve.
//
// Sources (docs/science.md): EX3 for water, EX4 for sucrose solutions.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/plato.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// The density of air that the apparent scale is made with: ordinary air at 20 C.
inline constexpr Density air_density{1.2, kilogram_per_cubic_metre};

/// The temperature both scales, gravity and degrees Plato, refer to.
inline constexpr Temperature reference_temperature = Temperature::celsius(20.0);

/// The strongest and hottest solution the sucrose polynomial was made for.
inline constexpr double highest_sucrose_plato = 70.0;
inline constexpr double highest_sucrose_celsius = 80.0;

/// Density of pure water, 998.203 kg/m3 at 20 C (EX3, on the scale ITS-90).
/// @throws OutOfRange outside 0 to 100 C.
[[nodiscard]] Density water_density(Temperature temperature);

/// Density of a sucrose solution (EX4).
/// @throws OutOfRange outside 0 to 70 P or 0 to 80 C.
[[nodiscard]] Density sucrose_density(Plato plato, Temperature temperature);

/// Degrees Plato of the sucrose solution of a density at a temperature: the inverse of
/// sucrose_density().
/// @throws OutOfRange as sucrose_density(), and for a density lighter than water by more than
///         0.3 P, half a division of a hydrometer, would explain.  Within that it may be negative.
[[nodiscard]] Plato plato_of_density(Density density, Temperature temperature);

/// How many times its volume at 20 C a wort fills at another temperature.
/// @throws OutOfRange as sucrose_density().
[[nodiscard]] double volume_ratio_to_20(Plato plato, Temperature temperature);

/// The true density at 20 C of a liquid of an apparent specific gravity 20/20: weighed in air,
/// both the liquid and the water lose the weight of the air they displace.
/// @throws OutOfRange for a gravity outside 0.98 to 1.6.
[[nodiscard]] Density density_of(Gravity gravity);

/// The true density of a wort at another temperature: that at 20 C, changed as sucrose solution of
/// the same degrees Plato (general fit) changes.
/// @throws OutOfRange for a gravity outside the general fit, or a temperature outside 0 to 80 C.
[[nodiscard]] Density density_of(Gravity gravity, Temperature temperature);

/// The inverse of density_of(), for a true density at 20 C.
[[nodiscard]] Gravity apparent_gravity(Density density_at_20);

} // namespace barmkeep::brewing
