#include "sdk/brewing/density.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::brewing {
namespace {

/// EX3; t in degrees Celsius.
constexpr double water_at(double t) noexcept {
    const double numerator =
        ((((-281.03006e-12 * t + 105.84601e-9) * t - 46.241757e-6) * t - 7.9905127e-3) * t +
         16.952577) *
            t +
        999.83952;
    return numerator / (1.0 + 16.887236e-3 * t);
}

constexpr double water_at_20 = water_at(20.0);

/// Coefficients in kg/m3; row i belongs to ((t - 20)/100)^i, column j to the mass fraction^(j+1).
constexpr std::array<std::array<double, 6>, 5> of_sucrose{{
    {385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289},
    {-46.272, -7.172, 1.1597, 5.1126, 17.5254, 0.0},
    {59.7712, 7.2491, 12.363, -35.4791, 0.0, 0.0},
    {-47.2207, -21.6977, 27.6301, 0.0, 0.0, 0.0},
    {18.3184, 12.3081, 0.0, 0.0, 0.0, 0.0},
}};

constexpr double sucrose_at(double fraction, double t) noexcept {
    const double warmth = (t - 20.0) / 100.0;
    double sum = 0.0;
    for (std::size_t row = of_sucrose.size(); row-- > 0;) {
        double in_fraction = 0.0;
        for (std::size_t column = of_sucrose[row].size(); column-- > 0;)
            in_fraction = (in_fraction + of_sucrose[row][column]) * fraction;
        sum = sum * warmth + in_fraction;
    }
    return water_at(t) + sum;
}

/// The derivative of sucrose_at() by the mass fraction.
constexpr double sucrose_slope(double fraction, double t) noexcept {
    const double warmth = (t - 20.0) / 100.0;
    double sum = 0.0;
    for (std::size_t row = of_sucrose.size(); row-- > 0;) {
        double in_fraction = 0.0;
        for (std::size_t column = of_sucrose[row].size(); column-- > 0;)
            in_fraction =
                in_fraction * fraction + static_cast<double>(column + 1) * of_sucrose[row][column];
        sum = sum * warmth + in_fraction;
    }
    return sum;
}

void require_sucrose_temperature(Temperature temperature) {
    require_within("temperature of the wort", temperature.celsius(), 0.0, highest_sucrose_celsius,
                   "°C", "let the sample cool and measure again");
}

constexpr double lightest_plato = -0.3;

} // namespace

Density water_density(Temperature temperature) {
    require_within("temperature of the water", temperature.celsius(), 0.0, 100.0, "°C",
                   "the density of liquid water is known between freezing and boiling");
    return water_at(temperature.celsius()) * kilogram_per_cubic_metre;
}

Density sucrose_density(Plato plato, Temperature temperature) {
    require_within("extract", plato.degrees(), 0.0, highest_sucrose_plato, "P",
                   "give grams of extract in 100 g of wort");
    require_sucrose_temperature(temperature);
    return sucrose_at(plato.mass_fraction(), temperature.celsius()) * kilogram_per_cubic_metre;
}

Plato plato_of_density(Density density, Temperature temperature) {
    require_sucrose_temperature(temperature);
    const double t = temperature.celsius();
    const double wanted = density.in(kilogram_per_cubic_metre);
    const double lightest = sucrose_at(lightest_plato / 100.0, t);
    const double heaviest = sucrose_at(highest_sucrose_plato / 100.0, t);
    require_within(
        "density", wanted, lightest, heaviest, "kg/m3",
        "a liquid lighter than water contains alcohol: its density does not give its extract");
    // Newton's method: density rises with the mass fraction and bends upward, so that the steps,
    // after the first, come down to the root from above; eight reach the end of the digits.
    double fraction = (wanted - water_at(t)) / of_sucrose[0][0];
    for (int step = 0; step < 8; ++step)
        fraction -= (sucrose_at(fraction, t) - wanted) / sucrose_slope(fraction, t);
    return Plato::of_mass_fraction(fraction);
}

double volume_ratio_to_20(Plato plato, Temperature temperature) {
    return sucrose_density(plato, reference_temperature) / sucrose_density(plato, temperature);
}

Density density_of(Gravity gravity) {
    require_within("apparent specific gravity", gravity.sg(), 0.98, 1.6, "",
                   "give a gravity such as 1.048");
    const double air = air_density.in(kilogram_per_cubic_metre);
    return (gravity.sg() * (water_at_20 - air) + air) * kilogram_per_cubic_metre;
}

Density density_of(Gravity gravity, Temperature temperature) {
    // Water itself lies a hair below 0 P on the fit.
    const Plato plato = std::max(plato_of(gravity), Plato::degrees(0.0));
    return density_of(gravity) / volume_ratio_to_20(plato, temperature);
}

Gravity apparent_gravity(Density density_at_20) {
    const double air = air_density.in(kilogram_per_cubic_metre);
    const Gravity gravity =
        Gravity::sg((density_at_20.in(kilogram_per_cubic_metre)-air) / (water_at_20 - air));
    require_within("apparent specific gravity", gravity.sg(), 0.98, 1.6, "",
                   "give the density of a wort in kg/m3, such as 1040");
    return gravity;
}

} // namespace barmkeep::brewing
