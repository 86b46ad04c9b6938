// What a hydrometer means when the sample is not at the temperature it was made for.
//
// The instrument floats where the liquid it displaces weighs as much as it does.  A warm wort is
// lighter, and the glass is a little larger; both are accounted for: the density of the sample as
// it was follows from the reading, the degrees Plato of a sucrose solution of that density at that
// temperature from the polynomial of EX4, and the gravity at 20 C from those.
//
// Range: samples of 0 to 80 C, results of 1.000 (less 0.0012) to 70 P.  Beer is refused: alcohol
// makes it expand otherwise, and lighter than water.  A warm sample also evaporates and a hot one
// streams; cooling it is always better than correcting.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// Cubic expansion of hydrometer glass, 1/K: the usual figure for soda-lime glass.
inline constexpr double hydrometer_glass_expansion = 25e-6;

struct HydrometerCorrection {
    double reading_at_calibration; ///< what it would read at its own temperature
    double added;                  ///< that, less the reading
    Gravity gravity;               ///< the same wort on the scale 20/20
    Plato plato;                   ///< by the sucrose polynomial; within 0.02 of the fits
};

/// @param reading     the scale at the surface, as 1.046
/// @param sample      temperature of the sample while read
/// @param calibration temperature printed on the instrument, at which water reads 1.000
/// @throws OutOfRange for a sample outside 0 to 80 C, a calibration outside 0 to 40 C, or a
///         reading no wort at that temperature gives.
[[nodiscard]] HydrometerCorrection correct_hydrometer(double reading, Temperature sample,
                                                      Temperature calibration);

/// What a hydrometer reads in a wort of a known gravity: the way back.
[[nodiscard]] double hydrometer_reading(Gravity gravity, Temperature sample,
                                        Temperature calibration);

} // namespace barmkeep::brewing
