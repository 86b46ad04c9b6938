// How every typed value is printed: rounded to what it is worth, and what was typed as it was
// typed.
#include "sdk/sheet/columns.hpp"
#include "sdk/sheet/figures.hpp"
#include "tests/sheet/examples.hpp"

#include <gmock/gmock.h>

namespace barmkeep::sheet {
namespace {

using namespace brewing;

std::string metric(const Text& text) {
    return one_line(text, examples::reader(System::metric));
}
std::string us(const Text& text) {
    return one_line(text, examples::reader(System::us));
}
std::string kitchen(const Text& text) {
    Reader reader = examples::reader(System::us);
    reader.kitchen = true;
    return one_line(text, reader);
}
constexpr Date day(int year, unsigned month, unsigned number) {
    return Date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{number}};
}
/// As it travels: rounded to the step of the wire.
template <class T>
T sent(const T& value) {
    return read_as<T>(to_json(value));
}

TEST(Values, Masses) {
    EXPECT_EQ(metric(113.398 * gram), "113 g");
    EXPECT_EQ(metric(4.52 * gram), "4.52 g");
    EXPECT_EQ(metric(0.05 * gram), "50 mg");
    EXPECT_EQ(metric(999.7 * gram), "1 kg");
    EXPECT_EQ(metric(1254 * gram), "1.25 kg");
    EXPECT_EQ(metric(0 * gram), "0 g");
    EXPECT_EQ(us(4 * ounce), "4 oz");
    EXPECT_EQ(us(11.5 * ounce), "11.5 oz");
    EXPECT_EQ(us(15.9 * ounce), "15.9 oz");
    EXPECT_EQ(us(1 * pound), "1 lb");
    EXPECT_EQ(us(3.3 * pound), "3.3 lb");
    EXPECT_EQ(us(1.5 * gram), "1.5 g");
}

TEST(Values, Volumes) {
    EXPECT_EQ(metric(0.61 * litre), "610 mL");
    EXPECT_EQ(metric(0.0025 * litre), "2.5 mL");
    EXPECT_EQ(metric(1.2 * litre), "1.2 L");
    EXPECT_EQ(metric(18.927 * litre), "18.9 L");
    EXPECT_EQ(us(5 * us_gallon), "5 gal");
    EXPECT_EQ(us(20 * litre), "5.28 gal");
    EXPECT_EQ(us(1 * us_quart), "1 qt");
    EXPECT_EQ(us(1 * us_pint), "16 fl oz");
    EXPECT_EQ(us(us_gallon.canonical_per_unit / 768 / 4 * litre), "0.25 tsp");
    EXPECT_EQ(one_line(2.27305 * litre, examples::reader(System::imperial)), "4 imp pt");
}

TEST(Values, KitchenMeasuresWhereAFractionIsNear) {
    const Volume teaspoon = us_gallon.canonical_per_unit / 768 * litre;
    EXPECT_EQ(kitchen(teaspoon / 4), "1/4 tsp");
    EXPECT_EQ(kitchen(teaspoon * 1.5), "1 1/2 tsp");
    EXPECT_EQ(kitchen(teaspoon * 6), "2 tbsp");
    EXPECT_EQ(kitchen(teaspoon * 16), "1/3 cup");
    EXPECT_EQ(kitchen(teaspoon * 48), "1 cup");
    EXPECT_EQ(kitchen(teaspoon * 84), "1 3/4 cups");
    EXPECT_EQ(kitchen(teaspoon * 55), "9.17 fl oz"); // no fraction of a cup
    EXPECT_EQ(kitchen(5 * us_gallon), "5 gal");
    EXPECT_EQ(metric(teaspoon / 4), "1.23 mL");
}

TEST(Values, WhatWasTypedComesBackAsTyped) {
    EXPECT_EQ(us(sent(parse_gauge_pressure("0.5 psi"))), "0.5 psi");
    EXPECT_EQ(us(sent(parse_gauge_pressure("12.5 psi"))), "12.5 psi");
    EXPECT_EQ(us(sent(parse_gauge_pressure("15 psi"))), "15 psi");
    EXPECT_EQ(metric(sent(parse_gauge_pressure("82.7 kPa"))), "82.7 kPa");
    EXPECT_EQ(metric(sent(parse_gauge_pressure("103.4 kPa"))), "103.4 kPa");
    EXPECT_EQ(us(sent(parse_length("1.25 in"))), "1.25 in");
    EXPECT_EQ(metric(sent(parse_length("2.5 cm"))), "2.5 cm");
    EXPECT_EQ(us(altitude(sent(parse_length("3937 ft")))), "3937 ft");
    EXPECT_EQ(us(altitude(sent(parse_length("4000 ft")))), "4000 ft");
    EXPECT_EQ(us(sent(parse_temperature("68 F"))), "68 °F");
    EXPECT_EQ(metric(sent(parse_temperature("20.5 C"))), "20.5 °C");
    EXPECT_EQ(us(sent(parse_mass("3.75 oz"))), "3.75 oz");
    EXPECT_EQ(us(sent(parse_volume("11.5 fl oz"))), "11.5 fl oz");
    EXPECT_EQ(us(amount_of(parse_mass("10.25 oz"))), "10.25 oz");
    EXPECT_EQ(us(amount_of(parse_mass("3.3 lb"))), "3.3 lb");
    EXPECT_EQ(metric(amount_of(parse_mass("113.4 g"))), "113.4 g");
    EXPECT_EQ(us(amount_of(parse_volume("1 pt"))), "16 fl oz");
    EXPECT_EQ(metric(pieces(12)), "12");
    EXPECT_EQ(metric(parse_duration("25 min")), "25 min");
}

TEST(Values, PointsOfScalesAndTheRest) {
    EXPECT_EQ(metric(Gravity::sg(1.0484)), "1.048");
    EXPECT_EQ(metric(Gravity::sg(1.1)), "1.100");
    EXPECT_EQ(metric(Temperature::celsius(-0.04)), "0 °C");
    EXPECT_EQ(us(5.0 * kelvin), "9 °F");
    EXPECT_EQ(us(14.7 * psi_absolute), "14.7 psia");
    EXPECT_EQ(metric(0.3048 * metre), "30.5 cm");
    EXPECT_EQ(us(5 * foot), "5 ft");
    EXPECT_EQ(metric(2.5 * kilowatt_hour), "9 MJ");
    EXPECT_EQ(number(5.25, 1).decimals, 1);
    EXPECT_EQ(metric(number(5.25, 1)), "5.3");
    EXPECT_EQ(metric(number(5)), "5");
    EXPECT_EQ(metric(number(-0.001, 1)), "0.0");
    EXPECT_EQ(metric(source("S75")), "[S75]");
    EXPECT_EQ(metric(LotCode{'J', 10}), "J10N");
    EXPECT_EQ(metric(count(0, "jar")), "no jars");
    EXPECT_EQ(metric(count(1, "jar")), "1 jar");
    EXPECT_EQ(metric(count(2, "loss", "losses")), "2 losses");
    EXPECT_EQ(metric(command("lot.show", {{"lot", "J10N"}})), "barm lot show J10N");
}

TEST(Values, CellsHaveTwoOrThreeFigures) {
    EXPECT_EQ(metric(178.7 * billion_cells), "179 B");
    EXPECT_EQ(metric(72.4 * billion_cells), "72 B");
    EXPECT_EQ(metric(9.87 * billion_cells), "9.9 B");
    EXPECT_EQ(metric(99.7 * billion_cells), "100 B");
    EXPECT_EQ(metric(1234 * billion_cells), "1230 B");
    EXPECT_EQ(metric(0.52 * billion_cells), "520 M");
    EXPECT_EQ(metric(0.0000012 * billion_cells), "1200 cells");
}

TEST(Values, RangesHaveTwoFiguresAndStayInOrder) {
    const auto cells = [](double low, std::optional<double> likely, double high) {
        return metric(range(QuantityKind::cells, low, likely, high));
    };
    EXPECT_EQ(cells(17.6, 72.4, 75.2), "72 B (18 to 75)");
    EXPECT_EQ(cells(178, 385.2, 409), "385 B (180 to 410)");
    EXPECT_EQ(cells(384, 385, 386), "385 B (380 to 390)");
    EXPECT_EQ(cells(385, 385, 409), "385 B (385 to 410)");
    EXPECT_EQ(cells(381, 381.4, 409), "381 B (380 to 410)");
    EXPECT_EQ(cells(386, 387, 389), "387 B (387 to 390)"); // not 390 below 387
    EXPECT_EQ(cells(72, 72, 72), "72 B");
    EXPECT_EQ(cells(121, std::nullopt, 152), "120 to 150 B");
    EXPECT_EQ(us(between(4 * ounce, 6 * ounce)), "4 to 6 oz");
    EXPECT_EQ(metric(range(QuantityKind::share, 0.7, 0.78, 0.914)), "78 % (70 to 91)");
    EXPECT_EQ(metric(range(QuantityKind::duration, 3600, std::nullopt, 5400)), "1 h to 1 h 30 min");
    EXPECT_EQ(metric(between(Gravity::sg(1.042), Gravity::sg(1.048))), "1.042 to 1.048");
    EXPECT_EQ(us(between(Temperature::celsius(20), Temperature::celsius(22))), "68 to 71.6 °F");
}

TEST(Values, SharesAreWholePerCent) {
    EXPECT_EQ(metric(share(0.783)), "78 %");
    EXPECT_EQ(metric(share(0)), "0 %");
    EXPECT_EQ(metric(share(1)), "100 %");
    EXPECT_EQ(metric(share(0.002)), "under 1 %");
    EXPECT_EQ(metric(share(0.9991)), "over 99 %"); // never sure before it is
}

TEST(Values, MoneyHasTheDigitsOfItsCurrency) {
    const Money sum{1'877'400};
    EXPECT_EQ(metric(sum), "1.88 EUR");
    EXPECT_EQ(metric(money(sum, "JPY")), "2 JPY");
    EXPECT_EQ(metric(money(sum, "KWD")), "1.877 KWD");
    EXPECT_EQ(metric(money(sum, "USD")), "1.88 USD");
    EXPECT_EQ(one_line(sum, Reader{}), "1.88");
    EXPECT_EQ(metric(Money{-3'005'000}), "-3.01 EUR"); // halves away from zero
    EXPECT_EQ(metric(Money{6'125}), "0.01 EUR");
    EXPECT_EQ(metric(Money{1'250}), "0.0013 EUR"); // the price of a gram is not nothing
    EXPECT_EQ(metric(Money{-400'000}), "-0.40 EUR");
    EXPECT_EQ(metric(Money{0}), "0.00 EUR");
    EXPECT_EQ(metric(Money{std::numeric_limits<std::int64_t>::min()}), "-9223372036854.78 EUR");
}

TEST(Values, DaysNearAndFar) { // today is Sunday, 18 October 2026
    EXPECT_EQ(metric(day(2026, 10, 18)), "today");
    EXPECT_EQ(metric(day(2026, 10, 19)), "tomorrow");
    EXPECT_EQ(metric(day(2026, 10, 17)), "yesterday");
    EXPECT_EQ(metric(day(2026, 10, 24)), "Sat");
    EXPECT_EQ(metric(day(2026, 10, 25)), "25 Oct");
    EXPECT_EQ(metric(day(2026, 10, 14)), "14 Oct"); // a weekday would mean the next one
    EXPECT_EQ(metric(day(2026, 3, 21)), "21 Mar");
    EXPECT_EQ(metric(day(2027, 3, 21)), "Mar 2027");
    EXPECT_EQ(metric(Date{}), "?");
    Reader december = examples::reader();
    december.now = parse_instant("2026-12-28T12:00:00Z");
    EXPECT_EQ(one_line(day(2027, 1, 10), december), "10 Jan 2027");
    december.days_are_near = false;
    EXPECT_EQ(one_line(day(2026, 12, 28), december), "Mon 28 Dec");
    EXPECT_EQ(one_line(day(2027, 1, 10), december), "Sun 10 Jan 2027");
}

TEST(Values, OnStandsOnlyBeforeDaysThatTakeIt) {
    EXPECT_EQ(metric(text("Open it on ", day(2026, 10, 19), ".")), "Open it tomorrow.");
    EXPECT_EQ(metric(text("Open it on ", day(2026, 10, 24), ".")), "Open it on Sat.");
    EXPECT_EQ(metric(text("Go on ", parse_instant("2026-10-18T16:00:00Z"))), "Go today 18:00");
    EXPECT_EQ(metric(text("season ", day(2026, 10, 18))), "season today");
}

TEST(Values, InstantsAreLocalAlsoOverMidnightAndSummerTime) {
    EXPECT_EQ(metric(parse_instant("2026-10-18T16:00:00Z")), "today 18:00");
    EXPECT_EQ(metric(parse_instant("2026-10-18T22:30:00Z")), "tomorrow 00:30");
    EXPECT_EQ(metric(parse_instant("2026-10-25T06:00:00Z")), "25 Oct 07:00"); // winter time
    Reader reader = examples::reader();
    reader.time_zone = "Nowhere/At_All";
    EXPECT_EQ(one_line(parse_instant("2026-10-18T16:00:00Z"), reader), "today 16:00 UTC");
    EXPECT_EQ(one_line(Instant::max(), reader), "?");
    EXPECT_EQ(one_line(Instant::min(), reader), "?");
    reader.now = Instant::max();
    EXPECT_EQ(one_line(day(1970, 1, 1), reader), "today"); // no clock: the epoch
}

TEST(Values, Durations) {
    EXPECT_EQ(metric(Seconds{45}), "45 s");
    EXPECT_EQ(metric(Seconds{90}), "1 min 30 s");
    EXPECT_EQ(metric(Seconds{16 * 60 + 12}), "16 min");
    EXPECT_EQ(metric(Seconds{59 * 60 + 45}), "1 h");
    EXPECT_EQ(metric(Seconds{5400}), "1 h 30 min");
    EXPECT_EQ(metric(Seconds{36 * 3600}), "36 h");
    EXPECT_EQ(metric(Seconds{53 * 3600}), "2 days 5 h");
    EXPECT_EQ(metric(Seconds{181 * 86400}), "181 days");
    EXPECT_EQ(metric(Seconds{-300}), "-5 min");
    EXPECT_EQ(metric(Quantity{QuantityKind::duration, 1e300}), "?");
}

TEST(Values, WhatIsNoNumberIsNotPrintedAsOne) {
    const double nan = std::nan("");
    for (const auto& kind : enum_names(QuantityKind{})) {
        EXPECT_EQ(metric(Quantity{kind.value, nan}), "?") << kind.text;
        EXPECT_EQ(us(range(kind.value, nan, 1, 2)), "?") << kind.text;
    }
}

TEST(Values, UnknownValuesArePlainOrNothing) {
    EXPECT_EQ(metric(UnknownValue{{{"mood", "good"}}}), "good");
    EXPECT_EQ(metric(UnknownValue{{{"mood", 3.5}}}), "3.5");
    EXPECT_EQ(metric(text("a", UnknownValue{{{"mood", json::object{{"x", 1}}}}}, "b")), "ab");
}

TEST(Values, AsciiHasNoOtherLetters) {
    Reader reader = examples::reader(System::us);
    reader.unicode = false;
    EXPECT_EQ(one_line(Temperature::celsius(20), reader), "68 F");
    EXPECT_EQ(one_line("M\u00e4rzen \u2013 caf\u00e9 \u65e5\u672c", reader), "Marzen - cafe ??");
    EXPECT_EQ(one_line("e\u0301", reader), "e");
}

TEST(Columns, WideAndCombiningLettersAreMeasured) {
    EXPECT_EQ(width_of("jar"), 3U);
    EXPECT_EQ(width_of("\u65e5\u672c"), 4U);
    EXPECT_EQ(width_of("e\u0301"), 1U);
    EXPECT_EQ(width_of("\xff\xfe"), 2U); // no UTF-8: one column a byte
    EXPECT_EQ(padded("\u65e5", 4, true), "  \u65e5");
}

TEST(Columns, LinesBreakAtBlanksThenAtTightOnesThenWithinTheWord) {
    using testing::ElementsAre;
    EXPECT_THAT(wrapped("add 4\u00a0oz of it", 8), ElementsAre("add 4\u00a0oz", "of it"));
    EXPECT_THAT(wrapped("a 12\u00a0345\u00a0678 b", 6), ElementsAre("a 12", "345", "678 b"));
    EXPECT_THAT(wrapped("abcdefgh i", 3), ElementsAre("abc", "def", "gh", "i"));
    EXPECT_THAT(wrapped("\u65e5\u672c\u8a9e", 4), ElementsAre("\u65e5\u672c", "\u8a9e"));
    EXPECT_THAT(wrapped("  ", 4), ElementsAre());
}

TEST(Columns, WhatIsNoTextBecomesAQuestionMark) {
    EXPECT_EQ(harmless("a\tb\nc\x01"), "a b c?");
    EXPECT_EQ(harmless("\xc3\x28\xed\xa0\x80\xf8"), "?(????");
    EXPECT_EQ(harmless("x\u202ey"), "x?y");
}

} // namespace
} // namespace barmkeep::sheet
