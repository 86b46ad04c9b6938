#include "sdk/brewing/atmosphere.hpp"

#include "sdk/brewing/errors.hpp"

#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr double earth_radius = 6356766.0;       // m
constexpr double sea_level_temperature = 288.15; // K
constexpr double lapse = 0.0065;                 // K/m, falling
constexpr double gravity = 9.80665;              // m/s2
constexpr double molar_mass = 28.9644;           // kg/kmol
constexpr double gas_constant = 8314.32;         // J/(kmol K), the standard's own
constexpr double exponent = gravity * molar_mass / (gas_constant * lapse);

void require_altitude(Length altitude) {
    require_within("altitude", altitude.in(metre), lowest_altitude.in(metre),
                   highest_altitude.in(metre), "m", "give metres or feet above sea level");
}

/// The standard's formula, unchecked.
AbsolutePressure pressure_at(double geopotential_metres) {
    const double warmth = 1.0 - lapse * geopotential_metres / sea_level_temperature;
    return std::pow(warmth, exponent) * sea_level_pressure;
}

double geopotential_metres(Length geometric) {
    return earth_radius * geometric.in(metre) / (earth_radius + geometric.in(metre));
}

} // namespace

Length geopotential_altitude(Length geometric) {
    require_altitude(geometric);
    return geopotential_metres(geometric) * metre;
}

AbsolutePressure standard_pressure(Length geometric) {
    require_altitude(geometric);
    return pressure_at(geopotential_metres(geometric));
}

AbsolutePressure standard_pressure_at_geopotential(Length geopotential) {
    require_altitude(geopotential);
    return pressure_at(geopotential.in(metre));
}

Length altitude_of(AbsolutePressure pressure) {
    const double lowest = standard_pressure(highest_altitude).in(kilopascal);
    const double highest = standard_pressure(lowest_altitude).in(kilopascal);
    require_within("pressure of the air", pressure.in(kilopascal), lowest, highest, "kPa",
                   "give the station pressure");
    const double warmth = std::pow(pressure / sea_level_pressure, 1.0 / exponent);
    const double geopotential = (1.0 - warmth) * sea_level_temperature / lapse;
    return earth_radius * geopotential / (earth_radius - geopotential) * metre;
}

} // namespace barmkeep::brewing
