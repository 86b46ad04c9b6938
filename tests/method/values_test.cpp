// Money, time, lot codes and amounts.
#include "sdk/brewing/units.hpp"
#include "sdk/method/amount.hpp"
#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/structure.hpp"
#include "sdk/method/time.hpp"

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

namespace barmkeep {
namespace {

using namespace std::chrono_literals;

TEST(MoneyText, ReadsAndWritesDecimals) {
    EXPECT_EQ(parse_money("18.5").millionths, 18'500'000);
    EXPECT_EQ(to_text(parse_money("18.5")), "18.50");
    EXPECT_EQ(to_text(parse_money("0.006125")), "0.006125");
    EXPECT_EQ(to_text(parse_money("-3")), "-3.00");
    for (const char* text :
         {"", "-", "1,5", "1.", ".5", "1.2345678", "1e3", "12 EUR", "9999999999999"})
        EXPECT_THROW((void)parse_money(text), std::invalid_argument) << text;
}

TEST(MoneyText, TakesNumbersAsTheDecimalTheyWereWrittenAs) {
    ParseContext reading;
    EXPECT_EQ(Codec<Money>::read(json::value(18.1), reading)->millionths, 18'100'000);
    EXPECT_EQ(Codec<Money>::read(json::value(7), reading)->millionths, 7'000'000);
    EXPECT_TRUE(reading.clean());
    EXPECT_FALSE(Codec<Money>::read(json::value(0.1234567), reading).has_value());
}

RC_GTEST_PROP(MoneyText, RoundTrips, (std::int32_t high, std::int32_t low)) {
    const Money money{static_cast<std::int64_t>(high) * 1'000'000 + low};
    RC_ASSERT(parse_money(to_text(money)) == money);
}

RC_GTEST_PROP(MoneyShare, TakingBitByBitTakesAll, (std::vector<std::uint16_t> parts)) {
    std::int64_t left = 0;
    for (const auto part : parts)
        left += part;
    const Money whole{1'000'003};
    Money value = whole;
    Money taken{};
    for (const auto part : parts) {
        if (left == 0)
            break;
        const Money out = share_of(value, part, left);
        RC_ASSERT(out.millionths >= 0 && out <= value);
        taken = taken + out;
        value = value - out;
        left -= part;
    }
    if (!parts.empty() && taken.millionths > 0)
        RC_ASSERT(taken == whole);
}

TEST(MoneyShare, RoundsHalvesAwayFromZero) {
    EXPECT_EQ(share_of({5}, 1, 2).millionths, 3);
    EXPECT_EQ(share_of({-5}, 1, 2).millionths, -3);
    EXPECT_EQ(share_of({9'000'000'000'000'000'000}, 999'999'999'999, 1'000'000'000'000).millionths,
              8'999'999'999'991'000'000);
}

TEST(Dates, AcceptsTheFormsPeopleWrite) {
    const Date day{2026y / 3 / 14};
    for (const char* text : {"2026-03-14", "14.3.2026", "14.03.2026", "14 Mar 2026"})
        EXPECT_EQ(parse_date(text), day) << text;
    for (const char* text :
         {"", "2026-02-30", "3/14/2026", "14/03/2026", "2026-03-14x", "26-3-14", "0001-01-01"})
        EXPECT_THROW((void)parse_date(text), std::invalid_argument) << text;
    EXPECT_EQ(days_between(2024y / 2 / 28, 2024y / 3 / 1), 2);
    EXPECT_EQ(plus_days(2026y / 12 / 31, 1), (Date{2027y / 1 / 1}));
}

TEST(Instants, AreUtc) {
    const Instant instant = parse_instant("2026-03-14T08:30:00Z");
    EXPECT_EQ(to_text(instant), "2026-03-14T08:30:00Z");
    EXPECT_EQ(parse_instant("2026-03-14T09:30:00+01:00"), instant);
    EXPECT_EQ(to_text(instant + 250ms), "2026-03-14T08:30:00.250Z");
    EXPECT_THROW((void)parse_instant("2026-03-14 08:30"), std::invalid_argument);
}

TEST(Durations, AcceptsTheFormsPeopleWrite) {
    EXPECT_EQ(parse_duration("25 min"), 25min);
    EXPECT_EQ(parse_duration("1 h 30 min"), 90min);
    EXPECT_EQ(parse_duration("1:30"), 90min);
    EXPECT_EQ(parse_duration("90s"), 90s);
    EXPECT_EQ(to_text(Seconds{5430}), "1 h 30 min 30 s");
    for (const char* text :
         {"", "25", "min", "25 parsecs", "1:3", "-5 min", "1:99", "99999999999999999999:00",
          "9223372036854775807:00", "1:000000000000000000000", "99999999999999999999 min"})
        EXPECT_THROW((void)parse_duration(text), std::invalid_argument) << text;
}

TEST(LotCodes, CatchASlipOfThePen) {
    const std::string code = to_text(LotCode{'J', 14});
    EXPECT_EQ(parse_lot_code(code), (LotCode{'J', 14}));
    std::string lower = code;
    lower[0] = 'j';
    EXPECT_EQ(parse_lot_code(lower), (LotCode{'J', 14}));
    for (const char* text : {"", "J", "14", "J14", "J014M", "J-14M", "J99999999999999M"})
        EXPECT_THROW((void)parse_lot_code(text), std::invalid_argument) << text;
}

RC_GTEST_PROP(LotCodes, EverySingleWrongDigitAndEverySwapIsCaught, ()) {
    const auto number = *rc::gen::inRange<std::int64_t>(1, 1'000'000'000);
    const std::string code = to_text(LotCode{'E', number});
    const auto place = *rc::gen::inRange<std::size_t>(1, code.size() - 1);
    std::string wrong = code;
    wrong[place] = static_cast<char>('0' + *rc::gen::inRange(0, 10));
    if (wrong != code)
        RC_ASSERT_THROWS_AS((void)parse_lot_code(wrong), std::invalid_argument);
    std::string swapped = code;
    if (place + 2 < code.size())
        std::swap(swapped[place], swapped[place + 1]);
    if (swapped != code)
        RC_ASSERT_THROWS_AS((void)parse_lot_code(swapped), std::invalid_argument);
}

AmountGiven given(json::value value) {
    AmountGiven made;
    made.given = std::move(value);
    return made;
}

TEST(Amounts, TheGoodDecidesWhatAnOunceIs) {
    EXPECT_EQ(given("4 oz").as(Measure::mass, "").steps, 113'398);
    EXPECT_EQ(given("4 oz").as(Measure::volume, "").steps, 118'294);
    EXPECT_EQ(given(1.5).as(Measure::mass, "").steps, 1'500);
    EXPECT_EQ(given("12").as(Measure::pieces, "").steps, 12);
    EXPECT_EQ(given(to_json(pieces(7))).as(Measure::pieces, "").steps, 7);
}

TEST(Amounts, RefuseAnotherKindOfUnitAndTheAbsurd) {
    const auto reason = [](json::value value, Measure measure) {
        try {
            (void)given(std::move(value)).as(measure, "/amount");
        } catch (const Error& error) {
            EXPECT_EQ(error.faults().front().pointer, "/amount");
            EXPECT_FALSE(error.hint().empty());
            EXPECT_EQ(std::string(error.what()).find(error.hint()), std::string::npos)
                << "said twice";
            return error.reason();
        }
        return std::string("accepted");
    };
    EXPECT_EQ(reason("-2 lb", Measure::mass), "out_of_range");
    EXPECT_EQ(reason("2 L", Measure::mass), "wrong_unit");
    EXPECT_EQ(reason("4", Measure::mass), "wrong_unit");
    EXPECT_EQ(reason("4 fl oz", Measure::mass), "wrong_unit");
    EXPECT_EQ(reason("three", Measure::pieces), "wrong_unit");
    EXPECT_EQ(reason(1.5, Measure::pieces), "not_whole");
    EXPECT_EQ(reason("0x10", Measure::pieces), "wrong_unit");
    EXPECT_EQ(reason("12 jars", Measure::pieces), "wrong_unit");
    EXPECT_EQ(reason(1e18, Measure::mass), "out_of_range");
    EXPECT_EQ(reason(to_json(pieces(3)), Measure::mass), "wrong_unit");
}

} // namespace
} // namespace barmkeep
