// ParseContext and printing quantities (sdk/brewing/units.hpp).
#include "sdk/brewing/units.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/plato.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

namespace barmkeep::brewing {
namespace {

using ::testing::HasSubstr;

/// The UnitError that `read` throws, as "message | hint".
std::string refusal(const std::function<void()>& read) {
    try {
        read();
    } catch (const UnitError& error) {
        return std::string{error.what()} + " | " + error.hint();
    }
    return "not refused";
}

TEST(ParseMass, TakesWhatBrewersWrite) {
    EXPECT_DOUBLE_EQ(parse_mass("4 oz").in(gram), 113.3980925);
    EXPECT_DOUBLE_EQ(parse_mass("113g").in(gram), 113.0);
    EXPECT_DOUBLE_EQ(parse_mass("1.5 kg").in(gram), 1500.0);
    EXPECT_DOUBLE_EQ(parse_mass("1 1/2 lb").in(pound), 1.5);
    EXPECT_DOUBLE_EQ(parse_mass("1½ lb").in(pound), 1.5);
    EXPECT_DOUBLE_EQ(parse_mass("½lb").in(pound), 0.5);
    EXPECT_DOUBLE_EQ(parse_mass("1/4 ounce").in(ounce), 0.25);
    EXPECT_DOUBLE_EQ(parse_mass("1 lb 4 oz").in(ounce), 20.0);
    EXPECT_DOUBLE_EQ(parse_mass("1 lb, 4.5 oz").in(ounce), 20.5);
    EXPECT_DOUBLE_EQ(parse_mass("1lb4oz").in(ounce), 20.0);
    EXPECT_DOUBLE_EQ(parse_mass("1lb2 oz").in(ounce), 18.0);
    EXPECT_DOUBLE_EQ(parse_mass("1 lb 4 1/2 oz").in(ounce), 20.5);
    EXPECT_DOUBLE_EQ(parse_mass("  2  POUNDS ").in(pound), 2.0);
    EXPECT_DOUBLE_EQ(parse_mass("3 lbs.").in(pound), 3.0);
    EXPECT_DOUBLE_EQ(parse_mass("1e3 g").in(gram), 1000.0);
    EXPECT_DOUBLE_EQ(parse_mass(".5 oz").in(ounce), 0.5);
    EXPECT_DOUBLE_EQ(parse_mass("0 g").in(gram), 0.0);
}

TEST(ParseMass, NamesTheKindWantedWhenTheUnitIsOfAnother) {
    const std::string said = refusal([] { (void)parse_mass("2 tsp"); });
    EXPECT_THAT(said, HasSubstr("'2 tsp' is a volume, but a mass is wanted"));
    EXPECT_THAT(said, HasSubstr("4 oz, 113 g"));
    EXPECT_THAT(refusal([] { (void)parse_volume("2 kg"); }), HasSubstr("is a mass"));
}

TEST(ParseMass, AsksForAUnitAndListsSome) {
    const std::string said = refusal([] { (void)parse_mass("113"); });
    EXPECT_THAT(said, HasSubstr("'113' needs a unit"));
    EXPECT_THAT(said, HasSubstr("units: g, kg, mg, oz, lb"));
}

TEST(ParseMass, RefusesADecimalCommaWithAHint) {
    EXPECT_THAT(refusal([] { (void)parse_mass("1,5 kg"); }),
                HasSubstr("write decimals with a point"));
    EXPECT_THAT(refusal([] { (void)parse_mass("1,500 g"); }), HasSubstr("has a comma"));
}

TEST(ParseMass, RefusesWhatIsNoQuantity) {
    for (const char* text : {"", "   ", "oz", "four oz", "nan g", "inf g", "1/0 lb", "1//2 lb",
                             "4 oz 1 lb", "1 lb 1 lb", "1 lb -4 oz", "4 zorks", "1 2 g", "1.2.3 g",
                             "- 4 oz x", "1 lb 4", "--1 g", "0x10 g", "\xff\xfe"})
        EXPECT_THROW((void)parse_mass(text), UnitError) << text;
    EXPECT_THROW((void)parse_mass(std::string(1000, '1') + " g"), UnitError);
}

TEST(ParseMass, RefusesNegativeAndBoundlessAmounts) {
    EXPECT_THROW((void)parse_mass("-4 oz"), OutOfRange);
    EXPECT_THROW((void)parse_mass("1e999 g"), OutOfRange);
    EXPECT_THROW((void)parse_mass("1e-999 g"), OutOfRange);
    EXPECT_THROW((void)parse_mass("1e308 kg"), OutOfRange);
}

TEST(ParseMass, DoesNotTakeMegaForMilli) {
    EXPECT_THROW((void)parse_mass("5 Mg"), UnitError);
    EXPECT_DOUBLE_EQ(parse_mass("5 MG").in(milligram), 5.0);
    EXPECT_THROW((void)parse_energy("5 mJ"), UnitError);
    EXPECT_DOUBLE_EQ(parse_energy("5 mj").in(kilojoule), 5000.0);
}

TEST(ParseVolume, TakesUnitedStatesMetricAndImperialMeasure) {
    EXPECT_DOUBLE_EQ(parse_volume("1 pt").in(us_pint), 1.0);
    EXPECT_DOUBLE_EQ(parse_volume("20 L").in(litre), 20.0);
    EXPECT_DOUBLE_EQ(parse_volume("20 litres").in(litre), 20.0);
    EXPECT_DOUBLE_EQ(parse_volume("20 Liters").in(litre), 20.0);
    EXPECT_DOUBLE_EQ(parse_volume("5 gal").in(us_gallon), 5.0);
    EXPECT_DOUBLE_EQ(parse_volume("1 imp gal").in(litre), 4.54609);
    EXPECT_DOUBLE_EQ(parse_volume("2 imperial pints").in(millilitre), 2 * 568.26125);
    EXPECT_DOUBLE_EQ(parse_volume("1/4 tsp").in(millilitre), 4.92892159375 / 4);
    EXPECT_DOUBLE_EQ(parse_volume("1 T").in(millilitre), 14.78676478125);
    EXPECT_DOUBLE_EQ(parse_volume("1 t").in(millilitre), 4.92892159375);
    EXPECT_DOUBLE_EQ(parse_volume("5 cm3").in(millilitre), 5.0);
    EXPECT_DOUBLE_EQ(parse_volume("1 gal 1 qt").in(us_quart), 5.0);
}

TEST(ParseVolume, TakesAnOunceForAFluidOunce) {
    EXPECT_DOUBLE_EQ(parse_volume("8 oz").in(us_fluid_ounce), 8.0);
    EXPECT_DOUBLE_EQ(parse_volume("8 fl. oz.").in(us_fluid_ounce), 8.0);
}

TEST(ParseTemperature, ReadsScales) {
    EXPECT_NEAR(parse_temperature("68 F").celsius(), 20.0, 1e-12);
    EXPECT_DOUBLE_EQ(parse_temperature("20 °C").celsius(), 20.0);
    EXPECT_DOUBLE_EQ(parse_temperature("-40F").celsius(), -40.0);
    EXPECT_DOUBLE_EQ(parse_temperature("293.15 K").celsius(), 20.0);
    EXPECT_THROW((void)parse_temperature("20"), UnitError);
    EXPECT_THROW((void)parse_temperature("20 C 5 F"), UnitError);
    EXPECT_THROW((void)parse_temperature("-300 C"), OutOfRange);
}

TEST(ParseTemperatureDifference, DoesNotMoveTheZero) {
    EXPECT_DOUBLE_EQ(parse_temperature_difference("9 F").in(kelvin), 5.0);
    EXPECT_DOUBLE_EQ(parse_temperature_difference("-2 K").in(kelvin), -2.0);
}

TEST(ParsePressure, KeepsGaugeAndAbsoluteApart) {
    EXPECT_NEAR(parse_gauge_pressure("15 psi").in(kilopascal_gauge), 103.421359, 1e-6);
    EXPECT_DOUBLE_EQ(parse_gauge_pressure("15 lb").in(psi_gauge), 15.0);
    EXPECT_DOUBLE_EQ(parse_gauge_pressure("3 kPa").in(kilopascal_gauge), 3.0);
    EXPECT_NEAR(parse_absolute_pressure("29.92 inHg").in(kilopascal), 101.3208, 1e-3);
    EXPECT_DOUBLE_EQ(parse_absolute_pressure("1 atm").in(kilopascal), 101.325);
    EXPECT_THAT(refusal([] { (void)parse_gauge_pressure("14.7 psia"); }),
                HasSubstr("is an absolute pressure, but a gauge pressure is wanted"));
    EXPECT_THROW((void)parse_absolute_pressure("-1 kPa"), OutOfRange);
}

TEST(ParseLength, ReadsHeadspaceAndAltitude) {
    EXPECT_DOUBLE_EQ(parse_length("1 in").in(metre), 0.0254);
    EXPECT_DOUBLE_EQ(parse_length("5' 3\"").in(inch), 63.0);
    EXPECT_DOUBLE_EQ(parse_length("-86 m").in(metre), -86.0);
    EXPECT_DOUBLE_EQ(parse_length("-5 ft 3 in").in(inch), -63.0);
}

TEST(ParseGravity, ReadsSpecificGravityAndPlato) {
    EXPECT_DOUBLE_EQ(parse_gravity("1.048").sg(), 1.048);
    EXPECT_DOUBLE_EQ(parse_gravity("1.048 SG").sg(), 1.048);
    EXPECT_NEAR(parse_gravity("12 P").sg(), 1.04838, 1e-5);
    EXPECT_NEAR(parse_gravity("12 °P").sg(), 1.04838, 1e-5);
    EXPECT_THROW((void)parse_gravity("12"), UnitError);
    EXPECT_THROW((void)parse_gravity("1048"), UnitError);
    EXPECT_THROW((void)parse_gravity("0.95"), OutOfRange);
    EXPECT_THROW((void)parse_gravity("70 P"), OutOfRange);
    EXPECT_THROW((void)parse_gravity("1.048 kg"), UnitError);
}

TEST(ParseCells, ReadsBillionsAndBareCounts) {
    EXPECT_DOUBLE_EQ(parse_cells("100 B").in(billion_cells), 100.0);
    EXPECT_DOUBLE_EQ(parse_cells("100 billion cells").in(billion_cells), 100.0);
    EXPECT_DOUBLE_EQ(parse_cells("2.5e11").in(billion_cells), 250.0);
    EXPECT_DOUBLE_EQ(parse_cells("750 million").in(million_cells), 750.0);
    EXPECT_THROW((void)parse_cells("100"), UnitError);
}

TEST(Print, ChoosesUnitsAndDigits) {
    EXPECT_EQ(print(4.0 * ounce, System::us), "4 oz");
    EXPECT_EQ(print(4.0 * ounce, System::metric), "113.4 g");
    EXPECT_EQ(print(1.25 * pound, System::us), "1.25 lb");
    EXPECT_EQ(print(20.0 * litre, System::us), "5.283 gal");
    EXPECT_EQ(print(20.0 * litre, System::imperial), "4.399 imp gal");
    EXPECT_EQ(print(12345.6 * kilogram, System::metric), "12346 kg");
    EXPECT_EQ(print(Temperature::celsius(20.0), System::us), "68 °F");
    EXPECT_EQ(print(Temperature::celsius(-0.001), System::metric), "0 °C");
    EXPECT_EQ(print(15.0 * psi_gauge, System::metric), "103.4 kPa");
    EXPECT_EQ(print(Gravity::sg(1.048)), "1.048");
    EXPECT_EQ(print(Gravity::sg(1.04836)), "1.0484");
    EXPECT_EQ(print(Plato::degrees(12.5)), "12.5 °P");
    EXPECT_EQ(print(250.0 * billion_cells), "250 B");
    EXPECT_EQ(print(12.0 * million_cells), "12 M");
}

TEST(UnitTables, HaveNoSpellingTwiceInOneKind) {
    for (const UnitTable& table : unit_tables()) {
        std::vector<std::string_view> seen;
        for (const UnitRow& row : table.rows) {
            seen.push_back(row.symbol);
            for (const std::string_view name : row.names)
                if (!name.empty())
                    seen.push_back(name);
        }
        std::sort(seen.begin(), seen.end());
        EXPECT_EQ(std::adjacent_find(seen.begin(), seen.end()), seen.end()) << table.kind;
    }
}

} // namespace
} // namespace barmkeep::brewing
