// The printers of units.hpp.
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr int significant_digits = 4;

/// `decimals` digits after the point, then zeros at the end dropped down to `fewest`.
std::string fixed_text(double value, int decimals, int fewest = 0) {
    std::string text(400, '\0');
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::fixed, decimals)
                         .ptr;
    text.resize(static_cast<std::size_t>(end - text.data()));
    const std::size_t point = text.find('.');
    if (point == std::string::npos)
        return text == "-0" ? "0" : text;
    std::size_t kept = text.size();
    while (kept > point + 1 + static_cast<std::size_t>(fewest) && text[kept - 1] == '0')
        --kept;
    text.resize(kept == point + 1 ? point : kept);
    return text == "-0" ? "0" : text;
}

/// Four significant digits, more only if the whole part has more.
std::string number_text(double value) {
    if (value == 0.0)
        return "0";
    if (!std::isfinite(value))
        return fixed_text(value, 0);
    const int whole_digits = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
    return fixed_text(value, std::clamp(significant_digits - whole_digits, 0, 30));
}

template <class Dimension>
std::string with_unit(Quantity<Dimension> quantity, const Unit<Dimension>& unit) {
    return number_text(quantity.in(unit)) + " " + std::string{unit.symbol};
}

/// The first unit, of those from large to small, that the quantity holds at least once; else the
/// last.
template <class Dimension, class... Smaller>
std::string in_largest(Quantity<Dimension> quantity, const Unit<Dimension>& unit,
                       const Smaller&... smaller) {
    if constexpr (sizeof...(smaller) == 0) {
        return with_unit(quantity, unit);
    } else {
        if (quantity.canonical() == 0.0 || std::abs(quantity.in(unit)) >= 1.0)
            return with_unit(quantity, unit);
        return in_largest(quantity, smaller...);
    }
}

constexpr Unit<VolumeDimension> microlitre{"µL", 1e-6};
constexpr Unit<VolumeDimension> teaspoon{"tsp", 3.785411784 / 768};
constexpr Unit<VolumeDimension> imperial_gallon{"imp gal", 4.54609};
constexpr Unit<VolumeDimension> imperial_pint{"imp pt", 4.54609 / 8};
constexpr Unit<VolumeDimension> imperial_fluid_ounce{"imp fl oz", 4.54609 / 160};
constexpr Unit<LengthDimension> millimetre{"mm", 0.001};
constexpr Unit<EnergyDimension> megajoule{"MJ", 1000.0};
constexpr Unit<EnergyDimension> british_thermal_unit{"BTU", 1.05505585262};
constexpr Unit<CellsDimension> single_cells{"cells", 1e-9};

} // namespace

std::string print(Mass mass, System system) {
    if (system == System::metric)
        return in_largest(mass, kilogram, gram, milligram);
    return in_largest(mass, pound, ounce);
}

std::string print(Volume volume, System system) {
    switch (system) {
    case System::us:
        return in_largest(volume, us_gallon, us_quart, us_fluid_ounce, teaspoon);
    case System::imperial:
        return in_largest(volume, imperial_gallon, imperial_pint, imperial_fluid_ounce);
    case System::metric:
        break;
    }
    return in_largest(volume, litre, millilitre, microlitre);
}

std::string print(Temperature temperature, System system) {
    return system == System::us ? fixed_text(temperature.fahrenheit(), 2) + " °F"
                                : fixed_text(temperature.celsius(), 2) + " °C";
}

std::string print(TemperatureDifference difference, System system) {
    return system == System::us ? fixed_text(difference.in(fahrenheit_degree), 2) + " °F"
                                : fixed_text(difference.in(kelvin), 2) + " K";
}

std::string print(GaugePressure pressure, System system) {
    return system == System::metric ? with_unit(pressure, kilopascal_gauge)
                                    : with_unit(pressure, psi_gauge);
}

std::string print(AbsolutePressure pressure, System system) {
    return system == System::metric ? with_unit(pressure, kilopascal)
                                    : with_unit(pressure, psi_absolute);
}

std::string print(Length length, System system) {
    return system == System::metric ? in_largest(length, metre, millimetre)
                                    : in_largest(length, foot, inch);
}

std::string print(Energy energy, System system) {
    return system == System::metric ? in_largest(energy, megajoule, kilojoule)
                                    : with_unit(energy, british_thermal_unit);
}

std::string print(Gravity gravity) {
    return fixed_text(gravity.sg(), 4, 3);
}

std::string print(Plato plato) {
    return fixed_text(plato.degrees(), 2) + " °P";
}

std::string print(Cells cells) {
    return in_largest(cells, billion_cells, million_cells, single_cells);
}

} // namespace barmkeep::brewing
