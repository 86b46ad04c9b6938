// Steam tables, and steam in a canner by gauge and altitude.
#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/steam.hpp"
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string check_table = "canning/if97_region4_check.csv";

/// A table of steam temperatures: a row a gauge pressure, a column an altitude.
std::vector<Pair> wide_pairs(const std::string& file, bool fahrenheit) {
    std::vector<Pair> pairs;
    for (const Row& row : read_csv(file))
        for (int thousands = 0; thousands <= 10; ++thousands) {
            const std::string column =
                thousands == 0 ? "0ft" : std::to_string(thousands * 1000) + "ft";
            const AbsolutePressure air =
                standard_pressure_at_geopotential(thousands * 1000.0 * foot);
            const Temperature steam = steam_temperature(row.number("psig") * psi_gauge, air);
            pairs.push_back({row.place(), fahrenheit ? steam.fahrenheit() : steam.celsius(),
                             row.number(column)});
        }
    return pairs;
}

void add_check_values(std::vector<Comparison>& all) {
    // Nine digits are printed.
    all.push_back({"saturation pressure, IF97 region 4", "S67, table 35", "300 to 600 K",
                   "of the value", 5e-9,
                   relative(pairs_from(
                       check_table, [](const Row& row) { return row["table"] == "Table 35 psat"; },
                       [](const Row& row) {
                           return saturation_pressure(
                                      Temperature::kelvin_scale(row.number("input")))
                                      .in(kilopascal) /
                                  1000.0;
                       },
                       [](const Row& row) { return row.number("published_value"); }))});
    all.push_back({"saturation temperature, IF97 region 4", "S67, table 36", "0.1 to 10 MPa",
                   "of the value", 5e-9,
                   relative(pairs_from(
                       check_table, [](const Row& row) { return row["table"] == "Table 36 Tsat"; },
                       [](const Row& row) {
                           return saturation_temperature(row.number("input") * 1000.0 * kilopascal)
                               .kelvin_scale();
                       },
                       [](const Row& row) { return row.number("published_value"); }))});
    all.push_back({"saturation pressure, IF97 region 4", "S68", "20 to 121.1 C", "MPa", 0.00000051,
                   pairs_from(
                       "canning/steam_properties.csv", [](const Row&) { return true; },
                       [](const Row& row) {
                           return saturation_pressure(Temperature::celsius(row.number("T_C")))
                                      .in(kilopascal) /
                                  1000.0;
                       },
                       [](const Row& row) { return row.number("p_MPa"); })});
}

void add_canner_steam(std::vector<Comparison>& all) {
    all.push_back({"steam temperature by gauge and altitude", "independent computation",
                   "0 to 16 psi, 0 to 10 000 ft", "C", 0.0051,
                   wide_pairs("canning/tsat_wide_C.csv", false)});
    all.push_back({"steam temperature by gauge and altitude", "independent computation",
                   "0 to 16 psi, 0 to 10 000 ft", "F", 0.0051,
                   wide_pairs("canning/tsat_wide_F.csv", true)});
    all.push_back({"steam temperature at the ends of the published bands",
                   "independent computation", "10 to 15 psi, 0 to 10 000 ft", "C", 0.0051,
                   pairs_from(
                       "canning/consistency_checks.csv", [](const Row&) { return true; },
                       [](const Row& row) {
                           return steam_temperature(row.number("psig") * psi_gauge,
                                                    standard_pressure_at_geopotential(
                                                        row.number("altitude_ft") * foot))
                               .celsius();
                       },
                       [](const Row& row) { return row.number("tsat_C"); })});
}

} // namespace

std::vector<Comparison> steam_comparisons() {
    std::vector<Comparison> all;
    add_check_values(all);
    add_canner_steam(all);
    return all;
}

} // namespace barmkeep::published
