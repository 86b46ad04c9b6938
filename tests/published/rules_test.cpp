// Published rules that are tables, not formulas: altitude bands, the boiling caution, efficiencies,
// units, and that every source key resolves.
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/fuel.hpp"
#include "sdk/brewing/units.hpp"
#include "tests/published/csv.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>

namespace barmkeep::published {
namespace {

using namespace brewing;

std::string semicolons_to_spaces(std::string text) {
    std::replace(text.begin(), text.end(), ';', ' ');
    return text;
}

TEST(PublishedBands, AreThoseOfTheTable) {
    const std::vector<Row> rows = read_csv("canning/psi_by_altitude.csv");
    ASSERT_EQ(rows.size(), pressure_bands().size());
    for (const Row& row : rows) {
        const GaugeType gauge = row["gauge_type"] == "dial" ? GaugeType::dial : GaugeType::weighted;
        std::vector<double> feet{row.number("altitude_min_ft")};
        if (row.has("altitude_max_ft"))
            feet.push_back(row.number("altitude_max_ft"));
        for (const double altitude : feet) {
            const PressureBand& band = published_band(gauge, altitude * foot);
            EXPECT_DOUBLE_EQ(band.pressure.in(psi_gauge), row.number("gauge_psi")) << row.place();
            EXPECT_EQ(band.sources, semicolons_to_spaces(row["source_id"])) << row.place();
        }
    }
}

TEST(PublishedBands, KeepTheSteamNear240FahrenheitAtTheirTops) {
    for (const PressureBand& band : pressure_bands())
        EXPECT_NEAR(steam_temperature(band.pressure, band.to).fahrenheit(), 239.3, 1.2);
}

TEST(CautionBoilTime, IsThatOfTheTable) {
    for (const Row& row : read_csv("canning/toxin_boil.csv"))
        EXPECT_EQ(static_cast<double>(caution_boil_time(row.number("altitude_ft") * foot).count()),
                  row.number("boil_minutes"))
            << row.place();
}

TEST(Efficiencies, AreSpannedByThePublishedOnes) {
    for (const Row& row : read_csv("canning/burner_efficiency.csv")) {
        const std::string& appliance = row["appliance"];
        if (row["status"] == "from memory")
            continue;
        Estimate<double> ours = efficiency(GasBurner::cooktop);
        if (appliance.starts_with("induction"))
            ours = efficiency(ElectricPlate::induction);
        else if (appliance.starts_with("electric resistance"))
            ours = efficiency(ElectricPlate::resistance);
        EXPECT_GE(row.number("efficiency"), ours.low) << row.place();
        EXPECT_LE(row.number("efficiency"), ours.high) << row.place();
    }
}

TEST(HeatingValues, AreThoseOfTheTable) {
    const auto of = [](const std::string& fuel, const std::string& unit, const std::string& basis) {
        for (const Row& row : read_csv("canning/fuel_energy.csv"))
            if (row["fuel"] == fuel && row["unit"] == unit && row["basis"].starts_with(basis))
                return row.number("value");
        throw std::runtime_error{"no such fuel: " + fuel};
    };
    const Energy useful = 1.0 * kilowatt_hour;
    const Energy burnt = useful / efficiency(GasBurner::cooktop).likely;
    const Mass propane = propane_for(useful, GasBurner::cooktop).likely;
    const Volume gas = natural_gas_for(useful, GasBurner::cooktop).likely;
    // Printed to 5, 1 and 1 in the last digit.
    EXPECT_NEAR(burnt / parse_energy("1 BTU") / propane.in(pound), of("propane", "Btu/lb", "gross"),
                5.0);
    EXPECT_NEAR(burnt / parse_energy("1 BTU") / (gas / parse_volume("1728 in3")),
                of("natural gas", "Btu/ft3", "gross (EIA 2021)"), 0.5);
    EXPECT_NEAR(parse_energy("1 kWh") / parse_energy("1 BTU"), of("electricity", "Btu/kWh", "-"),
                0.5);
}

TEST(Points, OfAPoundAddedToAGallonAreFewerThanMadeUpToOne) {
    for (const Row& row : read_csv("extract/ppg_convention.csv")) {
        const double points = row.number("ppg");
        const double share = ExtractPotential::of_points_per_pound_gallon(points).mass_fraction();
        EXPECT_NEAR(made_up(share * pound, 1.0 * us_gallon).gravity.sg(),
                    row.number("SG_1lb_made_up_to_1gal"), 0.000005)
            << row.place();
        const Mass water = 1.0 * us_gallon * water_density(reference_temperature);
        const Wort added = dissolve(share * pound, water + (1.0 - share) * pound);
        // Those were computed by the polynomial of EX4, which differs by up to 0.00003.
        EXPECT_NEAR(added.gravity.sg(), row.number("SG_1lb_added_to_1gal_water"), 0.00003)
            << row.place();
        EXPECT_NEAR(added.volume.in(us_gallon), row.number("volume_gal_when_added"), 0.0001)
            << row.place();
    }
}

TEST(SourceKeys, AllResolve) {
    std::set<std::string> known{"from-memory"};
    for (const Row& row : read_csv("canning/sources.csv"))
        known.insert(row["id"]);
    std::string cited;
    for (const PressureBand& band : pressure_bands())
        cited += std::string{band.sources} + " ";
    for (const GasBurner burner : {GasBurner::cooktop, GasBurner::outdoor}) {
        cited += std::string{efficiency(burner).sources} + " ";
        cited += std::string{propane_for(1.0 * kilowatt_hour, burner).sources} + " ";
        cited += std::string{natural_gas_for(1.0 * kilowatt_hour, burner).sources} + " ";
    }
    for (const ElectricPlate plate : {ElectricPlate::resistance, ElectricPlate::induction})
        cited += std::string{efficiency(plate).sources} + " ";
    for (const char* file : {"canning/procedure_rules.csv", "canning/no_tested_process.csv"})
        for (const Row& row : read_csv(file))
            if (row["source_id"] != "-")
                cited += semicolons_to_spaces(row["source_id"]) + " ";
    std::istringstream keys{cited};
    for (std::string key; keys >> key;)
        EXPECT_TRUE(known.contains(key)) << key;
}

TEST(SourceKeys, OfTheSafetyPageAreListedAtItsEnd) {
    std::ifstream file{BARMKEEP_SAFETY_PAGE};
    const std::string page{std::istreambuf_iterator<char>{file}, {}};
    const std::regex key{"\\bS[0-9]+\\b"};
    int cited = 0;
    for (std::sregex_iterator found{page.begin(), page.end(), key}, end; found != end; ++found) {
        EXPECT_NE(page.find("- **" + found->str() + "** "), std::string::npos) << found->str();
        ++cited;
    }
    EXPECT_GT(cited, 60);
}

TEST(SourceKeys, OnTheSafetyPageNameWhatTheTableNames) {
    std::ifstream file{BARMKEEP_SAFETY_PAGE};
    const std::string page{std::istreambuf_iterator<char>{file}, {}};
    for (const Row& row : read_csv("canning/sources.csv"))
        if (page.find("- **" + row["id"] + "** ") != std::string::npos) {
            EXPECT_NE(page.find("- **" + row["id"] + "** " + row["source"]), std::string::npos)
                << row["id"];
        }
}

TEST(Units, HaveTheirExactFactors) {
    int checked = 0;
    for (const Row& row : read_csv("extract/units.csv")) {
        const std::string one = "1 " + row["symbol"];
        if (row["SI"] == "m3" && row["symbol"] != "keg")
            EXPECT_NEAR(parse_volume(one).in(litre) / 1000.0 / row.number("value"), 1.0, 1e-15)
                << row.place();
        else if (row["SI"] == "kg")
            EXPECT_DOUBLE_EQ(parse_mass(one).in(kilogram), row.number("value")) << row.place();
        else if (row["SI"] == "Pa")
            EXPECT_NEAR(parse_absolute_pressure(one).in(kilopascal)*1000.0 / row.number("value"),
                        1.0, 2e-13)
                << row.place();
        else if (row["symbol"] == "ppg")
            EXPECT_NEAR(litre_degrees_per_point, row.number("value"), 1e-14);
        else
            continue;
        ++checked;
    }
    EXPECT_GE(checked, 24);
}

TEST(Units, GiveTheBarrelsOfTheRegulation) {
    for (const Row& row : read_csv("extract/units_beer_barrel_cfr.csv")) {
        const std::string& bottle = row["bottle"];
        const bool metric = bottle.ends_with("L");
        const Volume one = parse_volume(metric ? bottle : bottle + " fl oz");
        // Printed to five decimals.
        EXPECT_NEAR(one * row.number("count") / parse_volume("1 bbl"),
                    row.number("barrels_27CFR25.158"), 0.0000051)
            << row.place();
    }
}

TEST(PointsShortcut, GivesThePrintedExamples) {
    // EX8: boiling down, and two targets.
    const Wort wort{11.5 * us_gallon, Gravity::sg(1.042)};
    EXPECT_NEAR(points_at_volume(wort, 10.0 * us_gallon).gravity.points(), 48.3, 0.051);
    EXPECT_NEAR(points_to_gravity(wort, Gravity::sg(1.050)).volume.in(us_gallon), 9.66, 0.0051);
    EXPECT_NEAR(points_to_gravity(wort, Gravity::sg(1.046)).volume.in(us_gallon), 10.5, 0.051);
    // A home brewing book, web edition, ch. 3.4: a pound of 36 points in 3 gallons.
    const Wort pound_in_gallon{1.0 * us_gallon, Gravity::sg(1.036)};
    EXPECT_NEAR(points_at_volume(pound_in_gallon, 3.0 * us_gallon).gravity.points(), 12.0, 1e-9);
}

} // namespace
} // namespace barmkeep::published
