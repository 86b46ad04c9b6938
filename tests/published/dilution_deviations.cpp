// Mass balance: extract in water, dilution, and the rules of the trade beside it.
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/extract.hpp"
#include "tests/published/comparison.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

bool every(const Row&) {
    return true;
}
auto column(const char* name) {
    return [name](const Row& row) {
        return row.number(name);
    };
}

Mass extract_of_row(const Row& row) {
    return row.number("g_DME") * gram *
           ExtractPotential::of_points_per_pound_gallon(row.number("ppg")).mass_fraction();
}
/// The moisture of the product joins the water.
Mass water_of_row(const Row& row) {
    return 1.0 * litre * water_density(reference_temperature) + row.number("g_DME") * gram -
           extract_of_row(row);
}

Wort first(const Row& row) {
    return {1.0 * litre, Gravity::sg(row.number("SG1"))};
}
Gravity second(const Row& row) {
    return Gravity::sg(row.number("SG2_target"));
}

Wort first_plato(const Row& row) {
    return {100.0 * litre, gravity_of(Plato::degrees(row.number("P1")))};
}
Gravity second_plato(const Row& row) {
    return gravity_of(Plato::degrees(row.number("P2")));
}

void add_dry_extract(std::vector<Comparison>& all) {
    const std::string dme = "extract/dme_per_litre.csv";
    // The values were computed by the polynomial of EX4; the fits differ from it by up to 0.00004.
    all.push_back(
        {"gravity of dry extract made up to a litre", "independent computation",
         "50 to 200 g, 44 to 46.18 ppg", "SG", 0.00003,
         pairs_from(
             dme, every,
             [](const Row& row) { return made_up(extract_of_row(row), 1.0 * litre).gravity.sg(); },
             column("SG_made_up_to_1L_mass_balance"))});
    all.push_back({"gravity of dry extract added to a litre of water", "independent computation",
                   "50 to 200 g, 44 to 46.18 ppg", "SG", 0.00003,
                   pairs_from(
                       dme, every,
                       [](const Row& row) {
                           return dissolve(extract_of_row(row), water_of_row(row)).gravity.sg();
                       },
                       column("SG_added_to_1L_water"))});
    all.push_back(
        {"volume of dry extract added to a litre of water", "independent computation",
         "50 to 200 g, 44 to 46.18 ppg", "mL", 0.1,
         pairs_from(
             dme, every,
             [](const Row& row) {
                 return dissolve(extract_of_row(row), water_of_row(row)).volume.in(millilitre);
             },
             column("volume_when_added_to_1L_water_mL"))});
}

void add_dilution_by_gravity(std::vector<Comparison>& all) {
    // The values below go by the polynomial of EX4 throughout.  It and the general cubic differ by
    // 0.017 % in the extract at 1.030 and by 0.08 % at 1.150, so a quotient of two may by 0.12 %.
    const std::string ratio = "extract/dilution_computed_sg.csv";
    all.push_back({"volume to a gravity, of the volume before", "independent computation",
                   "1.080 ... 1.150 to 1.030 ... 1.050", "of the value", 0.0012,
                   relative(pairs_from(
                       ratio, every,
                       [](const Row& row) {
                           return to_gravity(first(row), second(row)).after.volume.in(litre);
                       },
                       column("V2_over_V1_mass_balance")))});
    all.push_back(
        {"gravity really reached by the points shortcut", "independent computation",
         "1.080 ... 1.150 to 1.030 ... 1.050", "SG", 0.00004,
         pairs_from(
             ratio, every,
             [](const Row& row) { return points_to_gravity(first(row), second(row)).really.sg(); },
             column("actual_SG_if_diluted_by_points"))});
}

void add_dilution_by_plato(std::vector<Comparison>& all) {
    const std::string plato = "extract/dilution_computed_plato.csv";
    all.push_back(
        {"volume to an extract, from 100", "independent computation", "16 to 35 P", "of the value",
         0.0012,
         relative(pairs_from(
             plato, every,
             [](const Row& row) {
                 return to_gravity(first_plato(row), second_plato(row)).after.volume.in(litre);
             },
             column("V2_mass_balance_from_100")))});
    all.push_back(
        {"water to add for an extract, to 100", "independent computation", "16 to 35 P",
         "of the value", 0.0012,
         relative(pairs_from(
             plato, every,
             [](const Row& row) {
                 return to_gravity(first_plato(row), second_plato(row)).water_volume.in(litre);
             },
             column("water_to_add_by_mass_balance")))});
}

void add_rules_of_the_trade(std::vector<Comparison>& all) {
    const auto sucrose = [](const Row& row) {
        return row["property"] == "sucrose" && row["unit"] == "ppg";
    };
    // 46.31 is at 60 F and the hydrometer of that temperature, where the same sugar reads 0.16
    // more; the others are computed at 20 C by EX4.
    all.push_back({"points of a pound of sucrose in a gallon", "EX8 and computations", "ppg", "ppg",
                   0.19,
                   pairs_from(
                       "extract/malt_extract_properties.csv", sucrose,
                       [](const Row&) {
                           return ExtractPotential::of_mass_fraction(1.0).points_per_pound_gallon();
                       },
                       column("value"))});
    // Printed rule: (259 + P) P / 100 pounds in a barrel, said to hold within 0.25 % to 20 P.
    all.push_back({"extract in a US beer barrel", "rule (259 + P) P / 100", "1 to 20 P", "lb",
                   0.0025 * (259.0 + 20.0) * 20.0 / 100.0,
                   pairs_from(
                       "extract/plato_to_sg_computed.csv",
                       [](const Row& row) {
                           const double degrees = row.number("P_or_Bx");
                           return degrees >= 1 && degrees <= 20;
                       },
                       [](const Row& row) {
                           const Gravity gravity =
                               gravity_of(Plato::degrees(row.number("P_or_Bx")));
                           return extract_in({31.0 * us_gallon, gravity}).in(pound);
                       },
                       [](const Row& row) {
                           const double degrees = row.number("P_or_Bx");
                           return (259.0 + degrees) * degrees / 100.0;
                       })});
    all.push_back({"extract in a litre", "independent computation", "0 to 40 P", "g/L", 0.05,
                   pairs_from(
                       "extract/plato_to_sg_computed.csv",
                       [](const Row& row) { return row.number("P_or_Bx") <= 40; },
                       [](const Row& row) {
                           return extract_concentration(
                                      gravity_of(Plato::degrees(row.number("P_or_Bx"))))
                               .in(gram_per_litre);
                       },
                       column("extract_g_per_L"))});
}

} // namespace

std::vector<Comparison> dilution_comparisons() {
    std::vector<Comparison> all;
    add_dry_extract(all);
    add_dilution_by_gravity(all);
    add_dilution_by_plato(all);
    add_rules_of_the_trade(all);
    return all;
}

} // namespace barmkeep::published
