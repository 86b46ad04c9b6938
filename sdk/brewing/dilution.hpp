// Diluting, boiling down and blending wort by mass balance, with the shortcut of gravity points
// beside it and the shortcut's error shown.
//
// Extract is conserved exactly; volumes shrink a little when wort and water mix.  The shortcut
// multiplies volume by gravity points, as if volumes added: at common strengths it is off by 0.1
// to 0.4 of a point, and by more than half a per cent in the volume of water for concentrates.
//
// Volumes are those at 20 C.  Range: gravities of 1.000 to 1.17874.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/extract.hpp"

#include <span>

namespace barmkeep::brewing {

/// A change of volume at constant extract.
struct Dilution {
    Wort after;
    Mass water;          ///< added; negative where it has to boil off
    Volume water_volume; ///< of that water alone, at 20 C
    Volume contraction;  ///< volume before and water, less the volume after
};

/// Water to bring a wort to a volume.
/// @throws OutOfRange if the wort would leave the range of the fit.
[[nodiscard]] Dilution to_volume(const Wort& wort, Volume target);

/// Water to bring a wort to a gravity; the target must be above 1.000.
[[nodiscard]] Dilution to_gravity(const Wort& wort, Gravity target);

/// The wort that a given mass of water makes of it.
[[nodiscard]] Dilution add_water(const Wort& wort, Mass water);

/// Several worts in one vessel.  A part of gravity 1.000 is water.
/// @throws OutOfRange if there is nothing to blend.
[[nodiscard]] Wort blend(std::span<const Wort> parts);

/// What gravity points give for the gravity at a volume, and how far off that is.
struct PointsGravity {
    Gravity gravity;     ///< by the shortcut
    double error_points; ///< shortcut less mass balance, in gravity points
};
[[nodiscard]] PointsGravity points_at_volume(const Wort& wort, Volume target);

/// What gravity points give for the volume at a gravity, and how far off that is.
struct PointsVolume {
    Volume volume;  ///< by the shortcut
    Volume error;   ///< shortcut less mass balance
    Gravity really; ///< the gravity by mass balance at the shortcut's volume
};
[[nodiscard]] PointsVolume points_to_gravity(const Wort& wort, Gravity target);

} // namespace barmkeep::brewing
