// What must hold for every quantity: printing and reading it back, sums, sizes of units.
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

namespace barmkeep::brewing {
namespace {

/// Amounts over many decades, as cellars and haemacytometers have them.
rc::Gen<double> amounts() {
    return rc::gen::map(rc::gen::pair(rc::gen::inRange(1, 100000000), rc::gen::inRange(-8, 1)),
                        [](const std::pair<int, int>& drawn) {
                            return drawn.first * std::pow(10.0, drawn.second);
                        });
}

System any_system() {
    return *rc::gen::element(System::metric, System::us, System::imperial);
}

/// Half of the last digit of the number in a text, in the unit of the text, as a share of the
/// number: what printing may have lost.
double half_last_digit(const std::string& text) {
    const std::string number = text.substr(0, text.find(' '));
    const std::size_t point = number.find('.');
    const int decimals =
        point == std::string::npos ? 0 : static_cast<int>(number.size() - point - 1);
    return 0.5 * std::pow(10.0, -decimals) / std::abs(std::stod(number));
}

template <class Quantity, class Parse>
void round_trip(Quantity quantity, Parse parse) {
    const std::string text = print(quantity, any_system());
    RC_LOG() << text;
    const double read = parse(text).canonical();
    RC_ASSERT(std::abs(read - quantity.canonical()) <=
              std::abs(read) * half_last_digit(text) * (1.0 + 1e-9));
}

RC_GTEST_PROP(Print, AMassReadsBack, ()) {
    round_trip(*amounts() * gram, parse_mass);
}
RC_GTEST_PROP(Print, AVolumeReadsBack, ()) {
    round_trip(*amounts() * litre, parse_volume);
}
RC_GTEST_PROP(Print, AnEnergyReadsBack, ()) {
    round_trip(*amounts() * kilojoule, parse_energy);
}
RC_GTEST_PROP(Print, AGaugePressureReadsBack, ()) {
    const double sign = *rc::gen::element(-1.0, 1.0);
    round_trip(sign * *amounts() * kilopascal_gauge, parse_gauge_pressure);
}
RC_GTEST_PROP(Print, AnAbsolutePressureReadsBack, ()) {
    round_trip(*amounts() * kilopascal, parse_absolute_pressure);
}
RC_GTEST_PROP(Print, ALengthReadsBack, ()) {
    const double sign = *rc::gen::element(-1.0, 1.0);
    round_trip(sign * *amounts() * metre, parse_length);
}

RC_GTEST_PROP(Print, CellsReadBack, ()) {
    const Cells cells = *amounts() * billion_cells;
    const std::string text = print(cells);
    const double read = parse_cells(text).canonical();
    RC_ASSERT(std::abs(read - cells.canonical()) <= read * half_last_digit(text) * (1.0 + 1e-9));
}

RC_GTEST_PROP(Print, ATemperatureReadsBack, ()) {
    const Temperature temperature = Temperature::celsius(*rc::gen::inRange(-27315, 100000) / 97.0);
    RC_PRE(temperature.celsius() >= -273.0);
    const System system = any_system();
    const double off = (parse_temperature(print(temperature, system)) - temperature).in(kelvin);
    RC_ASSERT(std::abs(off) <= (system == System::us ? 0.005 / 1.8 : 0.005) + 1e-9);
}

RC_GTEST_PROP(Print, ATemperatureDifferenceReadsBack, ()) {
    const TemperatureDifference difference = *rc::gen::inRange(-10000, 10000) / 97.0 * kelvin;
    const auto read = parse_temperature_difference(print(difference, any_system()));
    RC_ASSERT(std::abs((read - difference).in(kelvin)) <= 0.005 + 1e-9);
}

RC_GTEST_PROP(Print, AGravityReadsBack, ()) {
    const Gravity gravity = Gravity::sg(*rc::gen::inRange(98000, 160000) / 100000.0);
    RC_ASSERT(std::abs(parse_gravity(print(gravity)).sg() - gravity.sg()) <= 0.00005 + 1e-12);
}

RC_GTEST_PROP(Parse, ASumIsTheSumOfItsTerms, ()) {
    const int pounds = *rc::gen::inRange(0, 1000);
    const int ounces = *rc::gen::inRange(0, 1000);
    const std::string text = std::to_string(pounds) + " lb " + std::to_string(ounces) + " oz";
    RC_ASSERT(std::abs((parse_mass(text) - pounds * pound - ounces * ounce).in(gram)) < 1e-6);
}

RC_GTEST_PROP(Parse, AMixedNumberIsWholeAndFraction, ()) {
    const int whole = *rc::gen::inRange(0, 1000);
    const int over = *rc::gen::inRange(1, 64);
    const int under = *rc::gen::inRange(1, 64);
    const std::string text =
        std::to_string(whole) + " " + std::to_string(over) + "/" + std::to_string(under) + " L";
    RC_ASSERT(std::abs(parse_volume(text).in(litre)-whole - double(over) / under) < 1e-9);
}

RC_GTEST_PROP(Parse, AnyTextIsReadOrRefusedInWords, (const std::string& text)) {
    try {
        const Mass mass = parse_mass(text);
        RC_ASSERT(std::isfinite(mass.in(gram)));
        RC_ASSERT(mass.in(gram) >= 0.0);
    } catch (const UnitError& error) {
        RC_ASSERT(!error.hint().empty());
    } catch (const OutOfRange& error) {
        RC_ASSERT(!error.advice().empty());
    }
}

RC_GTEST_PROP(Parse, AnyTextOfItsOwnLettersIsReadOrRefusedInWords, ()) {
    const std::string text = *rc::gen::container<std::string>(
        rc::gen::elementOf(std::string{"0123456789. /+-,eElbozgLkmt"}));
    try {
        RC_ASSERT(std::isfinite(parse_volume(text).in(litre)));
    } catch (const UnitError& error) {
        RC_ASSERT(!error.hint().empty());
    } catch (const OutOfRange& error) {
        RC_ASSERT(!error.advice().empty());
    }
}

TEST(Parse, EverySpellingOfTheTablesIsReadAsItsUnit) {
    const auto check = [](std::string_view kind, auto parse) {
        for (const UnitRow& row : unit_table(kind).rows) {
            EXPECT_DOUBLE_EQ(parse("2 " + std::string{row.symbol}).canonical(),
                             2.0 * row.canonical_per_unit)
                << row.symbol;
            for (const std::string_view name : row.names) {
                if (name.empty())
                    continue;
                EXPECT_DOUBLE_EQ(parse("2 " + std::string{name}).canonical(),
                                 2.0 * row.canonical_per_unit)
                    << name;
            }
        }
    };
    check("mass", [](const std::string& text) { return parse_mass(text); });
    check("volume", [](const std::string& text) { return parse_volume(text); });
    check("length", [](const std::string& text) { return parse_length(text); });
    check("energy", [](const std::string& text) { return parse_energy(text); });
    check("gauge pressure", [](const std::string& text) { return parse_gauge_pressure(text); });
    check("absolute pressure",
          [](const std::string& text) { return parse_absolute_pressure(text); });
    check("temperature difference",
          [](const std::string& text) { return parse_temperature_difference(text); });
}

} // namespace
} // namespace barmkeep::brewing
