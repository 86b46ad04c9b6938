#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using test::Hand;
using test::holds;
using test::minutes;
using test::sample_run;
using test::warned;
using testing::IsEmpty;
using testing::SizeIs;

TEST(RunState, ARunByTheBookHasAClockForEachPhaseAndNothingMissing) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.by_the_book();
    const RunState state = hand.state();
    EXPECT_EQ(state.phase, Phase::seal_test);
    ASSERT_THAT(state.clocks, SizeIs(6));
    EXPECT_EQ(state.clocks[0].lasted, minutes(30)); // filling
    EXPECT_EQ(state.clocks[1].lasted, minutes(10)); // venting
    EXPECT_EQ(state.clocks[2].lasted, minutes(4));  // pressurising
    EXPECT_EQ(state.clocks[3].lasted, minutes(20)); // at pressure
    EXPECT_EQ(state.clocks[4].lasted, minutes(45)); // cooling
    EXPECT_TRUE(state.time_completed);
    EXPECT_THAT(state.missing(), IsEmpty());
    EXPECT_TRUE(hand.shown().log_complete);
}

TEST(RunState, TheCountdownRunsWithTheClockItIsGiven) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(Seconds{90});
    EXPECT_EQ(hand.shown().remaining, Seconds{510});
    EXPECT_EQ(hand.shown().countdown, "venting 1 min 30 s, 8 min 30 s to go");
    hand.wait(minutes(20));
    EXPECT_EQ(hand.shown().remaining, Seconds{0});
}

TEST(RunState, ADropBelowTheTargetBeginsTheTimeAgainFromZero) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 15).wait(minutes(1)).shows(10.8);
    EXPECT_EQ(hand.state().phase, Phase::pressurising);
    EXPECT_EQ(hand.state().restarts, 1);
    EXPECT_TRUE(warned(hand.state(), "pressure_dropped"));
    hand.wait(minutes(3)).shows(11.2);
    EXPECT_EQ(hand.shown().remaining, minutes(20));
    hand.hold(11.2, 10).turn(Turn::heat_off); // 25 minutes in all, 10 of them unbroken
    EXPECT_FALSE(hand.state().time_completed);
    EXPECT_TRUE(holds(hand.state(), "time_not_completed"));
}

TEST(RunState, ADropAfterTheTimeWasSeenToRunOutUndoesNothing) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 20).wait(minutes(1)).shows(9).turn(Turn::heat_off);
    EXPECT_EQ(hand.state().restarts, 0);
    EXPECT_TRUE(hand.state().time_completed);
}

TEST(RunState, ADropThatHidesTheEndOfTheTimeCountsAsADrop) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 15).wait(minutes(6)).shows(9); // nobody saw it hold for 20 minutes
    EXPECT_EQ(hand.state().restarts, 1);
    EXPECT_EQ(hand.state().phase, Phase::pressurising);
}

TEST(RunState, HeatOffTooEarlyHoldsTheJarsUnlessItIsHeatedAgain) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 15).turn(Turn::heat_off);
    EXPECT_TRUE(holds(hand.state(), "time_not_completed"));
    hand.wait(minutes(2)).turn(Turn::heat_on).wait(minutes(2)).shows(11).hold(11, 20);
    hand.turn(Turn::heat_off);
    EXPECT_FALSE(holds(hand.state(), "time_not_completed"));
    EXPECT_TRUE(warned(hand.state(), "heated_again"));
    EXPECT_THAT(hand.state().missing(), IsEmpty());
}

TEST(RunState, ShortOrNoVentingIsWarnedOfAndHoldsUnlessVentedAgain) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(6)).turn(Turn::weight_on);
    EXPECT_TRUE(holds(hand.state(), "vented_short"));
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    EXPECT_FALSE(holds(hand.state(), "vented_short"));

    RunDocument other = sample_run();
    Hand second{other};
    second.turn(Turn::weight_on);
    EXPECT_TRUE(holds(second.state(), "vent_skipped"));
}

TEST(RunState, OpeningBeforeZeroAndForcedCoolingAreWarnedOfAndHold) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 20).turn(Turn::heat_off).wait(minutes(5)).turn(Turn::forced_cooling);
    hand.wait(minutes(3)).shows(2).turn(Turn::opened);
    EXPECT_TRUE(holds(hand.state(), "forced_cooling"));
    EXPECT_TRUE(holds(hand.state(), "opened_before_zero"));
    EXPECT_THAT(hand.state().missing(), SizeIs(2));
    EXPECT_FALSE(hand.shown().log_complete);
}

TEST(RunState, AQuickZeroAndAnEarlyLidAreWarnedOfButDoNotHold) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).hold(11, 20).turn(Turn::heat_off).wait(minutes(12)).shows(0);
    hand.wait(minutes(3)).turn(Turn::opened);
    EXPECT_TRUE(warned(hand.state(), "cooled_quickly"));
    EXPECT_TRUE(warned(hand.state(), "opened_soon"));
    EXPECT_THAT(hand.state().missing(), IsEmpty());
}

TEST(RunState, AHoldThatNobodyWatchedHoldsTheJars) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4));
    hand.shows(11).wait(minutes(20)).turn(Turn::heat_off);
    EXPECT_TRUE(hand.state().time_completed);
    EXPECT_TRUE(holds(hand.state(), "readings_far_apart"));
}

TEST(RunState, ATargetGivenInPsiIsReachedByTheSameFigureOverTheWire) {
    RunDocument run = sample_run();
    // What 11 psi becomes when it is rounded to a thousandth of a kilopascal, downward.
    const auto travelled = brewing::GaugePressure{75.842, brewing::kilopascal_gauge};
    EXPECT_EQ(level_of(run, travelled), Level::reached);
    EXPECT_EQ(level_of(run, 10.99 * brewing::psi_gauge), Level::below);
    EXPECT_EQ(level_of(run, 0.3 * brewing::psi_gauge), Level::zero);
}

} // namespace
} // namespace barmkeep::canning
