#include "plugins/canning/seal.hpp"
#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using test::error_of;
using test::Hand;
using test::minutes;
using test::sample_run;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Seals : public testing::Test {
protected:
    Seals() {
        hand.by_the_book();
        hand.wait(Seconds{14 * 3600});
        run.canned = parse_date("2026-03-02");
    }
    Sealing sealed(std::int64_t held, std::int64_t failed, std::int64_t lost_liquid,
                   std::int64_t broken, FailedTo failed_to = FailedTo::refrigerator) {
        RunSeal::Params params;
        params.run = 1;
        params.held = held;
        params.failed = failed;
        params.lost_liquid = lost_liquid;
        params.broken = broken;
        params.failed_to = failed_to;
        return sealing(run, hand.state(), params, parse_date("2026-03-03"), hand.now(), {},
                       "America/Chicago");
    }

    RunDocument run = sample_run();
    Hand hand{run};
};

TEST_F(Seals, ThatAllHeldMakeOneLotGoodForAYearAndOffHold) {
    const Sealing made = sealed(7, 0, 0, 0);
    ASSERT_THAT(made.conversion->outputs, SizeIs(1));
    const auto& jars = made.conversion->outputs.front();
    EXPECT_EQ(jars.best_by, parse_date("2027-03-02"));
    EXPECT_FALSE(jars.hold);
    EXPECT_EQ(jars.facts.extract, run.facts.extract);
    EXPECT_EQ(made.conversion->lost, 0);
    EXPECT_THAT(made.held_because, IsEmpty());
}

TEST_F(Seals, ThatFailedGoToTheRefrigeratorForDaysAndCarryNoValue) {
    const Sealing made = sealed(5, 2, 0, 0);
    ASSERT_THAT(made.conversion->outputs, SizeIs(2));
    EXPECT_EQ(made.conversion->outputs[1].best_by, parse_date("2026-03-06"));
    EXPECT_EQ(made.conversion->outputs[1].weight, 0);
    EXPECT_EQ(made.refrigerator_until, parse_date("2026-03-06"));
    EXPECT_EQ(lost_value({7'000'000}, made.seals, FailedTo::refrigerator), Money{2'000'000});
}

TEST_F(Seals, OfJarsToBeProcessedAgainKeepTheirValueOnHold) {
    const Sealing made = sealed(5, 2, 0, 0, FailedTo::reprocess);
    const auto& again = made.conversion->outputs[1];
    EXPECT_EQ(again.weight, 2);
    EXPECT_THAT(*again.hold, HasSubstr("before 2026-03-03 03:04 (America/Chicago)"))
        << "24 hours from the end of the heat, as the kitchen clock shows it";
    EXPECT_EQ(lost_value({7'000'000}, made.seals, FailedTo::reprocess), Money{0});
}

TEST_F(Seals, ThatBrokeAreLostPieces) {
    const Sealing made = sealed(4, 2, 0, 1, FailedTo::discard);
    EXPECT_EQ(made.conversion->lost, 3);
    EXPECT_THAT(made.conversion->outputs, SizeIs(1));
}

TEST_F(Seals, OfJarsThatLostLiquidHoldThemWithNoFillClaimed) {
    const Sealing made = sealed(6, 0, 1, 0);
    const auto& jars = made.conversion->outputs[1];
    EXPECT_TRUE(jars.hold);
    EXPECT_FALSE(jars.facts.fill);
    EXPECT_FALSE(jars.facts.extract);
    EXPECT_TRUE(jars.facts.gravity);
}

TEST_F(Seals, ThatDoNotAddUpAreRefused) {
    const Error error = error_of([&] { (void)sealed(5, 1, 0, 0); });
    EXPECT_EQ(error.reason(), "counts_differ");
    EXPECT_THAT(error.what(), HasSubstr("6 jars, and run 1 has 7"));
}

TEST_F(Seals, OfNoJarAtAllThrowOutWhatWentIn) {
    const Sealing made = sealed(0, 0, 0, 7);
    EXPECT_FALSE(made.conversion);
    EXPECT_THAT(made.thrown_out, SizeIs(2));
}

TEST_F(Seals, OfFailedJarsOnlyLetThoseCarryTheValue) {
    const Sealing made = sealed(0, 7, 0, 0);
    EXPECT_FALSE(made.conversion->outputs.front().weight);
    EXPECT_EQ(lost_value({7'000'000}, made.seals, FailedTo::refrigerator), Money{0});
}

TEST_F(Seals, AreNotTestedBeforeTwelveHours) {
    RunDocument fresh = sample_run();
    Hand early{fresh};
    early.by_the_book().wait(Seconds{11 * 3600});
    RunSeal::Params params;
    params.held = 7;
    const Error error = error_of([&] {
        (void)sealing(fresh, early.state(), params, parse_date("2026-03-02"), early.now(), {},
                      "UTC");
    });
    EXPECT_EQ(error.reason(), "too_early");
    EXPECT_THAT(error.hint(), HasSubstr("1 h"));
}

TEST_F(Seals, FoundFailedAfterADayAreOnlyThrownOut) {
    hand.wait(Seconds{11 * 3600});
    EXPECT_EQ(error_of([&] { (void)sealed(5, 2, 0, 0); }).reason(), "too_late");
    EXPECT_EQ(error_of([&] { (void)sealed(5, 2, 0, 0, FailedTo::reprocess); }).reason(),
              "too_late");
    EXPECT_NO_THROW((void)sealed(5, 2, 0, 0, FailedTo::discard));
}

TEST_F(Seals, BestByBeyondAYearNeedsAReason) {
    RunSeal::Params params;
    params.held = 7;
    params.best_by = parse_date("2027-06-01");
    const auto seal_it = [&] {
        return sealing(run, hand.state(), params, parse_date("2026-03-03"), hand.now(), {},
                       "America/Chicago");
    };
    EXPECT_EQ(error_of([&] { (void)seal_it(); }).reason(), "reason_missing");
    params.reason = "kept at 12 C";
    EXPECT_EQ(seal_it().best_by, parse_date("2027-06-01"));
}

TEST_F(Seals, OfARunWithoutACompleteLogHoldAllItsJars) {
    RunDocument fresh = sample_run();
    Hand short_vent{fresh};
    short_vent.turn(Turn::steam_flows).wait(minutes(5)).turn(Turn::weight_on).wait(minutes(4));
    short_vent.shows(11).hold(11, 20).turn(Turn::heat_off).wait(minutes(40)).shows(0);
    short_vent.wait(minutes(10)).turn(Turn::opened).wait(Seconds{13 * 3600});
    RunSeal::Params params;
    params.held = 6;
    params.failed = 1;
    const Sealing made = sealing(fresh, short_vent.state(), params, parse_date("2026-03-03"),
                                 short_vent.now(), {}, "UTC");
    EXPECT_THAT(made.held_because, SizeIs(1));
    for (const auto& output : made.conversion->outputs)
        EXPECT_THAT(output.hold.value_or(""), HasSubstr("Vented for 5 min only"));
}

} // namespace
} // namespace barmkeep::canning
