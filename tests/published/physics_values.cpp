// Steam, air, densities and units at many places.
#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/steam.hpp"
#include "sdk/brewing/units.hpp"
#include "tests/published/values.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

void add_steam(std::vector<Value>& all) {
    for (double kelvin = 273.15; kelvin < 647.0; kelvin += 6.7)
        all.push_back({"steam",
                       "saturation_pressure",
                       {kelvin},
                       saturation_pressure(Temperature::kelvin_scale(kelvin)).in(kilopascal)});
    for (double pressure = 0.62; pressure < 22000.0; pressure *= 1.21)
        all.push_back({"steam",
                       "saturation_temperature",
                       {pressure},
                       saturation_temperature(pressure * kilopascal).kelvin_scale()});
}

void add_air(std::vector<Value>& all) {
    for (double height = -500.0; height <= 11000.0; height += 250.0)
        all.push_back({"air",
                       "pressure_at_geometric_altitude",
                       {height},
                       standard_pressure(height * metre).in(kilopascal)});
}

void add_densities(std::vector<Value>& all) {
    for (double celsius = 0.0; celsius <= 99.0; celsius += 3.0)
        all.push_back({"density",
                       "water",
                       {celsius},
                       water_density(Temperature::celsius(celsius)).in(kilogram_per_cubic_metre)});
    for (double celsius = 0.0; celsius <= 80.0; celsius += 10.0)
        for (double plato = 0.0; plato <= 70.0; plato += 7.0)
            all.push_back({"density",
                           "sucrose",
                           {plato, celsius},
                           sucrose_density(Plato::degrees(plato), Temperature::celsius(celsius))
                               .in(kilogram_per_cubic_metre)});
}

void add_extract(std::vector<Value>& all) {
    for (double plato = 0.0; plato <= 40.0; plato += 0.8)
        all.push_back({"extract",
                       "gravity_of_plato_general",
                       {plato},
                       gravity_of(Plato::degrees(plato)).sg()});
    for (double plato = 0.0; plato < 19.9; plato += 0.7)
        all.push_back({"extract",
                       "gravity_of_plato_laboratory",
                       {plato},
                       gravity_of(Plato::degrees(plato), laboratory_fit).sg()});
    for (double grams = 0.0; grams <= 450.0; grams += 9.0)
        all.push_back({"extract",
                       "gravity_of_grams_per_litre",
                       {grams},
                       gravity_of_concentration(grams * gram_per_litre).sg()});
}

void add_units(std::vector<Value>& all) {
    for (const char* name : {"1 gal", "1 fl oz", "1 bbl", "1 imp gal", "1 imp fl oz"})
        all.push_back({"unit_litre", name, {}, parse_volume(name).in(litre)});
    for (const char* name : {"1 lb", "1 oz", "1 st"})
        all.push_back({"unit_gram", name, {}, parse_mass(name).in(gram)});
    for (const char* name : {"1 in", "1 ft", "1 mi", "1 yd"})
        all.push_back({"unit_metre", name, {}, parse_length(name).in(metre)});
    for (const char* name : {"1 psia", "1 atm", "1 bar", "1 mmHg"})
        all.push_back({"unit_kilopascal", name, {}, parse_absolute_pressure(name).in(kilopascal)});
    all.push_back({"unit_kilojoule", "1 BTU", {}, parse_energy("1 BTU").in(kilojoule)});
    for (double degrees = -40.0; degrees <= 260.0; degrees += 25.0)
        all.push_back(
            {"unit_celsius", "fahrenheit", {degrees}, Temperature::fahrenheit(degrees).celsius()});
}

} // namespace

std::vector<Value> physics_values() {
    std::vector<Value> all;
    add_steam(all);
    add_air(all);
    add_densities(all);
    add_extract(all);
    add_units(all);
    return all;
}

} // namespace barmkeep::published
