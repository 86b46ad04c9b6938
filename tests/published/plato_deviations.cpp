// Gravity and degrees Plato against published tables.
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/plato.hpp"
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string table = "extract/sg_plato_published.csv";

auto from(const std::string& source) {
    return [source](const Row& row) {
        return row["source"] == source;
    };
}
double percent(const Row& row) {
    return row.number("percent_sucrose_by_weight");
}
double printed_gravity(const Row& row) {
    return row.number("specific_gravity");
}

auto by_fit(const PlatoFit& fit) {
    return [&fit](const Row& row) {
        return plato_of(Gravity::sg(printed_gravity(row)), fit).degrees();
    };
}

/// Densities relative to water at 4 C, the old scale; 0.998234 and 0.0012046 are the water and air
/// of that table.
double apparent_from_20_4(const Row& row) {
    return (printed_gravity(row) - 0.0012046) / (0.998234 - 0.0012046);
}

double true_ratio(const Row& row, double celsius) {
    const Temperature temperature = Temperature::celsius(celsius);
    return sucrose_density(Plato::degrees(percent(row)), temperature) / water_density(temperature);
}

void add_printed_tables(std::vector<Comparison>& all) {
    // Both fits pass beside zero at S = 1, by 0.0048 and by 0.0030 P (published: worst 0.0038);
    // the gravity is printed to 0.00001, half of which is 0.0013 P.
    all.push_back({"Plato from SG, general cubic", "Brix table 20/20", "0 to 7.8 P", "P", 0.0062,
                   pairs_from(table, from("Brix_SG_20/20_table_secondary_copy"),
                              by_fit(general_fit), percent)});
    all.push_back({"Plato from SG, laboratory cubic", "Brix table 20/20", "0 to 7.8 P", "P", 0.0051,
                   pairs_from(table, from("Brix_SG_20/20_table_secondary_copy"),
                              by_fit(laboratory_fit), percent)});
}

void add_ends_and_points(std::vector<Comparison>& all) {
    // These two are the tables' own values, printed beside the fits: the published root mean
    // square errors, 0.0009 and 0.0006 P, are what to expect.
    all.push_back({"Plato from SG, general cubic", "value published with the fit", "1.040", "P",
                   0.0009, pairs_from(table, from("EX1"), by_fit(general_fit), percent)});
    all.push_back({"Plato from SG, laboratory cubic", "value published with the fit", "1.040", "P",
                   0.0006, pairs_from(table, from("EX2"), by_fit(laboratory_fit), percent)});
    // Published root mean square error of the fit, 0.0009 P, three times, and half of 0.00001.
    all.push_back({"Plato from SG, general cubic", "end of the table of EX1", "40 P", "P", 0.004,
                   pairs_from(table, from("EX1 table limit"), by_fit(general_fit), percent)});
    // Printed to 0.000001; three times the published root mean square error.
    all.push_back({"Plato from SG, general cubic", "oldest table, 1900 (from memory)", "5 to 35 P",
                   "P", 0.0027,
                   pairs_from(
                       table, from("oldest_table_1900_density_20/4"),
                       [](const Row& row) {
                           return plato_of(Gravity::sg(apparent_from_20_4(row))).degrees();
                       },
                       percent)});
}

void add_true_gravities(std::vector<Comparison>& all) {
    // Printed to 0.00001; the fit's root mean square error adds 0.000004, near S = 1 0.00002.
    all.push_back({"true SG 20/20 of sucrose, general cubic and buoyancy", "EX14", "0 to 21 P",
                   "SG", 0.000025,
                   pairs_from(
                       table, from("EX14"),
                       [](const Row& row) {
                           return density_of(gravity_of(Plato::degrees(percent(row)))) /
                                  water_density(reference_temperature);
                       },
                       printed_gravity)});
    // The polynomial of EX4 rests on later measurements than that table, which is of the family of
    // EX1, and lies above it: 0.00006 at 21 P, which is 0.014 P.
    all.push_back({"true SG 20/20 of sucrose, polynomial of EX4", "EX14", "0 to 21 P", "SG",
                   0.00006,
                   pairs_from(
                       table, from("EX14"), [](const Row& row) { return true_ratio(row, 20.0); },
                       printed_gravity)});
    // The copy of this table of 1880 does not show its temperature.  17.5 C fits; 15 or 20 C, as
    // much in use then, would move the value by 0.0006 at 40 P.
    all.push_back(
        {"true SG 17.5/17.5 of sucrose, polynomial of EX4", "EX15", "0 to 69 P", "SG", 0.0006,
         pairs_from(
             table, [](const Row& row) { return row["source"] == "EX15" && percent(row) <= 70; },
             [](const Row& row) { return true_ratio(row, 17.5); }, printed_gravity)});
}

void add_computed_plato(std::vector<Comparison>& all) {
    // Computed elsewhere to four decimals from the same coefficients.
    const std::string computed = "extract/sg_to_plato_computed.csv";
    const auto gravity = [](const Row& row) {
        return Gravity::sg(row.number("SG"));
    };
    all.push_back(
        {"Plato from SG, general cubic", "independent computation", "1.000 to 1.175", "P", 0.000051,
         pairs_from(
             computed, [](const Row& row) { return row.number("SG") <= general_fit.highest_sg; },
             [&](const Row& row) { return plato_of(gravity(row)).degrees(); },
             [](const Row& row) { return row.number("EX1_cubic"); })});
    all.push_back(
        {"Plato from SG, laboratory cubic", "independent computation", "1.000 to 1.083", "P",
         0.000051,
         pairs_from(
             computed, [](const Row& row) { return row["EX2_range"] == "inside"; },
             [&](const Row& row) { return plato_of(gravity(row), laboratory_fit).degrees(); },
             [](const Row& row) { return row.number("EX2_cubic"); })});
}

void add_computed_gravity(std::vector<Comparison>& all) {
    const std::string inverse = "extract/plato_to_sg_computed.csv";
    const auto plato = [](const Row& row) {
        return Plato::degrees(row.number("P_or_Bx"));
    };
    all.push_back(
        {"SG from Plato, inverse of the general cubic", "independent computation", "0 to 40 P",
         "SG", 0.0000051,
         pairs_from(
             inverse, [](const Row& row) { return row.number("P_or_Bx") <= 40; },
             [&](const Row& row) { return gravity_of(plato(row)).sg(); },
             [](const Row& row) { return row.number("SG_apparent_EX1_cubic_inverse"); })});
    all.push_back({"SG from Plato, inverse of the laboratory cubic", "independent computation",
                   "0 to 19 P", "SG", 0.0000051,
                   pairs_from(
                       inverse, [](const Row& row) { return row.number("P_or_Bx") < 20; },
                       [&](const Row& row) { return gravity_of(plato(row), laboratory_fit).sg(); },
                       [](const Row& row) {
                           return row.number("SG_EX2_cubic_inverse(extrapolated_above_20P)");
                       })});
}

} // namespace

std::vector<Comparison> plato_comparisons() {
    std::vector<Comparison> all;
    add_printed_tables(all);
    add_ends_and_points(all);
    add_true_gravities(all);
    add_computed_plato(all);
    add_computed_gravity(all);
    return all;
}

} // namespace barmkeep::published
