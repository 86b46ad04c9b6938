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

class Log : public testing::Test {
protected:
    canning::Run run = sample_run();
    Hand hand{run};
};

TEST_F(Log, AReadingFromTheFutureIsRefused) {
    Logging later = hand.logging();
    later.at = hand.now() + minutes(1);
    const Error error =
        error_of([&] { (void)reading_line(run, {}, 11 * brewing::psi_gauge, later); });
    EXPECT_EQ(error.kind(), ErrorKind::params);
    EXPECT_EQ(error.reason(), "from_the_future");
}

TEST_F(Log, AReadingOutOfOrderIsRefused) {
    hand.wait(minutes(5)).step(Step::steam_flows);
    Logging earlier = hand.logging();
    earlier.at = hand.now() - minutes(1);
    const Error error = error_of([&] { (void)reading_line(run, {}, {}, earlier); });
    EXPECT_EQ(error.reason(), "out_of_order");
    EXPECT_THAT(error.what(), HasSubstr("2026-03-02T08:05:00Z"));
}

TEST_F(Log, AStepThatCannotComeNowSaysWhatCan) {
    const Error error = error_of([&] { hand.step(Step::opened); });
    EXPECT_EQ(error.reason(), "not_now");
    EXPECT_THAT(error.hint(), HasSubstr("steam_flows, weight_on"));
}

TEST_F(Log, AnOpenCannerHasNoPressure) {
    hand.by_the_book();
    EXPECT_EQ(error_of([&] { hand.shows(0); }).reason(), "not_now");
}

TEST_F(Log, AnEndedRunTakesNoMore) {
    hand.log(note_line(run, LineKind::abandoned, "gas ran out", hand.logging()));
    EXPECT_EQ(error_of([&] { hand.step(Step::steam_flows); }).reason(), "already_ended");
    EXPECT_EQ(error_of([&] { hand.shows(3); }).reason(), "already_ended");
    EXPECT_EQ(error_of([&] { hand.strike(1); }).reason(), "already_ended");
}

TEST_F(Log, ALineIsSmallAndGrowsWithNothing) {
    hand.up_to_pressure();
    for (int i = 0; i < 300; ++i)
        hand.wait(Seconds{30}).shows(11.437);
    EXPECT_LT(write_json(to_json(run.log.back())).size(), 120U);
}

TEST_F(Log, OneReadingBelowAmongManyIsNeverSwallowed) {
    hand.step(Step::steam_flows).wait(minutes(10)).step(Step::weight_on);
    for (int second = 0; second < 600; ++second)
        hand.wait(Seconds{1}).shows(second == 300 ? 10.5 : 11.4);
    EXPECT_EQ(hand.state().restarts, 1);
    EXPECT_EQ(hand.seen().elapsed, Seconds{298});
}

TEST_F(Log, AFullLogRefusesReadingsButNeverSteps) {
    hand.step(Step::steam_flows).wait(minutes(10)).step(Step::weight_on);
    LogLine line = reading_line(run, {}, 11.4 * brewing::psi_gauge, hand.logging());
    while (run.log.size() < log_lines_max)
        run.log.push_back(line);
    EXPECT_EQ(error_of([&] { hand.wait(Seconds{30}).shows(11.4); }).reason(), "log_full");
    EXPECT_NO_THROW(hand.step(Step::heat_off));
}

TEST_F(Log, OnlyAStepOrReadingIsStruckOutAndOnlyOnce) {
    hand.step(Step::steam_flows).wait(minutes(1)).strike(1);
    EXPECT_TRUE(is_struck(run, 1));
    EXPECT_EQ(hand.state().phase, Phase::filling);
    EXPECT_EQ(error_of([&] { hand.strike(1); }).reason(), "already_struck");
    EXPECT_EQ(error_of([&] { hand.strike(2); }).reason(), "not_strikable");
    EXPECT_EQ(error_of([&] { hand.strike(3); }).reason(), "unknown_line");
    EXPECT_THAT(run.log, SizeIs(2)) << "what was struck out stays";
}

class AfterRestart : public Log {
protected:
    AfterRestart() { hand.up_to_pressure(11); }
    /// Someone who logs after a start of the plugin so long ago.
    Logging back_since(Seconds ago) {
        Logging after = hand.logging();
        after.session = {"second", hand.now() - ago};
        return after;
    }
};

TEST_F(AfterRestart, TheGapIsMarkedTheRunGoesOnAndTheTimeLacksEvidence) {
    hand.wait(minutes(6));
    hand.log(reading_line(run, {}, 11.2 * brewing::psi_gauge, back_since(minutes(2))));
    const RunState state = hand.state();
    EXPECT_EQ(state.phase, Phase::at_pressure);
    ASSERT_THAT(state.gaps, SizeIs(1));
    EXPECT_EQ(state.gaps[0].lasted, minutes(4));
    EXPECT_EQ(hand.seen().elapsed, minutes(6)) << "the clock went on";
    EXPECT_TRUE(test::lacks_evidence(state, "interrupted"));
}

TEST_F(AfterRestart, ANewWholeTimeMakesUpForTheGap) {
    hand.wait(minutes(6));
    hand.log(reading_line(run, {}, 11.2 * brewing::psi_gauge, back_since(minutes(2))));
    run.begun.session.word = "second"; // the logger's own
    hand.step(Step::heat_off).step(Step::heat_on).wait(minutes(3)).shows(11).keep_pressure(11, 20);
    hand.step(Step::heat_off);
    EXPECT_TRUE(hand.state().is_complete());
}

TEST_F(AfterRestart, ADropAndANewWholeTimeMakeUpForTheGapToo) {
    hand.wait(minutes(6));
    hand.log(reading_line(run, {}, 11.2 * brewing::psi_gauge, back_since(minutes(2))));
    run.begun.session.word = "second";
    hand.wait(minutes(1)).shows(9).wait(minutes(1)).shows(11).keep_pressure(11, 20);
    hand.step(Step::heat_off);
    EXPECT_TRUE(hand.state().is_complete());
}

TEST_F(AfterRestart, ReadingsKeptByTheSenderWhileTheDaemonWasDownFillTheGap) {
    const Instant before = hand.now();
    hand.wait(minutes(16));
    Logging after = back_since(minutes(1));
    for (const int minute : {5, 10, 15}) {
        after.at = before + minutes(minute);
        hand.log(reading_line(run, {}, 11.2 * brewing::psi_gauge, after));
    }
    EXPECT_THAT(hand.state().gaps, SizeIs(1));
    EXPECT_TRUE(hand.state().is_complete());
}

TEST_F(Log, AWeightTellsByRockingAndADialByItsFigure) {
    EXPECT_EQ(error_of([&] { (void)pressure_read(run.begun, {}, true); }).reason(), "no_weight");
    EXPECT_EQ(error_of([&] { (void)pressure_read(run.begun, {}, {}); }).reason(), "missing");
    run.begun.process.process.gauge = contract::Gauge::weighted;
    EXPECT_EQ(level_of(run.begun, pressure_read(run.begun, {}, true)), Level::reached);
    EXPECT_EQ(level_of(run.begun, pressure_read(run.begun, {}, false)), Level::below);
}

} // namespace
} // namespace barmkeep::canning
