#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using test::error_of;
using test::Hand;
using test::minutes;
using test::sample_run;
using testing::HasSubstr;
using testing::SizeIs;

TEST(RunLog, AReadingFromTheFutureIsRefusedAndNothingIsLogged) {
    RunDocument run = sample_run();
    Hand hand{run};
    Logging later = hand.logging();
    later.at = hand.now() + minutes(1);
    const Error error =
        error_of([&] { log_reading(run, Rules{}, 11 * brewing::psi_gauge, later); });
    EXPECT_EQ(error.kind(), ErrorKind::params);
    EXPECT_EQ(error.reason(), "from_the_future");
    EXPECT_THAT(run.log, SizeIs(0));
}

TEST(RunLog, AReadingOutOfOrderIsRefusedAndTheLogStays) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.wait(minutes(5)).turn(Turn::steam_flows);
    Logging earlier = hand.logging();
    earlier.at = hand.now() - minutes(1);
    const Error error = error_of([&] { log_reading(run, Rules{}, {}, earlier); });
    EXPECT_EQ(error.reason(), "out_of_order");
    EXPECT_THAT(error.what(), HasSubstr("2026-03-02T08:05:00Z"));
    EXPECT_THAT(run.log, SizeIs(1));
}

TEST(RunLog, ATurnThatWaitedWhileALaterOneWasLoggedIsOfTheTimeOfThatOne) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.wait(minutes(5)).turn(Turn::steam_flows);
    Logging waited = hand.logging();
    waited.now = hand.now() - minutes(1);
    log_turn(run, Rules{}, Turn::weight_on, {}, waited);
    EXPECT_EQ(run.log.back().at, hand.now());
}

TEST(RunLog, ATurnThatCannotComeNowSaysWhatCan) {
    RunDocument run = sample_run();
    Hand hand{run};
    const Error error = error_of([&] { hand.turn(Turn::opened); });
    EXPECT_EQ(error.reason(), "not_now");
    EXPECT_THAT(error.hint(), HasSubstr("steam_flows, weight_on"));
}

TEST(RunLog, AnOpenCannerHasNoPressure) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.by_the_book();
    EXPECT_EQ(error_of([&] { hand.shows(0); }).reason(), "not_now");
}

TEST(RunLog, AnEndedRunTakesNoMore) {
    RunDocument run = sample_run();
    Hand hand{run};
    log_note(run, Told::abandoned, "gas ran out", hand.logging());
    EXPECT_EQ(error_of([&] { hand.turn(Turn::steam_flows); }).reason(), "already_ended");
    EXPECT_EQ(error_of([&] { hand.shows(3); }).reason(), "already_ended");
}

TEST(RunLog, AGaugeReaderThatSendsEverySecondSharesALineAndLosesNoExtreme) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    for (int second = 0; second < 1500; ++second)
        hand.wait(Seconds{1}).shows(second == 700 ? 11.0 : 11.4);
    EXPECT_THAT(run.log, SizeIs(3));
    EXPECT_EQ(run.log.back().count, 1500);
    EXPECT_NEAR(run.log.back().lowest->in(brewing::psi_gauge), 11.0, 1e-9);
    EXPECT_EQ(hand.shown().elapsed, Seconds{1499});
}

TEST(RunLog, OneReadingBelowAmongManyIsNeverSwallowed) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    for (int second = 0; second < 600; ++second)
        hand.wait(Seconds{1}).shows(second == 300 ? 10.5 : 11.4);
    EXPECT_EQ(hand.state().restarts, 1);
    EXPECT_EQ(hand.shown().elapsed, Seconds{298});
}

TEST(RunLog, AFullLogRefusesReadingsButNeverTurns) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    while (run.log.size() < log_lines_max)
        hand.wait(Seconds{30}).shows(11.4);
    EXPECT_EQ(error_of([&] { hand.wait(Seconds{30}).shows(11.4); }).reason(), "log_full");
    EXPECT_NO_THROW(hand.turn(Turn::heat_off));
}

TEST(RunLog, TheLongestLogFitsIntoOneRecord) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on);
    while (run.log.size() < log_lines_max) {
        hand.wait(Seconds{20}).shows(11.437);
        hand.wait(Seconds{10}).shows(11.512); // a line of its own count and end
    }
    EXPECT_LT(write_json(to_json(run)).size(), 240U << 10);
}

TEST(RunLog, ARestartMarksTheGapAndTheRunGoesOn) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4)).shows(11);
    hand.wait(minutes(6));
    Logging after = hand.logging();
    after.session = "second";
    after.session_began = hand.now() - minutes(2);
    log_reading(run, Rules{}, 11.2 * brewing::psi_gauge, after);
    const RunState state = hand.state();
    EXPECT_EQ(state.phase, Phase::at_pressure);
    ASSERT_THAT(state.gaps, SizeIs(1));
    EXPECT_EQ(state.gaps[0].lasted, minutes(4));
    EXPECT_EQ(hand.shown().elapsed, minutes(6)) << "the clock went on";
}

TEST(RunLog, ReadingsKeptByTheSenderWhileTheDaemonWasDownFillTheGap) {
    RunDocument run = sample_run();
    Hand hand{run};
    hand.turn(Turn::steam_flows).wait(minutes(10)).turn(Turn::weight_on).wait(minutes(4)).shows(11);
    const Instant before = hand.now();
    hand.wait(minutes(16));
    Logging after = hand.logging();
    after.session = "second";
    after.session_began = hand.now() - minutes(1);
    for (const int minute : {5, 10, 15}) {
        after.at = before + minutes(minute);
        log_reading(run, Rules{}, 11.2 * brewing::psi_gauge, after);
    }
    EXPECT_THAT(hand.state().gaps, SizeIs(1));
    EXPECT_FALSE(test::warned(hand.state(), "readings_far_apart"));
}

TEST(RunLog, AWeightTellsByRockingAndADialByItsFigure) {
    RunDocument run = sample_run();
    EXPECT_EQ(error_of([&] { (void)pressure_read(run, {}, true); }).reason(), "no_weight");
    EXPECT_EQ(error_of([&] { (void)pressure_read(run, {}, {}); }).reason(), "missing");
    run.process.gauge = contract::Gauge::weighted;
    EXPECT_EQ(level_of(run, pressure_read(run, {}, true)), Level::reached);
    EXPECT_EQ(level_of(run, pressure_read(run, {}, false)), Level::below);
}

} // namespace
} // namespace barmkeep::canning
