#include "sdk/brewing/refractometer.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr double lowest_factor = 0.98;
constexpr double highest_factor = 1.10;
constexpr double missing = 1.0; // no correction below 20 C is positive

/// Rows 5 to 17 C, columns 10, 15, ... 75 Brix.
constexpr std::array<std::array<double, 14>, 13> table{{
    {-.82, -.87, -.92, -.95, -.99, 1., 1., 1., 1., 1., 1., 1., 1., 1.},
    {-.80, -.82, -.87, -.90, -.94, 1., 1., 1., 1., 1., 1., 1., 1., 1.},
    {-.74, -.78, -.82, -.84, -.88, 1., 1., 1., 1., 1., 1., 1., 1., 1.},
    {-.69, -.73, -.76, -.79, -.82, 1., 1., 1., 1., 1., 1., 1., 1., 1.},
    {-.64, -.67, -.71, -.73, -.75, 1., 1., 1., 1., 1., 1., 1., 1., 1.},
    {-.59, -.62, -.65, -.67, -.69, -.71, -.72, -.73, -.74, -.75, -.75, -.75, -.75, -.75},
    {-.54, -.57, -.59, -.61, -.63, -.64, -.65, -.66, -.67, -.68, -.68, -.68, -.68, -.67},
    {-.49, -.51, -.53, -.55, -.56, -.57, -.58, -.59, -.60, -.60, -.61, -.61, -.60, -.60},
    {-.43, -.45, -.47, -.48, -.50, -.51, -.52, -.52, -.53, -.53, -.53, -.53, -.53, -.53},
    {-.38, -.39, -.40, -.42, -.43, -.44, -.44, -.45, -.45, -.46, -.46, -.46, -.46, -.45},
    {-.32, -.33, -.34, -.35, -.36, -.37, -.37, -.38, -.38, -.38, -.38, -.38, -.38, -.38},
    {-.26, -.27, -.28, -.28, -.29, -.30, -.30, -.30, -.31, -.31, -.31, -.31, -.31, -.30},
    {-.20, -.20, -.21, -.21, -.22, -.22, -.23, -.23, -.23, -.23, -.23, -.23, -.23, missing},
}};

/// A row of the table at a strength; row 13 is 20 C, where nothing is to correct.
double in_row(std::size_t row, double brix) {
    if (row >= table.size())
        return 0.0;
    const double place = std::clamp((brix - 10.0) / 5.0, 0.0, 13.0);
    const auto column = std::min<std::size_t>(static_cast<std::size_t>(place), 12);
    const double share = place - static_cast<double>(column);
    const double left = table[row][column];
    // The one entry that could not be read, 17 C at 75 Brix, takes its neighbour's value.
    const double right = table[row][column + 1] == missing ? left : table[row][column + 1];
    return share == 0.0 ? left : left + share * (right - left);
}

} // namespace

double brix_of_refractive_index(double index) {
    require_within("refractive index at 20 °C", index, 1.3329, 1.42, "",
                   "give the index in sodium light, such as 1.3478");
    const double n = index;
    return ((((11758.74 * n - 88885.21) * n + 270177.93) * n - 413145.80) * n + 318417.95) * n -
           99127.4536;
}

double refractometer_temperature_correction(double brix, Temperature temperature) {
    require_within("refractometer reading", brix, 0.0, 75.0, "Brix", "give the reading as 12.5");
    const double coldest = brix <= 30.0 ? 5.0 : 10.0;
    require_within("temperature of the refractometer", temperature.celsius(), coldest, 20.0, "°C",
                   "let the drop and the instrument come to 20 °C");
    const double t = temperature.celsius();
    const auto row = std::min<std::size_t>(static_cast<std::size_t>(t - 5.0), 12);
    const double row_celsius = 5.0 + static_cast<double>(row);
    const double next_celsius = row == 12 ? 20.0 : row_celsius + 1.0;
    const double share = (t - row_celsius) / (next_celsius - row_celsius);
    return (1.0 - share) * in_row(row, brix) + share * in_row(row + 1, brix);
}

Plato plato_of_refractometer(double brix, double wort_factor) {
    require_within("refractometer reading", brix, 0.0, 40.0, "Brix", "give the reading as 12.5");
    require_within("wort factor", wort_factor, lowest_factor, highest_factor, "",
                   "measure it with both instruments in one sample; 1.04 is usual");
    return Plato::degrees(brix / wort_factor);
}

double measured_wort_factor(double brix, Plato by_hydrometer) {
    constexpr const char* advice = "measure a wort of at least 5 P with both instruments";
    require_within("refractometer reading", brix, 5.0, 40.0, "Brix", advice);
    require_within("extract by hydrometer", by_hydrometer.degrees(), 5.0, 40.0, "P", advice);
    const double factor = brix / by_hydrometer.degrees();
    require_within("wort factor", factor, lowest_factor, highest_factor, "",
                   "one of the two readings is wrong: check both instruments in water");
    return factor;
}

} // namespace barmkeep::brewing
