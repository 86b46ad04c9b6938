// Densities of water and sucrose solutions against published and computed tables.
#include "sdk/brewing/density.hpp"
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string water_table = "extract/water_density.csv";

std::vector<Pair> water_pairs(const std::string& column) {
    return pairs_from(
        water_table, [&](const Row& row) { return row.has(column); },
        [](const Row& row) {
            return water_density(Temperature::celsius(row.number("t_C")))
                .in(kilogram_per_cubic_metre);
        },
        [&](const Row& row) { return row.number(column); });
}

double sucrose_kg(double plato, double celsius) {
    return sucrose_density(Plato::degrees(plato), Temperature::celsius(celsius))
        .in(kilogram_per_cubic_metre);
}

/// Weight in air of a gallon, against brass weights of 8.4 g/mL as trade tables take them.
double pounds_in_air(const Row& row) {
    const double air = air_density.in(kilogram_per_cubic_metre);
    const double density =
        density_of(gravity_of(Plato::degrees(row.number("brix")))).in(kilogram_per_cubic_metre);
    const double weighed = (density - air) / (1.0 - air / 8400.0);
    return (weighed * kilogram_per_cubic_metre).in(pound_per_us_gallon);
}

/// Volume one gram of dissolved sugar takes, if the water keeps the volume it had.
double apparent_volume(const Row& row) {
    const double percent = row.number("percent_sucrose");
    const double water = water_density(reference_temperature).in(kilogram_per_cubic_metre);
    const double litres_per_kilogram =
        (1.0 / sucrose_kg(percent, 20.0) - (1.0 - percent / 100.0) / water) * 1000.0;
    return litres_per_kilogram / (percent / 100.0);
}

bool every(const Row&) {
    return true;
}

void add_water(std::vector<Comparison>& all) {
    all.push_back({"density of water", "independent computation", "0 to 100 C", "kg/m3", 0.000051,
                   water_pairs("EX3_computed")});
    // Formulas of other decades, for water of a little other isotopes: Tanaka's is 0.004 kg/m3
    // higher at 0 C.  Kell's is on the temperature scale of 1968, which at 100 C is 0.026 K from
    // that of 1990; that alone is 0.019 kg/m3.
    all.push_back(
        {"density of water", "EX10", "0 to 40 C", "kg/m3", 0.004, water_pairs("EX10_computed")});
    all.push_back(
        {"density of water", "EX11", "0 to 100 C", "kg/m3", 0.019, water_pairs("EX11_computed")});
    all.push_back({"density of water", "EX12", "0 to 100 C", "kg/m3", 0.007,
                   water_pairs("EX12_computed_101325Pa")});
    all.push_back(
        {"density of water", "EX13", "0 to 14 C", "kg/m3", 0.004, water_pairs("EX13_published")});
    // Some entries are printed to 0.1 only.
    all.push_back({"density of water", "general handbook table", "0 to 100 C", "kg/m3", 0.06,
                   water_pairs("general_table_published")});
}

void add_sucrose(std::vector<Comparison>& all) {
    all.push_back({"density of sucrose solutions", "independent computation",
                   "0 to 60 P, 0 to 80 C", "kg/m3", 0.00051,
                   pairs_from(
                       "extract/sucrose_density_temperature.csv",
                       [](const Row& row) { return row.number("t_C") <= highest_sucrose_celsius; },
                       [](const Row& row) {
                           return sucrose_kg(row.number("percent_sucrose"), row.number("t_C"));
                       },
                       [](const Row& row) { return row.number("density_kg_m3_EX4_computed"); })});
    all.push_back({"volume of wort by temperature", "independent computation",
                   "0 to 60 P, 0 to 80 C", "of the volume at 20 C", 0.0000051,
                   pairs_from(
                       "extract/sucrose_density_temperature.csv",
                       [](const Row& row) { return row.number("t_C") <= highest_sucrose_celsius; },
                       [](const Row& row) {
                           return volume_ratio_to_20(Plato::degrees(row.number("percent_sucrose")),
                                                     Temperature::celsius(row.number("t_C")));
                       },
                       [](const Row& row) { return row.number("volume_ratio_to_20C"); })});
}

void add_gallons(std::vector<Comparison>& all) {
    // Printed to 0.001 lb, half of which is 0.0005.  Another 0.0002, 0.02 kg/m3, is left over: the
    // air and the weights of that table are not stated.
    all.push_back(
        {"weight in air of a gallon of sucrose solution", "EX9", "0 to 5.2 P", "lb/gal", 0.0008,
         pairs_from("extract/brix_lb_per_gal_published.csv", every, pounds_in_air,
                    [](const Row& row) { return row.number("lb_per_US_gal_in_air_20C"); })});
    all.push_back(
        {"weight in air of the sugar in that gallon", "EX9", "0 to 5.2 P", "lb/gal", 0.0008,
         pairs_from(
             "extract/brix_lb_per_gal_published.csv", every,
             [](const Row& row) { return pounds_in_air(row) * row.number("brix") / 100.0; },
             [](const Row& row) { return row.number("lb_sucrose_per_US_gal_in_air"); })});
    all.push_back({"volume of dissolved sugar", "independent computation", "1 to 60 P", "mL/g",
                   0.000051,
                   pairs_from("extract/sugar_specific_volume.csv", every, apparent_volume,
                              [](const Row& row) {
                                  return row.number("apparent_specific_volume_mL_per_g");
                              })});
}

} // namespace

std::vector<Comparison> density_comparisons() {
    std::vector<Comparison> all;
    add_water(all);
    add_sucrose(all);
    add_gallons(all);
    return all;
}

} // namespace barmkeep::published
