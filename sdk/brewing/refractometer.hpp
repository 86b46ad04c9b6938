// What a refractometer means in wort.
//
// The instrument measures the refractive index and prints the sucrose solution that has it, in
// degrees Brix.  Two corrections: its temperature, unless it corrects itself, and the factor
// between its scale and degrees Plato, because wort is not sucrose.  The factor belongs to the
// instrument and the wort: measure it against a hydrometer.
//
// Only for unfermented wort: alcohol bends light too.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// Degrees Brix over degrees Plato in ordinary wort: common practice, no source; 1.00 to 1.06 are
/// met with.
inline constexpr double usual_wort_factor = 1.04;

/// Degrees Brix (of a sucrose solution) from the refractive index at 20 C in sodium light: the
/// quintic published with the scale (EX6).
/// @throws OutOfRange outside 1.3330 to 1.4200, 0 to 50 Brix.
[[nodiscard]] double brix_of_refractive_index(double index);

/// What to add to a reading without automatic correction, in degrees Brix: linear between the
/// entries of the international table (EX5), zero at 20 C.
/// @throws OutOfRange outside 5 to 20 C and 10 to 30 Brix, or 10 to 20 C and 30 to 75 Brix: what
///         of the table could be read.  Below 10 Brix its first column, that of 10, is used
///         (at 5 Brix it is within 0.07); above 20 C let the drop cool, it takes a minute.
[[nodiscard]] double refractometer_temperature_correction(double brix, Temperature temperature);

/// Degrees Plato of wort from a reading already corrected to 20 C.
/// @throws OutOfRange for a reading outside 0 to 40 Brix or a factor outside 0.98 to 1.10.
[[nodiscard]] Plato plato_of_refractometer(double brix, double wort_factor = usual_wort_factor);

/// The factor of this instrument and wort, from both instruments in one sample.
/// @throws OutOfRange below 5 Brix or 5 P, where a tenth of a degree would spoil it, and where the
///         quotient is not between 0.98 and 1.10.
[[nodiscard]] double measured_wort_factor(double brix, Plato by_hydrometer);

} // namespace barmkeep::brewing
