#include "tests/canning/cellar.hpp"

#include <future>

namespace barmkeep::canning {
namespace {

using test::Cellar;
using test::error_of;
using test::minutes;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class RunOnLedger : public Cellar {};

TEST_F(RunOnLedger, TellsTheGaugesCorrectionTheAltitudeAndTheSteam) {
    const RunDetails run = start();
    EXPECT_EQ(run.run, 1);
    EXPECT_EQ(run.phase, Phase::filling);
    EXPECT_NEAR(run.target.in(brewing::psi_gauge), 12.5, 0.001) << "the dial reads 0.5 high";
    EXPECT_NEAR(run.at_altitude.altitude.in(brewing::metre), 500, 1e-6);
    EXPECT_NEAR(run.at_altitude.band.in(brewing::psi_gauge), 11, 0.001);
    EXPECT_GT(run.at_altitude.steam.celsius(), 115);
    EXPECT_THAT(run.card, SizeIs(4));
}

TEST_F(RunOnLedger, AFullLoadMakesOneEntryAndJarsWithTheirFacts) {
    const auto sealed = shelved_run();
    ASSERT_THAT(sealed.lots, SizeIs(1));
    const auto& jars = sealed.lots.front();
    EXPECT_EQ(jars.on_hand, pieces(7));
    EXPECT_EQ(jars.category, contract::Category::concentrate);
    EXPECT_THAT(jars.holds, IsEmpty());
    EXPECT_EQ(contract::linked(jars.about, "canning.run"), 1);
    EXPECT_EQ(jars.canned, parse_date("2026-03-02"));
    EXPECT_EQ(jars.best_by, parse_date("2027-03-02"));
    EXPECT_NEAR(jars.facts.gravity->sg(), 1.083, 0.003);
    EXPECT_NEAR(jars.facts.fill->in(brewing::millilitre), 415, 1e-6);
    EXPECT_NEAR(jars.facts.extract->in(brewing::gram), 90.5, 0.5);
    EXPECT_EQ(jars.facts.jar, "pint");
    EXPECT_EQ(jars.value, sealed.value);
    EXPECT_EQ(shelf("lids").on_hand, pieces(17));
    EXPECT_THAT(sealed.because, IsEmpty());
    expect_sound();
}

TEST_F(RunOnLedger, FailedJarsCarryNothingAndTheGoodOnesCarryAll) {
    const std::int64_t run = start().run;
    process_by_the_book(run);
    const auto sealed = seal(run, 5, 2);
    ASSERT_THAT(sealed.lots, SizeIs(2));
    EXPECT_THAT(sealed.lots[0].holds, IsEmpty());
    EXPECT_EQ(sealed.lots[1].holds.at(0).kind, contract::HoldKind::seal_failed);
    EXPECT_EQ(sealed.lots[1].kept, contract::Keeping::refrigerator);
    EXPECT_EQ(sealed.lots[0].value, sealed.value);
    EXPECT_EQ(sealed.lots[1].value, Money{});
    EXPECT_EQ(sealed.lost_value, share_of(sealed.value, 2, 7));
    EXPECT_EQ(sealed.lots[1].best_by, parse_date("2026-03-05"))
        << "three days in the refrigerator, from the seal test late on the second";
    EXPECT_THAT(reminders(), SizeIs(2)) << "inspection and refrigerator; the seal test is done";
    expect_sound();
}

TEST_F(RunOnLedger, ARequestRepeatedByItsKeyIsDoneOnce) {
    const auto first = call<RunStart>(start_params(7), "key-1");
    const auto second = call<RunStart>(start_params(7), "key-1");
    EXPECT_EQ(first.run, second.run);
    EXPECT_THAT(all_runs(), SizeIs(1));
    wait(minutes(20));
    (void)call<RunLog>({1, Step::steam_flows, {}, {}}, "key-2");
    wait(minutes(1));
    const auto again = call<RunLog>({1, Step::steam_flows, {}, {}}, "key-2");
    EXPECT_EQ(again.phase, Phase::venting);
    EXPECT_THAT(call<RunShow>({1}).log, SizeIs(1));
}

TEST_F(RunOnLedger, ReadingsOfSeveralSendersAtOnceAreAllKept) {
    (void)start();
    (void)log(1, Step::steam_flows);
    wait(minutes(10));
    (void)log(1, Step::weight_on);
    std::vector<std::future<void>> senders;
    for (int sender = 0; sender < 4; ++sender)
        senders.push_back(std::async(std::launch::async, [this] {
            for (int i = 0; i < 25; ++i)
                (void)shows(1, 5);
        }));
    for (auto& sender : senders)
        sender.get();
    std::int64_t readings = 0;
    for (const auto& line : call<RunShow>({1}).log)
        readings += line.kind == LineKind::reading ? 1 : 0;
    EXPECT_EQ(readings, 100);
}

TEST_F(RunOnLedger, ItsStartIsAnEventWithItsNumber) {
    for (std::int64_t run = 1; run <= 2; ++run) {
        EXPECT_EQ(start().run, run);
        const auto started = events("canning.run_started");
        ASSERT_THAT(started, SizeIs(run));
        EXPECT_EQ(
            started.back().about,
            (json::object{{"run", run}, {"phase", "filling"}, {"canner", "kettle"}, {"jars", 7}}));
        (void)call<RunAbandon>({run, "a trial", false});
    }
}

TEST_F(RunOnLedger, AStartThatIsRepeatedOrRefusedPostsNoSecondEvent) {
    (void)call<RunStart>(start_params(7), "key-1");
    (void)call<RunStart>(start_params(7), "key-1");
    EXPECT_THROW((void)start(), Error);
    EXPECT_THAT(events("canning.run_started"), SizeIs(1));
}

TEST_F(RunOnLedger, EveryStepIsAnEvent) {
    (void)start();
    process_by_the_book(1);
    (void)seal(1, 7);
    std::vector<std::string> phases;
    for (const auto& event : events("canning.run_changed"))
        phases.emplace_back(event.about.at("phase").as_string());
    EXPECT_THAT(phases, testing::ElementsAre("venting", "pressurising", "at_pressure", "cooling",
                                             "cooling", "seal_test", "shelved"))
        << "the second cooling is the zero reading";
}

TEST_F(RunOnLedger, ADropIsAnEventWithItsWarning) {
    (void)start();
    (void)log(1, Step::steam_flows);
    wait(minutes(10));
    (void)log(1, Step::weight_on);
    (void)shows(1, 13);
    wait(minutes(1));
    (void)shows(1, 12);
    const auto last = events("canning.run_changed").back();
    EXPECT_EQ(last.about.at("warning").as_string(), "pressure_dropped");
    EXPECT_EQ(last.about.at("restarts").as_int64(), 1);
    EXPECT_THAT(std::string(last.about.at("alarm").as_string()), HasSubstr("fell below"));
}

TEST_F(RunOnLedger, AnAbandonedRunGivesTheCannerFreeAndTakesWhatWasThrownOut) {
    (void)start();
    const auto before = shelf("light extract").on_hand;
    const auto given_up = call<RunAbandon>({1, "the ring leaked", false});
    EXPECT_EQ(given_up.phase, Phase::abandoned);
    EXPECT_EQ(shelf("light extract").on_hand, before);
    (void)start();
    (void)call<RunAbandon>({2, "dropped the tray", true});
    EXPECT_LT(shelf("light extract").on_hand.steps, before.steps - 600'000);
    EXPECT_EQ(shelf("lids").on_hand, pieces(17));
    expect_sound();
}

// Found in review: the day of the canning, and the best by with it, was that of the logging.
TEST_F(RunOnLedger, HeatThatWentOffBeforeMidnightAndWasLoggedAfterItCountsForTheDayBefore) {
    contract::CellarSet::Params cellar;
    cellar.time_zone = "America/Chicago";
    (void)call<contract::CellarSet>(cellar);
    const Instant heat_off = parse_instant("2026-03-03T05:50:00Z"); // 23:50 on the second there
    wait_until("2026-03-03T05:10:00Z");
    (void)start();
    up_to_pressure(1);
    (void)keep_pressure(1, 13, 20);
    wait_until("2026-03-03T06:20:00Z");
    (void)call<RunLog>({1, Step::heat_off, heat_off, {}});
    (void)shows(1, 0);
    wait(minutes(10));
    (void)log(1, Step::opened);
    ASSERT_THAT(reminders(), SizeIs(1));
    EXPECT_EQ(reminders()[0].due, parse_date("2026-03-04")) << "opened on the third";
    wait(Seconds{13 * 3600});
    const auto jars = seal(1, 7).lots.at(0);
    EXPECT_EQ(jars.canned, parse_date("2026-03-02"));
    EXPECT_EQ(jars.best_by, parse_date("2027-03-02"));
}

TEST_F(RunOnLedger, AreListedInPagesNewestFirst) {
    for (int i = 1; i <= 5; ++i) {
        (void)start();
        if (i != 2)
            (void)call<RunAbandon>({i, "a trial", false});
        else
            process_by_the_book(2);
    }
    const auto numbers = [this](RunList::Params params) {
        std::vector<std::int64_t> all;
        for (;;) {
            const auto page = call<RunList>(params);
            EXPECT_LE(std::ssize(page.runs), params.limit);
            for (const RunRow& row : page.runs)
                all.push_back(row.run);
            if (!page.next)
                return all;
            params.cursor = page.next;
        }
    };
    EXPECT_EQ(numbers({{.limit = 2, .cursor = {}}, true}),
              (std::vector<std::int64_t>{5, 4, 3, 2, 1}));
    EXPECT_EQ(numbers({{.limit = 5, .cursor = {}}, true}).size(), 5U);
    EXPECT_EQ(numbers({{.limit = 1, .cursor = {}}, false}), (std::vector<std::int64_t>{2}));
    for (const char* cursor : {"after-run-", "x"})
        EXPECT_EQ(error_of([&] {
                      (void)call<RunList>({{.limit = 2, .cursor = cursor}, true});
                  }).reason(),
                  "bad_cursor");
}

/// Extract and lids for one load of seven and half of another: 1000 g and 10 lids.
class OneLoadAndAHalf : public Cellar {
protected:
    OneLoadAndAHalf() {
        (void)call<contract::StockDiscard>({first_bag_, {}, "mice", {}});
        (void)call<contract::StockUse>(
            {to_text(second_bag_), amount_of(500 * brewing::gram), {}, {}, {}, false, {}});
        (void)call<contract::StockUse>({"lids", pieces(14), {}, {}, {}, false, {}});
    }
};

// Found in review: stock is taken when the seals are logged, half a day after it was weighed out,
// so a second load was planned from extract that was in jars already.
TEST_F(OneLoadAndAHalf, ASecondLoadIsPlannedFromWhatTheFirstLeaves) {
    const std::int64_t first = start().run;
    process_by_the_book(first);

    const Plan plan = call<CanningPlan>(seven_pints());
    EXPECT_FALSE(plan.feasible);
    EXPECT_NEAR(plan.needs[0].available.in_wire_unit(), 1000 - 7 * 94.9, 3);
    EXPECT_EQ(plan.needs[1].available, pieces(3));
    EXPECT_EQ(plan.needs[1].held, "7 by run 1");
    EXPECT_THAT(plan.warnings, testing::Contains(testing::AllOf(HasSubstr("light extract, 66"),
                                                                HasSubstr("lids, 7 by run 1"))));
    CanningPlan::Params as_many = seven_pints();
    as_many.jars.reset();
    EXPECT_EQ(call<CanningPlan>(as_many).jars, 3);

    const Error error = error_of([&] { (void)start(); });
    EXPECT_EQ(error.kind(), ErrorKind::not_enough);
    EXPECT_THAT(error.faults()[1].message, HasSubstr("7 by run 1"));

    const std::int64_t second = start(3).run;
    process_by_the_book(second);
    (void)seal(first, 7);
    (void)seal(second, 3);
    EXPECT_EQ(shelf("lids").on_hand.steps, 0);
    expect_sound();
}

TEST_F(OneLoadAndAHalf, ARunThatHasEndedHoldsNothing) {
    (void)start();
    (void)call<RunAbandon>({1, "the ring leaked", false});
    EXPECT_TRUE(call<CanningPlan>(seven_pints()).feasible);
    EXPECT_FALSE(call<CanningPlan>(seven_pints()).needs[1].held);
    process_by_the_book(start().run);
    (void)seal(2, 7);
    EXPECT_EQ(call<CanningPlan>(seven_pints()).needs[1].available, pieces(3));
}

TEST_F(RunOnLedger, WatchingAnswersAtOnce) {
    (void)start();
    (void)log(1, Step::steam_flows);
    wait(minutes(2));
    EXPECT_EQ(call<RunStatus>({1}).countdown, "venting 2 min, 8 min to go");
}

} // namespace
} // namespace barmkeep::canning
