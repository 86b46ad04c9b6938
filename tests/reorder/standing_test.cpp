#include "plugins/reorder/standing.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::reorder {
namespace {

using contract::GoodClass;
using test::day;
using testing::HasSubstr;

contract::Good good_of(std::string name, GoodClass goods, Measure measure,
                       std::optional<Amount> package = {}) {
    contract::Good good;
    good.name = std::move(name);
    good.goods = goods;
    good.measure = measure;
    good.package = package;
    return good;
}

contract::Brew brew_of(std::int64_t number, std::string_view on, std::string good,
                       std::int64_t count) {
    contract::Brew brew;
    brew.number = number;
    brew.day = day(on);
    brew.set_aside = {{LotCode('L', 1), std::move(good), pieces(count)}};
    return brew;
}

/// Lids: so many free, so many set aside; sold in boxes of 12.
Scene lids(std::int64_t free, std::int64_t set_aside = 0) {
    auto lot = test::lot_of(test::code('L', 1), "lids", GoodClass::lids, pieces(free + set_aside));
    lot.free = pieces(free);
    lot.set_aside = pieces(set_aside);
    Scene scene;
    scene.today = day("2026-03-14");
    scene.goods = {good_of("lids", GoodClass::lids, Measure::pieces, pieces(12))};
    scene.shelves = {test::shelf_of({lot})};
    return scene;
}

Limit limit(std::int64_t at_least, std::int64_t up_to, std::int64_t lead_days = 0) {
    return {"lids", pieces(at_least), pieces(up_to), lead_days};
}

TEST(Standing, AtTheLimitIsLowAndAboveItIsNot) {
    EXPECT_TRUE(standing_of(limit(10, 40), lids(10)).low);
    EXPECT_TRUE(standing_of(limit(10, 40), lids(0)).low);
    EXPECT_FALSE(standing_of(limit(10, 40), lids(11)).low);
}

TEST(Standing, WhatIsSetAsideIsNotFree) {
    EXPECT_TRUE(standing_of(limit(10, 40), lids(8, 20)).low);
}

TEST(Standing, PackagesAreWhole) {
    // 40 - 9 = 31 lids are 3 boxes of 12.
    const auto standing = standing_of(limit(10, 40), lids(9));
    EXPECT_EQ(standing.missing, pieces(31));
    EXPECT_EQ(standing.packages, 3);
    EXPECT_EQ(standing.title, "Buy 3 packages of lids (12 each)");
    EXPECT_EQ(standing_of(limit(10, 34), lids(10)).packages, 2);
    EXPECT_EQ(standing_of(limit(10, 22), lids(10)).title, "Buy 1 package of lids (12 each)");
}

TEST(Standing, WhatLiesAtTheLimitIsDueToday) {
    const auto standing = standing_of(limit(10, 40, 5), lids(9));
    EXPECT_EQ(standing.due, day("2026-03-14"));
    EXPECT_FALSE(standing.brew);
}

TEST(Standing, WhatABrewDayWillTakeIsDueBeforeIt) {
    // 30 lie there, 8 of them free: the day that sets 12 aside leaves 18, the one with 10 leaves 8.
    auto scene = lids(8, 22);
    scene.brews = {brew_of(2, "2026-04-20", "lids", 10), brew_of(1, "2026-04-01", "lids", 12)};
    auto standing = standing_of(limit(10, 40), scene);
    EXPECT_EQ(standing.brew, 2);
    EXPECT_EQ(standing.due, day("2026-04-19"));
    EXPECT_EQ(standing_of(limit(10, 40, 7), scene).due, day("2026-04-13"));
    EXPECT_EQ(standing_of(limit(10, 40, 90), scene).due, day("2026-03-14"));
    EXPECT_THAT(*standing.detail, HasSubstr("Brew day 2"));
}

TEST(Standing, CancelledBrewDaysTakeNothing) {
    auto scene = lids(8, 22);
    scene.brews = {brew_of(1, "2026-04-01", "lids", 22)};
    scene.brews[0].state = contract::BrewState::cancelled;
    EXPECT_EQ(standing_of(limit(10, 40), scene).due, day("2026-03-14"));
}

TEST(Standing, ConcentrateIsToBeCannedAgain) {
    Scene scene;
    scene.today = day("2026-03-14");
    scene.goods = {good_of("light concentrate", GoodClass::concentrate, Measure::pieces)};
    const Limit jars{"light concentrate", pieces(4), pieces(14), 0};
    const auto standing = standing_of(jars, scene);
    EXPECT_TRUE(standing.low); // none on the shelf at all
    EXPECT_EQ(standing.title, "Can again: 14 jars of light concentrate");
}

TEST(Standing, MassIsToldInItsUnit) {
    Scene scene;
    scene.today = day("2026-03-14");
    scene.goods = {good_of("dry extract", GoodClass::extract, Measure::mass,
                           Amount{1'500'000, Measure::mass})};
    const Limit mass{"dry extract", {500'000, Measure::mass}, {3'000'000, Measure::mass}, 0};
    const auto standing = standing_of(mass, scene);
    EXPECT_EQ(standing.packages, 2);
    EXPECT_THAT(*standing.title, HasSubstr("(1.5 kg each)"));
    scene.units = contract::Units::us;
    EXPECT_THAT(*standing_of(mass, scene).title, HasSubstr(" lb"));
    EXPECT_THAT(*standing_of(mass, scene).detail, testing::Not(HasSubstr(" g")));
}

TEST(Standing, JarsThatDidNotSealAreNoStock) {
    Scene scene;
    scene.today = day("2026-03-14");
    scene.goods = {good_of("light concentrate", GoodClass::concentrate, Measure::pieces)};
    contract::Lot lot;
    lot.free = pieces(2);
    lot.facts.unsealed = true;
    contract::Shelf shelf;
    shelf.good = "light concentrate";
    shelf.free = pieces(6);
    shelf.set_aside = pieces(0);
    shelf.lots = {lot};
    scene.shelves = {shelf};
    EXPECT_EQ(standing_of({"light concentrate", pieces(4), pieces(14), 0}, scene).free, pieces(4));
}

TEST(Standing, ALimitWhoseGoodIsGoneSaysSo) {
    auto scene = lids(0);
    scene.goods.clear();
    const auto standing = standing_of(limit(10, 40), scene);
    EXPECT_FALSE(standing.low);
    EXPECT_FALSE(standing.goods);
    EXPECT_THAT(*standing.detail, HasSubstr("barm limit remove 'lids'"));
}

LimitSet::Params asked(std::string good, std::int64_t at_least) {
    LimitSet::Params params;
    params.good = std::move(good);
    params.at_least = AmountGiven{pieces(at_least)};
    return params;
}

TEST(LimitOf, LeavesAPackageAboveTheLimitWhereNothingIsSaid) {
    EXPECT_EQ(limit_of(asked("lids", 10), lids(0).goods).up_to, pieces(22));
    const std::vector bare{good_of("lids", GoodClass::lids, Measure::pieces)};
    EXPECT_EQ(limit_of(asked("lids", 0), bare).up_to, pieces(1));
}

TEST(LimitOf, TakesTheGoodsOwnSpelling) {
    EXPECT_EQ(limit_of(asked("LIDS", 10), lids(0).goods).good, "lids");
}

TEST(LimitOf, AnUnknownGoodIsToldWithTheNearest) {
    EXPECT_EQ(test::reason_of([] { return limit_of(asked("lidz", 1), lids(0).goods); }),
              "good_unknown");
    EXPECT_THAT(test::hint_of([] { return limit_of(asked("lidz", 1), lids(0).goods); }),
                HasSubstr("'lids'"));
}

TEST(LimitOf, RefusesWhatCouldNeverBeRight) {
    auto params = asked("lids", 10);
    params.up_to = AmountGiven{pieces(10)};
    EXPECT_EQ(test::reason_of([&] { return limit_of(params, lids(0).goods); }), "out_of_range");
    EXPECT_EQ(test::reason_of([] { return limit_of(asked("lids", -1), lids(0).goods); }),
              "out_of_range");
    params.at_least.given = "2 kg";
    EXPECT_FALSE(test::reason_of([&] { return limit_of(params, lids(0).goods); }).empty());
}

TEST(ReminderOf, KeepsTheEarlierDayAndBeginsAnewOnlyAfterItWasDone) {
    const auto standing = standing_of(limit(10, 40), lids(9));
    EXPECT_EQ(reminder_of(standing, nullptr).name, "reorder:lids");
    EXPECT_EQ(reminder_of(standing, nullptr).due, day("2026-03-14"));
    contract::Reminder before;
    before.title = *standing.title;
    before.detail = standing.detail;
    before.due = day("2026-03-01");
    EXPECT_EQ(reminder_of(standing, &before).due, day("2026-03-01"));
    // Done, and nothing has changed: posting the same changes nothing.
    before.state = contract::ReminderState::done;
    EXPECT_EQ(reminder_of(standing, &before).due, day("2026-03-01"));
    // Done, and then it fell further.
    before.detail = "12 free";
    EXPECT_EQ(reminder_of(standing, &before).due, day("2026-03-14"));
}

TEST(ReminderOf, FitsTheReminderEvenWithTheLongestName) {
    auto scene = lids(0);
    const std::string name(60, 'l');
    scene.goods[0].name = name;
    auto longest = limit(999'999'999'999, 1'000'000'000'000);
    longest.good = name;
    const auto post = reminder_of(standing_of(longest, scene), nullptr);
    EXPECT_NO_THROW((void)read_as<contract::ReminderPost::Params>(to_json(post)));
}

} // namespace
} // namespace barmkeep::reorder
