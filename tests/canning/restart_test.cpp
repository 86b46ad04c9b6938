// A full load with a pressure drop, a restart in the middle and two failed seals, on the ledger.
#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using test::Cellar;
using test::minutes;
using testing::HasSubstr;
using testing::SizeIs;

class Restart : public Cellar {};

TEST_F(Restart, InTheMiddleOfAHoldTheRunGoesOnWithTheGapMarked) {
    (void)start();
    wait(minutes(30));
    up_to_pressure(1);
    (void)keep_pressure(1, 13, 10);
    wait(minutes(1));
    const RunSummary dropped = shows(1, 11.8);
    EXPECT_EQ(dropped.phase, Phase::pressurising);
    EXPECT_EQ(dropped.restarts, 1);
    wait(minutes(2));
    EXPECT_EQ(shows(1, 12.9).remaining, minutes(20));
    (void)keep_pressure(1, 12.9, 5);

    restart(minutes(3));

    const RunShow::Result back = call<RunShow>({1});
    EXPECT_EQ(back.phase, Phase::at_pressure);
    EXPECT_EQ(back.elapsed, minutes(8));
    EXPECT_EQ(back.remaining, minutes(12));
    (void)shows(1, 12.9);
    const auto after = call<RunShow>({1});
    ASSERT_THAT(after.gaps, SizeIs(1));
    EXPECT_EQ(after.gaps[0].lasted, minutes(3));
    (void)keep_pressure(1, 12.9, 12);
    (void)log(1, Step::heat_off);
    wait(minutes(35));
    (void)shows(1, 0);
    wait(minutes(10));
    (void)log(1, Step::opened);
    wait(Seconds{13 * 3600});
    const auto sealed = seal(1, 5, 2, FailedTo::discard);
    ASSERT_THAT(sealed.because, SizeIs(1)) << "nobody knows what the clock did meanwhile";
    EXPECT_EQ(sealed.lots[0].on_hand, pieces(5));
    EXPECT_EQ(sealed.lots[0].holds.at(0).kind, contract::HoldKind::evidence_missing);
    expect_sound();
}

TEST_F(Restart, ALongOutageAtPressureHoldsTheJars) {
    (void)start();
    up_to_pressure(1);
    restart(minutes(15));
    const RunSummary after = shows(1, 13);
    EXPECT_FALSE(after.log_complete);
    EXPECT_THAT(after.warnings.back().text, HasSubstr("No reading for 15 min"));
}

TEST_F(Restart, ARequestWhoseAnswerWasLostIsAnsweredAlikeAfterwards) {
    const auto before = call<RunStart>(start_params(7), "the-same-key");
    restart(minutes(1));
    const auto after = call<RunStart>(start_params(7), "the-same-key");
    EXPECT_EQ(to_json(before), to_json(after));
    EXPECT_THAT(all_runs(), SizeIs(1));
}

} // namespace
} // namespace barmkeep::canning
