#include "sdk/brewing/steam.hpp"

#include "sdk/brewing/errors.hpp"

#include <array>
#include <cmath>

namespace barmkeep::brewing {
namespace {

/// n1 to n10 of table 34.
constexpr std::array<double, 10> n{0.11670521452767e4,  -0.72421316703206e6, -0.17073846940092e2,
                                   0.12020824702470e5,  -0.32325550322333e7, 0.14915108613530e2,
                                   -0.48232657361591e4, 0.40511340542057e6,  -0.23855557567849,
                                   0.65017534844798e3};

constexpr double lowest_pressure = 0.6112126; // kPa; at 0 C, where the release prints 0.611213

} // namespace

AbsolutePressure saturation_pressure(Temperature temperature) {
    require_within("temperature of saturated steam", temperature.kelvin_scale(), 273.15, 647.096,
                   "K", "water and steam exist together only in this range");
    const double t = temperature.kelvin_scale();
    const double theta = t + n[8] / (t - n[9]);
    const double a = theta * theta + n[0] * theta + n[1];
    const double b = n[2] * theta * theta + n[3] * theta + n[4];
    const double c = n[5] * theta * theta + n[6] * theta + n[7];
    const double root = 2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c));
    return std::pow(root, 4) * 1000.0 * kilopascal;
}

Temperature saturation_temperature(AbsolutePressure pressure) {
    require_within("pressure of saturated steam", pressure.in(kilopascal), lowest_pressure, 22064.0,
                   "kPa", "give the absolute pressure: that of the gauge plus that of the air");
    const double beta = std::pow(pressure.in(kilopascal) / 1000.0, 0.25);
    const double e = beta * beta + n[2] * beta + n[5];
    const double f = n[0] * beta * beta + n[3] * beta + n[6];
    const double g = n[1] * beta * beta + n[4] * beta + n[7];
    const double d = 2.0 * g / (-f - std::sqrt(f * f - 4.0 * e * g));
    const double sum = n[9] + d;
    return Temperature::kelvin_scale((sum - std::sqrt(sum * sum - 4.0 * (n[8] + n[9] * d))) / 2.0);
}

} // namespace barmkeep::brewing
