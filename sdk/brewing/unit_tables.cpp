// The units Barmkeep reads, with their exact factors (EX7).
//
// Order matters only for hints and documents: the units people use most come first.
#include "sdk/brewing/units.hpp"

#include <stdexcept>

namespace barmkeep::brewing {
namespace {

constexpr bool yes = true;
constexpr bool no = false;

constexpr double gallon = 3.785411784;      // 231 cubic inches
constexpr double imperial_gallon = 4.54609; // Weights and Measures Act 1985
constexpr double psi = 6.894757293168361;   // lbf/in2: 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)2
constexpr double inch_of_mercury = 3.386388640341; // conventional: 13595.1 kg/m3 at 9.80665 m/s2
constexpr double millimetre_of_mercury = 0.133322387415;

constexpr UnitRow mass_rows[] = {
    {"g", {"gram", "grams", "gramme", "grammes", "gm"}, 1.0, yes, no, no},
    {"kg", {"kilo", "kilos", "kilogram", "kilograms", "kgs"}, 1000.0, yes, no, no},
    {"mg", {"milligram", "milligrams"}, 0.001, yes, no, no},
    {"oz", {"ounce", "ounces", "oz av", "ozs"}, 28.349523125, no, yes, yes},
    {"lb", {"lbs", "pound", "pounds", "#"}, 453.59237, no, yes, yes},
    {"st", {"stone", "stones"}, 6350.29318, no, no, yes},
    {"t", {"tonne", "tonnes"}, 1e6, yes, no, no},
};

constexpr UnitRow volume_rows[] = {
    {"L", {"l", "litre", "litres", "liter", "liters", "ltr"}, 1.0, yes, no, no},
    {"mL",
     {"ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc", "cm3"},
     0.001,
     yes,
     no,
     no},
    {"µL", {"uL", "microlitre", "microlitres", "microliter", "microliters"}, 1e-6, yes, no, no},
    {"hL", {"hectolitre", "hectolitres", "hectoliter", "hectoliters"}, 100.0, yes, no, no},
    {"gal", {"gallon", "gallons", "US gal", "US gallon", "US gallons"}, gallon, no, yes, no},
    {"qt", {"quart", "quarts", "US qt", "US quart", "US quarts"}, gallon / 4, no, yes, no},
    {"pt", {"pint", "pints", "US pt", "US pint", "US pints"}, gallon / 8, no, yes, no},
    {"cup", {"cups", "US cup", "US cups"}, gallon / 16, no, yes, no},
    {"fl oz",
     {"oz", "ounce", "ounces", "fluid ounce", "fluid ounces", "floz", "US fl oz"},
     gallon / 128,
     no,
     yes,
     no},
    {"tbsp",
     {"T", "tablespoon", "tablespoons", "tbs", "tbsps", "tblsp"},
     gallon / 256,
     no,
     yes,
     no},
    {"tsp", {"t", "teaspoon", "teaspoons", "tsps"}, gallon / 768, no, yes, no},
    {"fl dr", {"fluid dram", "fluid drams"}, gallon / 1024, no, yes, no},
    {"bbl", {"barrel", "barrels", "beer barrel", "US bbl", "bbls"}, gallon * 31, no, yes, no},
    {"half barrel", {"half barrels", "half-barrel keg"}, gallon * 15.5, no, yes, no},
    {"imp gal",
     {"imperial gallon", "imperial gallons", "UK gal", "UK gallon", "UK gallons", "imp gallons"},
     imperial_gallon,
     no,
     no,
     yes},
    {"imp qt",
     {"imperial quart", "imperial quarts", "UK qt", "UK quart", "UK quarts"},
     imperial_gallon / 4,
     no,
     no,
     yes},
    {"imp pt",
     {"imperial pint", "imperial pints", "UK pt", "UK pint", "UK pints", "imp pints"},
     imperial_gallon / 8,
     no,
     no,
     yes},
    {"imp fl oz",
     {"imp oz", "imperial fluid ounce", "imperial fluid ounces", "UK fl oz", "imperial ounces"},
     imperial_gallon / 160,
     no,
     no,
     yes},
    {"firkin", {"firkins"}, imperial_gallon * 9, no, no, yes},
    {"imp bbl",
     {"UK bbl", "imperial barrel", "imperial barrels", "UK barrel", "UK barrels"},
     imperial_gallon * 36,
     no,
     no,
     yes},
    {"in3", {"cubic inch", "cubic inches", "cu in"}, 0.016387064, no, yes, no},
};

constexpr UnitRow temperature_rows[] = {
    {"°C",
     {"C", "celsius", "deg C", "degC", "degrees C", "degrees celsius", "centigrade"},
     1.0,
     yes,
     no,
     yes,
     0.0},
    {"°F",
     {"F", "fahrenheit", "deg F", "degF", "degrees F", "degrees fahrenheit"},
     5.0 / 9.0,
     no,
     yes,
     no,
     32.0},
    {"K", {"kelvin", "kelvins"}, 1.0, yes, no, no, 273.15},
};

constexpr UnitRow temperature_difference_rows[] = {
    {"K", {"kelvin", "kelvins"}, 1.0, yes, no, yes},
    {"°C",
     {"C", "celsius", "deg C", "degC", "degrees C", "degrees celsius", "C degrees"},
     1.0,
     yes,
     no,
     yes},
    {"°F",
     {"F", "fahrenheit", "deg F", "degF", "degrees F", "degrees fahrenheit", "F degrees"},
     5.0 / 9.0,
     no,
     yes,
     no},
};

constexpr UnitRow gauge_pressure_rows[] = {
    {"kPa", {"kilopascal", "kilopascals", "kPa gauge"}, 1.0, yes, no, no},
    {"psi",
     {"psig", "lb", "lbs", "pound", "pounds", "pounds pressure", "lb/in2"},
     psi,
     no,
     yes,
     yes},
    {"bar", {"bars", "barg", "bar gauge"}, 100.0, yes, no, no},
    {"mbar", {"millibar", "millibars"}, 0.1, yes, no, no},
    {"Pa", {"pascal", "pascals"}, 0.001, yes, no, no},
    {"kg/cm2", {"kgf/cm2"}, 98.0665, yes, no, no},
};

constexpr UnitRow absolute_pressure_rows[] = {
    {"kPa", {"kilopascal", "kilopascals", "kPa absolute"}, 1.0, yes, no, no},
    {"hPa", {"hectopascal", "hectopascals"}, 0.1, yes, no, no},
    {"mbar", {"millibar", "millibars"}, 0.1, yes, no, no},
    {"bar", {"bars", "bara", "bar absolute"}, 100.0, yes, no, no},
    {"Pa", {"pascal", "pascals"}, 0.001, yes, no, no},
    {"psia", {"psi", "psi absolute"}, psi, no, yes, yes},
    {"inHg", {"in Hg", "inches of mercury", "inch of mercury"}, inch_of_mercury, no, yes, yes},
    {"mmHg",
     {"mm Hg", "millimetres of mercury", "millimeters of mercury"},
     millimetre_of_mercury,
     yes,
     no,
     no},
    {"atm", {"atmosphere", "atmospheres"}, 101.325, yes, no, no},
};

constexpr UnitRow length_rows[] = {
    {"m", {"metre", "metres", "meter", "meters"}, 1.0, yes, no, no},
    {"cm", {"centimetre", "centimetres", "centimeter", "centimeters"}, 0.01, yes, no, no},
    {"mm", {"millimetre", "millimetres", "millimeter", "millimeters"}, 0.001, yes, no, no},
    {"km", {"kilometre", "kilometres", "kilometer", "kilometers"}, 1000.0, yes, no, no},
    {"ft", {"foot", "feet", "'"}, 0.3048, no, yes, yes},
    {"in", {"inch", "inches", "\""}, 0.0254, no, yes, yes},
    {"yd", {"yard", "yards"}, 0.9144, no, yes, yes},
    {"mi", {"mile", "miles"}, 1609.344, no, yes, yes},
};

constexpr UnitRow energy_rows[] = {
    {"kJ", {"kilojoule", "kilojoules"}, 1.0, yes, no, no},
    {"MJ", {"megajoule", "megajoules"}, 1000.0, yes, no, no},
    {"J", {"joule", "joules"}, 0.001, yes, no, no},
    {"kWh", {"kW h", "kilowatt hour", "kilowatt hours", "kilowatt-hours"}, 3600.0, yes, yes, yes},
    {"Wh", {"W h", "watt hour", "watt hours"}, 3.6, yes, no, no},
    {"BTU", {"BTUs", "British thermal unit", "British thermal units"}, 1.05505585262, no, yes, yes},
    {"therm", {"therms"}, 105505.585262, no, yes, yes},
    {"kcal", {"kilocalorie", "kilocalories"}, 4.184, yes, no, no},
};

constexpr UnitRow cells_rows[] = {
    {"B", {"billion", "bn", "billions", "G"}, 1.0, yes, yes, yes},
    {"M", {"million", "millions", "mn"}, 0.001, yes, yes, yes},
    {"cells", {"cell"}, 1e-9, yes, yes, yes},
    {"trillion", {"trillions"}, 1000.0, yes, yes, yes},
};

constexpr UnitRow gravity_rows[] = {
    {"SG", {"", "sp gr", "specific gravity"}, 1.0, yes, yes, yes},
    {"°P", {"P", "plato", "deg P", "degP", "degrees plato", "degrees P"}, 1.0, yes, yes, yes},
};

constexpr UnitTable tables[] = {
    {"mass", "g", "4 oz, 113 g, 1.5 kg, 1 lb 4 oz", mass_rows},
    {"volume", "L", "1 pt, 500 mL, 20 L, 5 gal, 2 imp gal, 1/4 tsp", volume_rows},
    {"temperature", "°C", "20 °C, 68 F", temperature_rows},
    {"temperature difference", "K", "5 K, 5 °C, 9 F", temperature_difference_rows},
    {"gauge pressure", "kPa", "15 psi, 103 kPa", gauge_pressure_rows},
    {"absolute pressure", "kPa", "101.3 kPa, 1013 hPa, 29.92 inHg, 14.7 psia",
     absolute_pressure_rows},
    {"length", "m", "1 in, 25 mm, 5280 ft, 1600 m", length_rows},
    {"energy", "kJ", "3 kWh, 12 MJ, 10000 BTU", energy_rows},
    {"cells", "B", "100 B, 100 billion, 2.5e11 cells", cells_rows},
    {"gravity", "SG", "1.048, 1.048 SG, 12 °P", gravity_rows},
};

} // namespace

std::span<const UnitTable> unit_tables() noexcept {
    return tables;
}

const UnitTable& unit_table(std::string_view kind) {
    for (const UnitTable& table : tables)
        if (table.kind == kind)
            return table;
    throw std::out_of_range{"no units of the kind " + std::string{kind}};
}

} // namespace barmkeep::brewing
