// Mistakes put right: a reading struck out, a seal count undone, an inspection that comes again.
#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using contract::HoldKind;
using test::Cellar;
using test::error_of;
using test::minutes;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Undo : public Cellar {
protected:
    RunSummary undo_seal_test(std::int64_t run = 1) {
        return call<RunUndoSealTest>({run, "miscounted"});
    }
};

// Found in trials (7): a wrong count had no way back.
TEST_F(Undo, ASealCountIsCountedAgainAndTheCodesOnTheLidsStay) {
    const auto before = shelf("light extract").on_hand;
    (void)start();
    process_by_the_book(1);
    const auto first = seal(1, 5, 2);
    const RunSummary back = undo_seal_test();
    EXPECT_EQ(back.phase, Phase::seal_test);
    EXPECT_EQ(shelf("light extract").on_hand, before);
    EXPECT_EQ(lot(first.lots[0].code).on_hand.steps, 0);
    const auto second = seal(1, 6, 1);
    ASSERT_THAT(second.lots, SizeIs(2));
    EXPECT_EQ(second.lots[0].code, first.lots[0].code);
    EXPECT_EQ(second.lots[1].code, first.lots[1].code);
    EXPECT_EQ(lot(first.lots[0].code).on_hand, pieces(6));
    EXPECT_EQ(lot(first.lots[1].code).on_hand, pieces(1));
    EXPECT_EQ(call<RunShow>({1}).phase, Phase::shelved);
    expect_sound();
}

TEST_F(Undo, ItIsRefusedOnceAJarIsUsedOrReserved) {
    const auto jars = shelved_run().lots.at(0).code;
    const auto brew = call<contract::BrewPlan>({{}, parse_date("2026-03-10"), "ale"}).number;
    (void)call<contract::BrewReserve>({brew, to_text(jars), pieces(1)});
    EXPECT_THAT(error_of([&] { (void)undo_seal_test(); }).what(), HasSubstr("reserved"));
    (void)call<contract::BrewUnreserve>({brew, {}});
    (void)open_jars(jars);
    EXPECT_EQ(error_of([&] { (void)undo_seal_test(); }).reason(), "jars_gone");
    EXPECT_EQ(call<RunShow>({1}).phase, Phase::shelved);
}

TEST_F(Undo, TheEntryItselfIsNotUndoneByHand) {
    const auto entry = *shelved_run().entry;
    EXPECT_THROW((void)call<contract::EntryUndo>({entry, contract::EntryKind::converted, "slip"}),
                 Error);
    EXPECT_EQ(shelf("pint of wort").on_hand, pieces(7));
}

// A count undone is no way round a deviation, nor is a strike after it.
TEST_F(Undo, DeviationsSurviveIt) {
    (void)start();
    process_vented_short(1);
    RunSealTest::Params params;
    params.run = 1;
    params.held = 7;
    params.deviation_to = DeviationTo::refrigerator;
    const auto jars = call<RunSealTest>(params).lots.at(0).code;
    (void)undo_seal_test();
    EXPECT_EQ(error_of([&] { (void)call<RunStrike>({1, 2, "a slip"}); }).reason(), "counted");
    const auto again = call<RunSealTest>(params);
    EXPECT_EQ(again.lots.at(0).code, jars);
    EXPECT_EQ(again.lots.at(0).holds.at(0).kind, HoldKind::deviation_known);
    EXPECT_EQ(shelf("pint of wort").available.steps, 0);
}

TEST_F(Undo, JarsThrownOutComeBackToTheCount) {
    (void)start();
    process_by_the_book(1);
    RunSealTest::Params params;
    params.run = 1;
    params.broken = 7;
    (void)call<RunSealTest>(params);
    EXPECT_EQ(shelf("lids").on_hand, pieces(17));
    (void)undo_seal_test();
    EXPECT_EQ(shelf("lids").on_hand, pieces(24));
    EXPECT_THAT(seal(1, 7).lots, SizeIs(1));
    expect_sound();
}

// Found in trials (7): 3 for 13 psi restarted the clock for good.
TEST_F(Undo, AMistypedReadingIsStruckOut) {
    (void)start();
    up_to_pressure(1);
    (void)keep_pressure(1, 13, 10);
    wait(minutes(1));
    const RunSummary dropped = shows(1, 3);
    EXPECT_EQ(dropped.restarts, 1);
    ASSERT_TRUE(dropped.alarm);
    const RunSummary struck = call<RunStrike>({1, dropped.line, "3 for 13"});
    EXPECT_EQ(struck.restarts, 0);
    EXPECT_FALSE(struck.alarm);
    EXPECT_EQ(struck.remaining, minutes(9));
    const auto log = call<RunShow>({1}).log;
    EXPECT_TRUE(log.at(log.size() - 2).struck);
    EXPECT_EQ(log.back().note, "3 for 13");
}

// Found in trials (8): after `reminder done` an inspection never came again.
TEST_F(Undo, AnInspectionMarkedDoneComesAgain) {
    (void)shelved_run();
    ASSERT_THAT(reminders(), SizeIs(1));
    wait(Seconds{90 * 86400});
    (void)call<contract::ReminderDone>({reminders()[0].name});
    ASSERT_THAT(reminders(), SizeIs(1));
    EXPECT_EQ(reminders()[0].state, contract::ReminderState::open);
    EXPECT_GT(reminders()[0].due, parse_date("2026-08-01"));
}

// Found in trials (10): each reading rewrote and kept the whole run.
TEST_F(Undo, AReadingAnswersAndKeepsNoMoreThanTheFirst) {
    (void)start();
    up_to_pressure(1);
    const auto size_of = [&](int i) {
        wait(Seconds{5});
        const auto now =
            call<RunGauge>({1, 13 * brewing::psi_gauge, {}, {}}, "reading-" + std::to_string(i));
        const auto kept = call<contract::LedgerRecall>({"reading-" + std::to_string(i) + "/1"});
        EXPECT_TRUE(kept.done);
        return write_json(to_json(now)).size() + write_json(kept.answer).size();
    };
    const auto first = size_of(0);
    std::size_t last = 0;
    for (int i = 1; i <= 60; ++i)
        last = size_of(i);
    EXPECT_LT(last, first + 200);
}

} // namespace
} // namespace barmkeep::canning
