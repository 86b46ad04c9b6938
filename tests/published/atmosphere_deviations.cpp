// The standard atmosphere against tables of it.
#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/steam.hpp"
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

constexpr Unit<AbsolutePressureDimension> pascal{"Pa", 0.001};
constexpr Unit<AbsolutePressureDimension> inch_of_mercury{"inHg", 3.386388640341};

Length altitude(const Row& row, bool feet) {
    return feet ? row.number("altitude_ft") * foot : row.number("altitude_m") * metre;
}

void add_table(std::vector<Comparison>& all, const std::string& file, bool feet,
               const std::string& range) {
    const auto every = [](const Row&) {
        return true;
    };
    all.push_back({"pressure of the air, geopotential altitude", "independent computation", range,
                   "Pa", 0.051,
                   pairs_from(
                       file, every,
                       [=](const Row& row) {
                           return standard_pressure_at_geopotential(altitude(row, feet)).in(pascal);
                       },
                       [](const Row& row) { return row.number("p_Pa_if_geopotential"); })});
    all.push_back(
        {"pressure of the air, geometric altitude", "independent computation", range, "Pa", 0.051,
         pairs_from(
             file, every,
             [=](const Row& row) { return standard_pressure(altitude(row, feet)).in(pascal); },
             [](const Row& row) { return row.number("p_Pa_if_geometric"); })});
    all.push_back({"boiling point by altitude", "independent computation", range, "C", 0.00051,
                   pairs_from(
                       file, every,
                       [=](const Row& row) {
                           return saturation_temperature(
                                      standard_pressure_at_geopotential(altitude(row, feet)))
                               .celsius();
                       },
                       [](const Row& row) { return row.number("water_boils_C_IF97"); })});
}

std::vector<Pair> published(const std::string& column,
                            const Unit<AbsolutePressureDimension>& unit) {
    return pairs_from(
        "canning/ussa1976_published_check.csv",
        [&](const Row& row) {
            // Printed 12.682 at 4000 ft where the formula, and the spacing of its neighbours, give
            // 12.692: taken for a misprint in the copy.
            return row.has(column) && !(column == "S70_psia" && row["altitude_ft"] == "4000");
        },
        [&](const Row& row) {
            return standard_pressure_at_geopotential(altitude(row, true)).in(unit);
        },
        [&](const Row& row) { return row.number(column); });
}

} // namespace

std::vector<Comparison> atmosphere_comparisons() {
    std::vector<Comparison> all;
    add_table(all, "canning/ussa1976_feet.csv", true, "0 to 10 000 ft");
    add_table(all, "canning/ussa1976_metres.csv", false, "0 to 3000 m");
    // The third decimal of that table is made from inches of mercury rounded to 0.01, which is
    // 0.005 psi.
    all.push_back({"pressure of the air", "S70", "0 to 10 000 ft", "psi", 0.0025,
                   published("S70_psia", psi_absolute)});
    all.push_back({"pressure of the air", "S71, table d604", "0 to 10 000 ft", "psi", 0.0025,
                   published("S71_d604_psia", psi_absolute)});
    // Printed to 0.01, the last digit cut off rather than rounded at two altitudes.
    all.push_back({"pressure of the air", "S71, table d461", "0 to 10 000 ft", "inHg", 0.01,
                   published("S71_d461_inHg", inch_of_mercury)});
    return all;
}

} // namespace barmkeep::published
