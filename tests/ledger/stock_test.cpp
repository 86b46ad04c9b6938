#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

using ::testing::HasSubstr;

class StockTest : public CellarTest {};

TEST_F(StockTest, BuyingMakesALotWithItsValueAndDates) {
    const auto bought = cellar.does("stock.buy", {{"good", "Dry Extract"},
                                                  {"amount", "3 lb"},
                                                  {"paid", "18.50"},
                                                  {"supplier", "corner shop"},
                                                  {"packed", "2026-01-10"},
                                                  {"best_by", "2027-01-10"}});
    const auto& made = bought.at("lot");
    EXPECT_EQ(text(made, "good"), "dry extract");
    EXPECT_DOUBLE_EQ(quantity(made, "on_hand"), 1360.777);
    EXPECT_DOUBLE_EQ(quantity(made, "available"), 1360.777);
    EXPECT_EQ(text(made, "value"), "18.50");
    EXPECT_EQ(text(made, "bought"), "2026-03-14");
    EXPECT_EQ(made.at("origin"), bought.at("entry"));
    EXPECT_TRUE(cellar.is_sound());
}

std::vector<std::string> pointers_of(const Error& error) {
    std::vector<std::string> pointers;
    for (const auto& fault : error.faults())
        pointers.push_back(fault.pointer);
    return pointers;
}

TEST_F(StockTest, EveryFaultOfAPurchaseIsToldAtOnce) {
    const auto before = cellar.dumped();
    const auto error = cellar.refusal("stock.buy", {{"good", "lids"},
                                                    {"amount", "4 oz"},
                                                    {"paid", "10000000000"},
                                                    {"day", "2026-03-21"},
                                                    {"packed", "2026-03-15"}});
    EXPECT_EQ(error.kind(), ErrorKind::params);
    EXPECT_EQ(pointers_of(error),
              (std::vector<std::string>{"/amount", "/paid", "/day", "/packed"}));
    EXPECT_EQ(error.faults()[0].reason, "wrong_unit");
    EXPECT_EQ(error.faults()[1].reason, "out_of_range");
    EXPECT_EQ(error.faults()[2].reason, "day_ahead");
    EXPECT_EQ(error.faults()[3].reason, "day_ahead");
    EXPECT_EQ(cellar.dumped(), before);
}

TEST_F(StockTest, AGoodThatIsNotKnownHidesNoOtherFaultOfThePurchase) {
    const auto error = cellar.refusal(
        "stock.buy", {{"good", "lida"}, {"amount", 3}, {"paid", "1"}, {"best_by", "2026-03-01"}});
    EXPECT_EQ(error.kind(), ErrorKind::params); // of two kinds: the fields are to be corrected
    EXPECT_EQ(pointers_of(error), (std::vector<std::string>{"/good", "/best_by"}));
    EXPECT_THAT(error.faults()[0].hint, HasSubstr("lids"));
}

TEST_F(StockTest, UsingTakesWhatExpiresFirst) {
    const auto late = buy("dry extract", "1 kg", "10", {{"best_by", "2027-06-01"}});
    const auto never = buy("dry extract", "1 kg", "20");
    const auto soon = buy("dry extract", "1 kg", "30", {{"best_by", "2026-06-01"}});
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "1.5 kg"}});
    EXPECT_EQ(on_hand(soon), 0);
    EXPECT_EQ(value(soon), "0.00");
    EXPECT_EQ(on_hand(late), 500);
    EXPECT_EQ(value(late), "5.00");
    EXPECT_EQ(on_hand(never), 1000);
}

TEST_F(StockTest, ARestOfAWholeStepOfTheScaleStays) {
    cellar.does("cellar.set", {{"scale_step", "1 g"}});
    const auto code = buy("dry extract", "500 g", "5");
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "499 g"}});
    EXPECT_EQ(on_hand(code), 1);
}

TEST_F(StockTest, ADayAfterTomorrowHasNotComeYet) { // tomorrow has begun further east
    json::object params{{"good", "lids"}, {"amount", 3}, {"paid", "1"}, {"day", "2026-03-16"}};
    EXPECT_EQ(cellar.refusal("stock.buy", params).reason(), "day_ahead");
    params["day"] = "2026-03-15";
    cellar.does("stock.buy", params);
}

TEST_F(StockTest, WithoutADateTheOneMadeFirstGoesFirst) {
    const auto newer = buy("dry extract", "1 kg", "10", {{"packed", "2026-02-01"}});
    const auto older = buy("dry extract", "1 kg", "10", {{"packed", "2026-01-01"}});
    const auto bought_early = buy("dry extract", "1 kg", "10", {{"day", "2025-12-01"}});
    cellar.does("stock.use", {{"what", "dry extract"}, {"amount", "2 kg"}});
    EXPECT_EQ(on_hand(bought_early), 0);
    EXPECT_EQ(on_hand(older), 0);
    EXPECT_EQ(on_hand(newer), 1000);
}

TEST_F(StockTest, ANamedLotIsTakenBeforeTheOrderOfExpiry) {
    const auto soon = buy("lids", 12, "3", {{"best_by", "2026-06-01"}});
    const auto late = buy("lids", 12, "3", {{"best_by", "2027-06-01"}});
    cellar.does("stock.use", {{"what", late}, {"amount", 5}});
    EXPECT_EQ(on_hand(soon), 12);
    EXPECT_EQ(on_hand(late), 7);
}

TEST_F(StockTest, TakingAThirdThriceLeavesNoValueBehind) {
    const auto code = buy("lids", 3, "1.00");
    std::vector<std::string> values;
    for (int i = 0; i < 3; ++i) {
        const auto used = cellar.does("stock.use", {{"what", "lids"}, {"amount", 1}});
        values.push_back(text(used.at("lines").at(0), "value"));
    }
    EXPECT_EQ(values, (std::vector<std::string>{"-0.333333", "-0.333334", "-0.333333"}));
    EXPECT_EQ(value(code), "0.00");
}

TEST_F(StockTest, TooLittleSaysWhatThereIsAndHowToRecount) {
    const auto code = buy("lids", 10, "3");
    const auto brew = plan();
    cellar.does("brew.reserve", {{"brew", brew}, {"what", "lids"}, {"amount", 4}});
    const auto error = cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 7}});
    EXPECT_EQ(error.kind(), ErrorKind::not_enough);
    EXPECT_EQ(error.reason(), "not_enough");
    EXPECT_STREQ(error.what(),
                 "Not enough of lids: you asked for 7. On hand: 10; reserved: 4; available: 6.");
    EXPECT_THAT(error.hint(), HasSubstr("barm stock recount " + code));
}

TEST_F(StockTest, ABrewDayUsesWhatItHasReservedAndThenWhatIsFree) {
    buy("lids", 10, "3");
    const auto mine = plan();
    const auto other = plan("2026-03-21", "pale");
    cellar.does("brew.reserve", {{"brew", mine}, {"what", "lids"}, {"amount", 4}});
    cellar.does("brew.reserve", {{"brew", other}, {"what", "lids"}, {"amount", 4}});
    EXPECT_EQ(
        cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 7}, {"brew", mine}}).reason(),
        "not_enough");
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 5}, {"brew", mine}});
    EXPECT_TRUE(cellar.does("brew.show", {{"brew", mine}}).at("reserved").as_array().empty());
    const auto shelf = cellar.does("stock.list").at("shelves").at(0);
    EXPECT_EQ(quantity(shelf, "on_hand"), 5);
    EXPECT_EQ(quantity(shelf, "reserved"), 4);
    EXPECT_EQ(quantity(shelf, "available"), 1);
}

TEST_F(StockTest, ALotOnHoldIsLeftOutAndRefusedWhenNamedButMayBeThrownAway) {
    const auto held = buy("lids", 10, "3", {{"best_by", "2026-06-01"}});
    const auto good = buy("lids", 10, "3");
    cellar.does("lot.hold", {{"lot", held}, {"note", "rusty"}});
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 6}});
    EXPECT_EQ(on_hand(held), 10);
    EXPECT_EQ(on_hand(good), 4);
    EXPECT_EQ(cellar.refusal("stock.use", {{"what", held}, {"amount", 1}}).reason(), "on_hold");
    EXPECT_THAT(cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 5}}).what(),
                HasSubstr("on hold: 10"));
    EXPECT_THAT(cellar.refusal("stock.use", {{"what", "lids"}, {"amount", 5}}).hint(),
                HasSubstr("barm lot show"));
    cellar.does("stock.discard", {{"lot", held}, {"reason", "rusty"}});
    EXPECT_EQ(on_hand(held), 0);
    EXPECT_EQ(value(held), "0.00");
}

TEST_F(StockTest, DiscardingMoreThanThereIsIsRefused) {
    const auto code = buy("lids", 10, "3");
    EXPECT_EQ(cellar.refusal("stock.discard", {{"lot", code}, {"amount", 11}, {"reason", "bent"}})
                  .reason(),
              "not_enough");
    cellar.does("stock.discard", {{"lot", code}, {"reason", "bent"}});
    EXPECT_EQ(cellar.refusal("stock.discard", {{"lot", code}, {"reason", "bent"}}).reason(),
              "not_enough");
}

TEST_F(StockTest, ARecountPostsTheDifference) {
    const auto code = buy("lids", 10, "3");
    auto posted = cellar.does("stock.recount", {{"lot", code}, {"amount", 8}, {"reason", "two"}});
    EXPECT_EQ(quantity(posted.at("lines").at(0), "quantity"), -2);
    EXPECT_EQ(value(code), "2.40");
    posted = cellar.does("stock.recount", {{"lot", code}, {"amount", 9}, {"reason", "found one"}});
    EXPECT_EQ(quantity(posted.at("lines").at(0), "quantity"), 1);
    EXPECT_EQ(value(code), "2.40"); // what is found has no cost of its own
    posted = cellar.does("stock.recount", {{"lot", code}, {"amount", 9}, {"reason", "as booked"}});
    EXPECT_EQ(quantity(posted.at("lines").at(0), "quantity"), 0);
    EXPECT_EQ(
        cellar.refusal("stock.recount", {{"lot", code}, {"amount", -1}, {"reason", "x"}}).reason(),
        "out_of_range");
}

TEST_F(StockTest, WhatIsFoundMissingIsTakenFromTheLatestBrewDay) {
    const auto code = buy("lids", 10, "3");
    const auto late = plan("2026-04-20", "late");
    const auto early = plan("2026-03-20", "early");
    cellar.does("brew.reserve", {{"brew", late}, {"what", "lids"}, {"amount", 5}});
    cellar.does("brew.reserve", {{"brew", early}, {"what", "lids"}, {"amount", 4}});
    const auto before = cellar.does("cellar.glance").at("sequence").as_int64();
    cellar.does("stock.recount", {{"lot", code}, {"amount", 6}, {"reason", "four gone"}});
    const auto aside = [&](std::int64_t brew) {
        return cellar.does("brew.show", {{"brew", brew}}).at("reserved").at(0);
    };
    EXPECT_EQ(quantity(aside(early), "amount"), 4);
    EXPECT_EQ(quantity(aside(late), "amount"), 2);
    EXPECT_EQ(cellar.does("cellar.glance").at("sequence").as_int64(), before + 2);
}

TEST_F(StockTest, TheShelfShowsGoodsWithStockAndAllOfThemWhenAsked) {
    buy("lids", 10, "3");
    const auto empty = buy("pint jar", 1, "0.50");
    cellar.does("stock.discard", {{"lot", empty}, {"reason", "broken"}});
    EXPECT_EQ(cellar.does("stock.list").at("shelves").as_array().size(), 1U);
    EXPECT_EQ(text(cellar.does("stock.list"), "value"), "3.00");
    EXPECT_EQ(cellar.does("stock.list", {{"all", true}}).at("shelves").as_array().size(), 5U);
    EXPECT_EQ(cellar.does("stock.list", {{"category", "glass"}, {"all", true}})
                  .at("shelves")
                  .as_array()
                  .size(),
              1U);
    EXPECT_EQ(cellar.does("stock.list", {{"good", "wort"}}).at("shelves").as_array().size(), 1U);
    EXPECT_THAT(cellar.refusal("stock.list", {{"good", "lida"}}).hint(), HasSubstr("lids"));
}

} // namespace
} // namespace barmkeep::ledger
