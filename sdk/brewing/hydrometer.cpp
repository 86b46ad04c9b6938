#include "sdk/brewing/hydrometer.hpp"

#include "sdk/brewing/density.hpp"
#include "sdk/brewing/errors.hpp"

#include <algorithm>

namespace barmkeep::brewing {
namespace {

constexpr double air = air_density.in(kilogram_per_cubic_metre);

void require_calibration(Temperature calibration) {
    require_within("calibration temperature of the hydrometer", calibration.celsius(), 0.0, 40.0,
                   "°C", "it is printed on the scale: 20 °C, 60 °F or 15 °C");
}

/// How many times its displaced volume at the calibration temperature the glass displaces.
double glass_growth(Temperature sample, Temperature calibration) {
    return 1.0 + hydrometer_glass_expansion * (sample - calibration).in(kelvin);
}

/// Density of the liquid in which the instrument reads `reading` at its own temperature.
double density_of_reading(double reading, Temperature calibration) {
    const double water = water_density(calibration).in(kilogram_per_cubic_metre);
    return reading * (water - air) + air;
}

double reading_of_density(double density, Temperature calibration) {
    const double water = water_density(calibration).in(kilogram_per_cubic_metre);
    return (density - air) / (water - air);
}

/// The polynomial also for the sliver below 0 P that plato_of_density() admits: there the wort
/// counts as water and the difference is carried along in proportion.
double density_at(Plato plato, Temperature temperature) {
    const Plato within = std::max(plato, Plato::degrees(0.0));
    const double density = sucrose_density(within, temperature).in(kilogram_per_cubic_metre);
    constexpr double per_degree = 3.85; // kg/m3 for 1 P near water, the first coefficient of EX4
    return density + (plato.degrees() - within.degrees()) * per_degree;
}

} // namespace

HydrometerCorrection correct_hydrometer(double reading, Temperature sample,
                                        Temperature calibration) {
    require_calibration(calibration);
    require_within("hydrometer reading", reading, 0.9, 1.4, "", "give the reading as 1.046");
    // The instrument weighs as much as the liquid it displaces, less the air it would otherwise.
    const double density =
        (density_of_reading(reading, calibration) - air) / glass_growth(sample, calibration) + air;
    const Plato plato = plato_of_density(density * kilogram_per_cubic_metre, sample);
    const double at_calibration = reading_of_density(density_at(plato, calibration), calibration);
    const Gravity gravity =
        apparent_gravity(density_at(plato, reference_temperature) * kilogram_per_cubic_metre);
    return {at_calibration, at_calibration - reading, gravity, plato};
}

double hydrometer_reading(Gravity gravity, Temperature sample, Temperature calibration) {
    require_calibration(calibration);
    const Plato plato = plato_of_density(density_of(gravity), reference_temperature);
    const double weight_in_air =
        (density_at(plato, sample) - air) * glass_growth(sample, calibration);
    return reading_of_density(weight_in_air + air, calibration);
}

} // namespace barmkeep::brewing
