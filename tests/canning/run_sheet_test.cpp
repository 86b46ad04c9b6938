// What is read at the stove: the answer first, a mistake before all else.
#include "plugins/canning/sheets/sheets.hpp"
#include "tests/canning/runs.hpp"
#include "tests/canning/sheet_page.hpp"

namespace barmkeep::canning {
namespace {

using namespace test; // NOLINT
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

/// A run with its card, and what a person sees of it at each moment.
class RunSheet : public testing::Test {
protected:
    RunSheet() {
        run.begun.card = {{1, 6, LotCode{'E', 1}, 95 * brewing::gram, 3.35, 340 * brewing::gram,
                           12.0, 1 * brewing::gram},
                          {7, 7, LotCode{'E', 1}, 40 * brewing::gram, 1.4, {}, {}, {}},
                          {7, 7, LotCode{'E', 9}, 55 * brewing::gram, 1.9, 340 * brewing::gram,
                           12.0, 1 * brewing::gram}};
        run.begun.total = {665 * brewing::gram, 23.5, 2380 * brewing::gram, 84, 7 * brewing::gram};
    }

    [[nodiscard]] sheet::Sheet status() const {
        return sheets::run_status({run.number}, hand.seen());
    }
    [[nodiscard]] Page page(const sheet::Sheet& sheet, int width = 80) const {
        return {sheet, reader_at(hand.now(), width)};
    }
    /// Asked every day, so short; and it must fit a telephone.
    [[nodiscard]] Page daily() const {
        (void)page(status(), 40);
        Page made = page(status());
        EXPECT_LE(made.lines.size(), lines_max_daily) << made.text;
        return made;
    }

    canning::Run run = sample_run();
    Hand hand{run};
};

TEST_F(RunSheet, StartsWithTheWeighingCard) {
    const auto sheet = sheets::run_started({}, hand.shown());
    const Page started = page(sheet);
    EXPECT_THAT(started.top(1), HasSubstr("Run 1: 7 pint jars in kettle"));
    EXPECT_THAT(started.words(), HasSubstr("Weigh and fill by the card"));
    EXPECT_THAT(started.text, HasSubstr("1 to 6"));
    EXPECT_THAT(started.text, HasSubstr("340 g"));
    EXPECT_THAT(started.text, HasSubstr("headspace"));
    EXPECT_LE(started.lines.size(), lines_max_daily) << started.text;
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "steam_flows");
    (void)page(sheet, 40);
}

TEST_F(RunSheet, VentingCountsToTheWeight) {
    hand.wait(minutes(30)).step(Step::steam_flows).wait(minutes(4));
    const Page page = daily();
    EXPECT_THAT(page.top(2), HasSubstr("Run 1: venting"));
    EXPECT_THAT(page.top(2), HasSubstr("Let steam flow freely for 10 min"));
    EXPECT_THAT(page.text, HasSubstr("weight on not before"));
    EXPECT_THAT(page.text, HasSubstr("6:00"));
    EXPECT_THAT(page.words(), HasSubstr("Air left in the canner"));
    const auto sheet = status();
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "weight_on");
    EXPECT_TRUE(usual_of(sheet)->confirm) << "it is too early";
    hand.wait(minutes(6));
    const auto later = status();
    EXPECT_FALSE(usual_of(later)->confirm);
}

TEST_F(RunSheet, AtPressureSaysWhatTheDialMustShowAndWhenItIsReadNext) {
    run.begun.gauge_error = 0.5 * brewing::psi_gauge;
    run.begun.target = 11.5 * brewing::psi_gauge;
    hand.up_to_pressure(12).wait(minutes(5)).shows(12);
    sheet::Reader us = reader_at(hand.now());
    us.units = brewing::System::us;
    const Page page{status(), us};
    EXPECT_THAT(page.top(1), HasSubstr("Run 1: at pressure"));
    EXPECT_THAT(page.top(2), HasSubstr("Keep the dial at 11.5 psi or slightly above."));
    EXPECT_THAT(page.words(), HasSubstr("it reads 0.5 psi high"));
    EXPECT_THAT(page.text, HasSubstr("heat off not before"));
    EXPECT_THAT(page.text, HasSubstr("15:00"));
    EXPECT_THAT(page.text, HasSubstr("next reading by"));
    EXPECT_LE(daily().lines.size(), lines_max_daily);
    const auto sheet = status();
    EXPECT_EQ(usual_of(sheet)->method, "run.gauge");
    EXPECT_THAT(usual_of(sheet)->ask, testing::ElementsAre("shows"));
}

// Whoever reads the figure off and reaches it must have reached the target.
TEST_F(RunSheet, APressureToReachIsNeverRoundedDown) {
    run.begun.target = 75.842 * brewing::kilopascal_gauge;
    hand.up_to_pressure(12);
    EXPECT_THAT(daily().top(2), HasSubstr("75.9 kPa"));
}

TEST_F(RunSheet, HeatOffIsTheNextStepOnceTheTimeIsOver) {
    hand.up_to_pressure().keep_pressure(11.5, 20);
    EXPECT_THAT(daily().top(2), HasSubstr("20 min that you stated are over: turn the heat off."));
    const auto sheet = status();
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "heat_off");
    EXPECT_THAT(daily().text, Not(HasSubstr("safe")));
}

TEST_F(RunSheet, AFallOfThePressureStandsBeforeTheTitle) {
    hand.up_to_pressure().wait(minutes(5)).shows(9);
    const Page page = daily();
    EXPECT_THAT(page.text, StartsWith("!! "));
    EXPECT_THAT(page.words(), HasSubstr("The time starts again from zero."));
    EXPECT_THAT(page.words(), HasSubstr("bring the dial back to"));
    EXPECT_THAT(page.text, HasSubstr("Run 1: coming up to pressure"));
}

TEST_F(RunSheet, HeatThatWentOffEarlyIsTurnedOnAgain) {
    hand.up_to_pressure().keep_pressure(11.5, 15).step(Step::heat_off);
    const Page page = daily();
    EXPECT_THAT(page.text, StartsWith("!! The heat went off after 15 min"));
    EXPECT_THAT(page.words(), HasSubstr("Turn the heat on again"));
    EXPECT_THAT(page.words(), HasSubstr("may not go on the shelf"));
    EXPECT_THAT(page.words(), HasSubstr("If the heat went off early, turn it on again"));
    const auto sheet = status();
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "heat_on");
}

TEST_F(RunSheet, ALateReadingIsAnAlarm) {
    hand.up_to_pressure().wait(minutes(18));
    EXPECT_THAT(daily().text, StartsWith("!! The gauge reading is late."));
}

TEST_F(RunSheet, ShortVentingIsPutRightBeforeAnythingElse) {
    hand.step(Step::steam_flows).wait(minutes(6)).step(Step::weight_on);
    const auto sheet = status();
    EXPECT_THAT(daily().text, StartsWith("!! Vented for 6 min only"));
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "steam_flows");
    EXPECT_THAT(daily().words(), HasSubstr("Vent again before anything else"));
}

TEST_F(RunSheet, CoolsByItselfThenOpensAfterTenMinutes) {
    hand.up_to_pressure().keep_pressure(11.5, 20).step(Step::heat_off).wait(minutes(20));
    EXPECT_THAT(daily().top(2), HasSubstr("cool by itself"));
    EXPECT_THAT(daily().words(), HasSubstr("Use no cold water"));
    EXPECT_EQ(usual_of(status())->params.at("shows").as_int64(), 0);
    hand.wait(minutes(15)).shows(0).wait(minutes(3));
    EXPECT_THAT(daily().text, HasSubstr("open not before"));
    const auto sheet = status();
    EXPECT_EQ(usual_of(sheet)->params.at("step").as_string(), "opened");
    EXPECT_TRUE(usual_of(sheet)->confirm);
}

TEST_F(RunSheet, JarsStandUntouchedBeforeTheSealTest) {
    hand.by_the_book().wait(hours(2));
    const Page early = daily();
    EXPECT_THAT(early.top(2), HasSubstr("Leave the jars untouched"));
    EXPECT_THAT(early.text, HasSubstr("seals not before"));
    EXPECT_THAT(early.text, HasSubstr("chill a jar that failed before"));
    EXPECT_EQ(usual_of(status()), nullptr);
    hand.wait(hours(11));
    EXPECT_THAT(daily().top(2), HasSubstr("Test each seal now"));
    EXPECT_EQ(usual_of(status())->method, "run.seal_test");
}

TEST_F(RunSheet, AnOpenedLoadWithADeviationNeverLooksReady) {
    hand.up_to_pressure().keep_pressure(11.5, 15).step(Step::heat_off).cool_and_open();
    const Page page = daily();
    EXPECT_THAT(page.text, StartsWith("!! "));
    EXPECT_THAT(page.words(), HasSubstr("These jars never go on the shelf. Throw them out"));
    EXPECT_THAT(page.words(), HasSubstr("A looser source allows 24 hours. [S75]"));
    EXPECT_THAT(page.words(), HasSubstr("No jar of this run goes on the shelf"));
    EXPECT_THAT(page.text, HasSubstr("chill or freeze only before"));
    EXPECT_EQ(usual_of(status())->params.at("deviation_to").as_string(), "discard");
    hand.wait(hours(3));
    EXPECT_THAT(daily().words(), Not(HasSubstr("into the refrigerator (2 days)")));
}

TEST_F(RunSheet, ASlipIsStruckOutByItsLine) {
    hand.step(Step::steam_flows).wait(minutes(1)).step(Step::weight_on);
    EXPECT_EQ(hand.seen().strike_line, 2);
    hand.strike(2);
    EXPECT_EQ(hand.seen().line, 3);
    EXPECT_EQ(hand.seen().strike_line, 1) << "what is struck out cannot be struck out again";
    const auto sheet = sheets::run_struck({1, 2, "mistyped"}, hand.seen());
    EXPECT_THAT(page(sheet).words(), HasSubstr("Line 2 is struck out. It stays in the log"));
    const auto is_undo = [](const sheet::Action& action) {
        return action.method == "run.strike";
    };
    const auto undo = std::find_if(sheet.actions.begin(), sheet.actions.end(), is_undo);
    ASSERT_NE(undo, sheet.actions.end());
    EXPECT_EQ(undo->params.at("line").as_int64(), 1);
    EXPECT_THAT(undo->ask, testing::ElementsAre("reason"));
}

TEST_F(RunSheet, AWeightRocksInPlaceOfAReading) {
    run.begun.process.process.gauge = contract::Gauge::weighted;
    hand.up_to_pressure();
    EXPECT_THAT(daily().top(2), HasSubstr("Keep the weight rocking"));
    const auto sheet = status();
    EXPECT_TRUE(usual_of(sheet)->params.at("rocking").as_bool());
    EXPECT_THAT(usual_of(sheet)->ask, testing::IsEmpty());
}

TEST_F(RunSheet, AShortProcessIsSaidInEveryPhase) {
    run.begun.process.process_note = "shorter than any published";
    const auto says_it = [&] {
        return daily().words().find("Your process is shorter") != std::string::npos;
    };
    EXPECT_TRUE(says_it());
    EXPECT_THAT(page(sheets::run_started({}, hand.shown())).words(),
                HasSubstr("Your process is shorter"));
    hand.up_to_pressure();
    EXPECT_TRUE(says_it());
    hand.keep_pressure(11.5, 20).step(Step::heat_off).cool_and_open();
    EXPECT_TRUE(says_it());
}

TEST_F(RunSheet, ShowsTheLogWithItsNumbers) {
    hand.by_the_book();
    RunShow::Result shown;
    static_cast<RunDetails&>(shown) = hand.shown();
    for (const LogLine& line : run.log) {
        LogLineShown one;
        static_cast<LogLine&>(one) = line;
        one.number = static_cast<std::int64_t>(shown.log.size()) + 1;
        shown.log.push_back(one);
    }
    shown.log[1].struck = true;
    const auto sheet = sheets::run_shown({run.number}, shown);
    const Page short_page = page(sheet);
    EXPECT_THAT(short_page.text, HasSubstr("canner opened"));
    EXPECT_THAT(short_page.text, HasSubstr("7 pint jars in kettle"));
    EXPECT_THAT(short_page.words(), HasSubstr("More with --full: The whole log, Phases"));
    sheet::Reader full = reader_at(hand.now());
    full.full = true;
    const Page all{sheet, full};
    EXPECT_THAT(all.text, HasSubstr("struck out"));
    EXPECT_THAT(all.text, HasSubstr("no proof of a process"));
}

TEST_F(RunSheet, TheListPutsAnAlarmFirst) {
    hand.up_to_pressure().wait(minutes(5)).shows(9);
    RunList::Result list;
    list.runs = {{2, Phase::filling, hand.now(), "pint", 9, "filling", {}},
                 {1, Phase::pressurising, run.begun.started, "pint", 7, "", hand.seen().alarm}};
    const Page listed = page(sheets::run_list({}, list));
    EXPECT_THAT(listed.text, StartsWith("!! Run 1: The pressure fell"));
    EXPECT_THAT(listed.words(), HasSubstr("2 runs open; 1 needs you now."));
    EXPECT_THAT(listed.text, HasSubstr("coming up to pressure"));
    EXPECT_LE(listed.lines.size(), lines_max_daily);
    const auto none = sheets::run_list({}, {});
    EXPECT_THAT(page(none).text, HasSubstr("No run is open."));
}

TEST_F(RunSheet, AnAbandonedRunLeavesNothingForTheShelf) {
    LogLine line;
    line.kind = LineKind::abandoned;
    line.at = hand.now();
    hand.log(line);
    const auto sheet = sheets::run_abandoned({1, "burnt", true}, hand.seen());
    EXPECT_THAT(page(sheet).top(2), HasSubstr("Nothing of this run goes on the shelf"));
    EXPECT_THAT(page(sheet).words(), HasSubstr("taken from stock"));
    EXPECT_THAT(daily().words(), HasSubstr("nothing of it goes on the shelf"));
}

TEST_F(RunSheet, AnUndoneSealTestIsCountedAgain) {
    hand.by_the_book().wait(hours(13));
    const Page undone = page(sheets::seal_test_undone({1, "miscounted"}, hand.seen()));
    EXPECT_THAT(undone.top(2), HasSubstr("Count the seals again"));
}

} // namespace
} // namespace barmkeep::canning
