#include "plugins/reorder/good_status.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::reorder {
namespace {

using contract::Category;
using test::day;
using testing::HasSubstr;

contract::Good good_of(std::string name, Category category, Measure measure,
                       std::optional<Amount> package = {}) {
    contract::Good good;
    good.name = std::move(name);
    good.category = category;
    good.measure = measure;
    good.package = package;
    return good;
}

contract::Brew brew_of(std::int64_t number, std::string_view on, std::string good,
                       std::int64_t count) {
    contract::Brew brew;
    brew.number = number;
    brew.day = day(on);
    brew.reserved = {{LotCode('L', 1), std::move(good), pieces(count)}};
    return brew;
}

/// Lids: so many free, so many reserved; sold in boxes of 12.
Inventory lids(std::int64_t free, std::int64_t reserved = 0) {
    auto lot = test::lot_of(test::code('L', 1), "lids", Category::lids, pieces(free + reserved));
    lot.available = pieces(free);
    lot.reserved = pieces(reserved);
    Inventory inventory;
    inventory.today = day("2026-03-14");
    inventory.goods = {good_of("lids", Category::lids, Measure::pieces, pieces(12))};
    inventory.shelves = {test::shelf_of({lot})};
    return inventory;
}

ReorderPoint point(std::int64_t reorder_point, std::int64_t order_up_to,
                   std::int64_t lead_days = 0) {
    return {"lids", pieces(reorder_point), pieces(order_up_to), lead_days};
}

TEST(GoodStatus, AtTheLimitIsLowAndAboveItIsNot) {
    EXPECT_TRUE(status_of(point(10, 40), lids(10)).low);
    EXPECT_TRUE(status_of(point(10, 40), lids(0)).low);
    EXPECT_FALSE(status_of(point(10, 40), lids(11)).low);
}

TEST(GoodStatus, WhatIsReservedIsNotFree) {
    EXPECT_TRUE(status_of(point(10, 40), lids(8, 20)).low);
}

TEST(GoodStatus, PackagesAreWhole) {
    // 40 - 9 = 31 lids are 3 boxes of 12.
    const auto status = status_of(point(10, 40), lids(9));
    EXPECT_EQ(status.missing, pieces(31));
    EXPECT_EQ(status.packages, 3);
    EXPECT_EQ(status.title, "Buy 3 packages of lids (12 each)");
    EXPECT_EQ(status_of(point(10, 34), lids(10)).packages, 2);
    EXPECT_EQ(status_of(point(10, 22), lids(10)).title, "Buy 1 package of lids (12 each)");
}

TEST(GoodStatus, WhatLiesAtTheLimitIsDueToday) {
    const auto status = status_of(point(10, 40, 5), lids(9));
    EXPECT_EQ(status.due, day("2026-03-14"));
    EXPECT_FALSE(status.brew);
}

TEST(GoodStatus, WhatABrewDayWillTakeIsDueBeforeIt) {
    // 30 lie there, 8 of them free: the day that sets 12 aside leaves 18, the one with 10 leaves 8.
    auto inventory = lids(8, 22);
    inventory.brews = {brew_of(2, "2026-04-20", "lids", 10), brew_of(1, "2026-04-01", "lids", 12)};
    auto status = status_of(point(10, 40), inventory);
    EXPECT_EQ(status.brew, 2);
    EXPECT_EQ(status.due, day("2026-04-19"));
    EXPECT_EQ(status_of(point(10, 40, 7), inventory).due, day("2026-04-13"));
    EXPECT_EQ(status_of(point(10, 40, 90), inventory).due, day("2026-03-14"));
    EXPECT_THAT(*status.note, HasSubstr("Brew day 2"));
}

TEST(GoodStatus, CancelledBrewDaysTakeNothing) {
    auto inventory = lids(8, 22);
    inventory.brews = {brew_of(1, "2026-04-01", "lids", 22)};
    inventory.brews[0].state = contract::BrewState::cancelled;
    EXPECT_EQ(status_of(point(10, 40), inventory).due, day("2026-03-14"));
}

TEST(GoodStatus, ConcentrateIsToBeCannedAgain) {
    Inventory inventory;
    inventory.today = day("2026-03-14");
    inventory.goods = {good_of("light concentrate", Category::concentrate, Measure::pieces)};
    const ReorderPoint jars{"light concentrate", pieces(4), pieces(14), 0};
    const auto status = status_of(jars, inventory);
    EXPECT_TRUE(status.low); // none on the shelf at all
    EXPECT_EQ(status.title, "Can 14 jars of light concentrate");
}

TEST(GoodStatus, MassIsToldInItsUnit) {
    Inventory inventory;
    inventory.today = day("2026-03-14");
    inventory.goods = {
        good_of("dry extract", Category::extract, Measure::mass, Amount{1'500'000, Measure::mass})};
    const ReorderPoint mass{"dry extract", {500'000, Measure::mass}, {3'000'000, Measure::mass}, 0};
    const auto status = status_of(mass, inventory);
    EXPECT_EQ(status.packages, 2);
    EXPECT_THAT(*status.title, HasSubstr("(1.5 kg each)"));
    inventory.units = contract::Units::us;
    EXPECT_THAT(*status_of(mass, inventory).title, HasSubstr(" lb"));
    EXPECT_THAT(*status_of(mass, inventory).note, testing::Not(HasSubstr(" g")));
}

/// Two lots of concentrate: four jars that keep, and so many until a day.
Inventory concentrate(std::int64_t dated, std::string_view until) {
    const std::string name = "light concentrate";
    Inventory inventory;
    inventory.today = day("2026-03-14");
    inventory.goods = {good_of(name, Category::concentrate, Measure::pieces)};
    auto first = test::jars_of(1, 4, 1.090, 0.42, name);
    auto second = test::jars_of(2, dated, 1.090, 0.42, name);
    second.best_by = day(until);
    inventory.shelves = {test::shelf_of({first, second})};
    return inventory;
}

ReorderPoint jars(std::int64_t reorder_point) {
    return {"light concentrate", pieces(reorder_point), pieces(reorder_point + 10), 0};
}

// Issue 8: jars that did not seal stood as free stock.  The core computes what is free; a lot on
// hold is also no stock on a planned day.
TEST(GoodStatus, JarsOnHoldAreNoStock) {
    auto inventory = concentrate(8, "2027-01-01");
    auto& lot = inventory.shelves[0].lots[1];
    lot.available = pieces(6);
    lot.reserved = pieces(2);
    test::put_on_hold(lot, contract::HoldKind::seal_failed, "lid flexed");
    inventory.shelves[0].available = pieces(4);
    inventory.shelves[0].reserved = pieces(2);
    EXPECT_EQ(status_of(jars(3), inventory).available, pieces(4));
    const auto status = status_of(jars(4), inventory);
    EXPECT_TRUE(status.low);
    EXPECT_EQ(status.missing, pieces(10));
    EXPECT_EQ(status.due, day("2026-03-14"));
    EXPECT_FALSE(status.brew);
}

TEST(GoodStatus, ABrewDayThatTakesStockExactlyToTheLimitMakesItDue) {
    auto inventory = lids(10, 20);
    inventory.brews = {brew_of(1, "2026-04-01", "lids", 20)};
    auto status = status_of(point(10, 40), inventory);
    EXPECT_EQ(status.brew, 1);
    EXPECT_EQ(status.due, day("2026-03-31"));
    // With a reorder point lower by one it is not low; with one taken less that day another one
    // counts.
    EXPECT_FALSE(status_of(point(9, 40), inventory).low);
    inventory.brews = {brew_of(1, "2026-04-01", "lids", 19), brew_of(2, "2026-05-01", "lids", 1)};
    EXPECT_EQ(status_of(point(10, 40), inventory).brew, 2);
}

TEST(GoodStatus, JarsThatExpireBeforeABrewDayDoNotCountOnIt) {
    // Twelve jars today, two of the four that keep reserved; the eight are past by the brew day.
    auto inventory = concentrate(8, "2026-04-01");
    auto& lot = inventory.shelves[0].lots[0];
    lot.reserved = pieces(2);
    lot.available = pieces(2);
    inventory.shelves[0].reserved = pieces(2);
    inventory.shelves[0].available = pieces(4);
    contract::Brew brew;
    brew.number = 7;
    brew.day = day("2026-04-02");
    brew.reserved = {{lot.code, lot.good, pieces(2)}};
    inventory.brews = {brew};
    EXPECT_EQ(status_of(jars(4), inventory).brew, 7); // 2 are left on it
    EXPECT_EQ(status_of(jars(4), inventory).due, day("2026-04-01"));
    inventory.brews[0].day = day("2026-04-01"); // their last day: 10 are left on it
    EXPECT_FALSE(status_of(jars(4), inventory).brew);
}

TEST(GoodStatus, WhatABrewDayNeedsBeyondTheShelfIsMissingToo) {
    auto inventory = lids(0, 8);
    auto brew = brew_of(1, "2026-04-01", "lids", 8);
    brew.needs = {{"lids", pieces(13), pieces(8), brew.day}};
    inventory.brews = {brew};
    const auto status = status_of(point(2, 12), inventory);
    EXPECT_EQ(status.needed, pieces(5));
    EXPECT_EQ(status.missing, pieces(17)); // 5 for that day, 12 free afterwards
    EXPECT_EQ(status.packages, 2);
    EXPECT_EQ(status.brew, 1);
    EXPECT_THAT(*status.note, HasSubstr("need 5 more"));
    inventory.brews[0].state = contract::BrewState::cancelled;
    EXPECT_EQ(status_of(point(2, 12), inventory).needed, pieces(0));
}

TEST(GoodStatus, ALimitWhoseGoodIsGoneSaysSo) {
    auto inventory = lids(0);
    inventory.goods.clear();
    const auto status = status_of(point(10, 40), inventory);
    EXPECT_FALSE(status.low);
    EXPECT_FALSE(status.category);
    EXPECT_THAT(*status.note, HasSubstr("barm reorder remove 'lids'"));
}

ReorderSet::Params asked(std::string good, std::int64_t reorder_point) {
    ReorderSet::Params params;
    params.good = std::move(good);
    params.reorder_point = AmountGiven{pieces(reorder_point)};
    return params;
}

TEST(LimitOf, LeavesAPackageAboveTheLimitWhereNothingIsSaid) {
    EXPECT_EQ(point_of(asked("lids", 10), lids(0).goods).order_up_to, pieces(22));
    const std::vector bare{good_of("lids", Category::lids, Measure::pieces)};
    EXPECT_EQ(point_of(asked("lids", 0), bare).order_up_to, pieces(1));
}

TEST(LimitOf, TakesTheGoodsOwnSpelling) {
    EXPECT_EQ(point_of(asked("LIDS", 10), lids(0).goods).good, "lids");
}

TEST(LimitOf, AnUnknownGoodIsToldWithTheNearest) {
    EXPECT_EQ(test::reason_of([] { return point_of(asked("lidz", 1), lids(0).goods); }),
              "good_unknown");
    EXPECT_THAT(test::hint_of([] { return point_of(asked("lidz", 1), lids(0).goods); }),
                HasSubstr("'lids'"));
}

TEST(LimitOf, RefusesWhatCouldNeverBeRight) {
    auto params = asked("lids", 10);
    params.order_up_to = AmountGiven{pieces(10)};
    EXPECT_EQ(test::reason_of([&] { return point_of(params, lids(0).goods); }), "out_of_range");
    EXPECT_EQ(test::reason_of([] { return point_of(asked("lids", -1), lids(0).goods); }),
              "out_of_range");
    params.reorder_point.given = "2 kg";
    EXPECT_FALSE(test::reason_of([&] { return point_of(params, lids(0).goods); }).empty());
}

TEST(ReminderOf, KeepsTheEarlierDayAndBeginsAnewOnlyAfterItWasDone) {
    const auto status = status_of(point(10, 40), lids(9));
    EXPECT_EQ(reminder_of(status, 3, nullptr).name, "reorder:lids");
    EXPECT_EQ(reminder_of(status, 3, nullptr).due, day("2026-03-14"));
    contract::Reminder before;
    before.title = *status.title;
    before.note = status.note;
    before.due = day("2026-03-01");
    EXPECT_EQ(reminder_of(status, 3, &before).due, day("2026-03-01"));
    // Done, and nothing has changed: posting the same changes nothing.
    before.state = contract::ReminderState::done;
    EXPECT_EQ(reminder_of(status, 3, &before).due, day("2026-03-01"));
    // Done, and then it fell further.
    before.note = "12 free";
    EXPECT_EQ(reminder_of(status, 3, &before).due, day("2026-03-14"));
}

TEST(ReminderOf, IsAboutTheLimitAndTheBrewDay) {
    auto inventory = lids(10, 20);
    inventory.brews = {brew_of(5, "2026-04-01", "lids", 20)};
    const auto post = reminder_of(status_of(point(10, 40), inventory), 3, nullptr);
    EXPECT_EQ(post.about, (contract::Links{{"reorder.point", 3}, {"brew", 5}}));
    contract::Reminder kept;
    kept.name = "whatever it is called";
    kept.about = post.about;
    EXPECT_FALSE(point_about(kept)) << "another cause";
    kept.cause = post.cause;
    EXPECT_EQ(point_about(kept), 3);
}

TEST(ReminderOf, FitsTheReminderEvenWithTheLongestName) {
    auto inventory = lids(0);
    const std::string name(60, 'l');
    inventory.goods[0].name = name;
    auto longest = point(999'999'999'999, 1'000'000'000'000);
    longest.good = name;
    const auto post = reminder_of(status_of(longest, inventory), 1, nullptr);
    EXPECT_NO_THROW((void)read_as<contract::ReminderPost::Params>(to_json(post)));
}

} // namespace
} // namespace barmkeep::reorder
