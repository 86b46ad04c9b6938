#include "plugins/canning/run/seal.hpp"
#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using contract::HoldKind;
using contract::Keeping;
using test::error_of;
using test::Hand;
using test::hours;
using test::minutes;
using test::sample_run;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Seals : public testing::Test {
protected:
    SealOutcome sealed(const RunSealTest::Params& params) {
        return seal_outcome(run, hand.state(), params,
                            {hand.now(), Date{std::chrono::floor<Days>(hand.now())}, "UTC"}, {});
    }
    static RunSealTest::Params counts(std::int64_t held, std::int64_t failed = 0) {
        RunSealTest::Params params;
        params.run = 1;
        params.held = held;
        params.failed = failed;
        return params;
    }
    static RunSealTest::Params deviating_to(DeviationTo place) {
        RunSealTest::Params params = counts(7);
        params.deviation_to = place;
        return params;
    }
    static std::vector<HoldKind> kinds(const contract::ConvertOutput& output) {
        std::vector<HoldKind> all;
        for (const auto& hold : output.holds)
            all.push_back(hold.kind);
        return all;
    }

    canning::Run run = sample_run();
    Hand hand{run};
};

class ByTheBook : public Seals {
protected:
    ByTheBook() { hand.by_the_book().wait(hours(14)); }
};

TEST_F(ByTheBook, AllThatHeldMakeOneLotGoodForAYearAndOffHold) {
    const SealOutcome made = sealed(counts(7));
    ASSERT_THAT(made.conversion->outputs, SizeIs(1));
    const auto& jars = made.conversion->outputs.front();
    EXPECT_EQ(jars.best_by, parse_date("2027-03-02"));
    EXPECT_THAT(jars.holds, IsEmpty());
    EXPECT_EQ(jars.kept, Keeping::shelf);
    EXPECT_EQ(jars.facts.extract, run.begun.facts.extract);
    EXPECT_EQ(made.conversion->lost, 0);
    EXPECT_EQ(contract::linked(made.conversion->about, "canning.run"), 1);
}

TEST_F(ByTheBook, JarsThatFailedGoToTheRefrigeratorHeldAndCarryNoValue) {
    const SealOutcome made = sealed(counts(5, 2));
    ASSERT_THAT(made.conversion->outputs, SizeIs(2));
    const auto& failed = made.conversion->outputs[1];
    EXPECT_EQ(failed.best_by, parse_date("2026-03-05"));
    EXPECT_EQ(failed.kept, Keeping::refrigerator);
    EXPECT_THAT(kinds(failed), ElementsAre(HoldKind::seal_failed));
    EXPECT_EQ(failed.weight, 0);
    EXPECT_EQ(lost_value({7'000'000}, made.test), Money{2'000'000});
    EXPECT_THAT(what_now_of(made.test, hand.state()), HasSubstr("until 2026-03-05"));
}

TEST_F(ByTheBook, JarsThatBrokeOrWereThrownOutAreLostPieces) {
    RunSealTest::Params params = counts(3, 2);
    params.broken = 1;
    params.lost_half = 1;
    params.failed_to = FailedTo::discard;
    const SealOutcome made = sealed(params);
    EXPECT_EQ(made.conversion->lost, 4);
    EXPECT_THAT(made.conversion->outputs, SizeIs(1));
    EXPECT_EQ(lost_value({7'000'000}, made.test), Money{4'000'000});
}

TEST_F(ByTheBook, SealedJarsThatLostSomeLiquidAreTakenFirstWithNoFillClaimed) {
    RunSealTest::Params params = counts(6);
    params.lost_liquid = 1;
    const SealOutcome made = sealed(params);
    const auto& jars = made.conversion->outputs[1];
    EXPECT_THAT(jars.holds, IsEmpty());
    EXPECT_LT(*jars.best_by, *made.conversion->outputs[0].best_by);
    EXPECT_FALSE(jars.facts.fill);
    EXPECT_FALSE(jars.facts.extract);
    EXPECT_TRUE(jars.facts.gravity);
    EXPECT_THAT(what_now_of(made.test, hand.state()), HasSubstr("[S91 S110]"));
}

TEST_F(ByTheBook, CountsThatDoNotAddUpAreRefused) {
    const Error error = error_of([&] { (void)sealed(counts(5, 1)); });
    EXPECT_EQ(error.reason(), "counts_differ");
    EXPECT_THAT(error.what(), HasSubstr("6 jars, and run 1 has 7"));
}

TEST_F(ByTheBook, NoJarAtAllThrowsOutWhatWentIn) {
    RunSealTest::Params params = counts(0);
    params.broken = 7;
    const SealOutcome made = sealed(params);
    EXPECT_FALSE(made.conversion);
    EXPECT_THAT(made.thrown_out, SizeIs(2));
    EXPECT_THAT(made.test.lots, IsEmpty());
}

TEST_F(ByTheBook, JarsThatFailedCarryTheValueWhereOnlyTheyAreLeft) {
    const SealOutcome made = sealed(counts(0, 7));
    EXPECT_FALSE(made.conversion->outputs.front().weight);
    EXPECT_EQ(lost_value({7'000'000}, made.test), Money{});
}

// The jars stood for 23 h 40 min, but the heat went off 24 h 25 min ago.
TEST_F(ByTheBook, TheDayForAJarThatFailedCountsFromHeatOffNotFromTheOpening) {
    hand.wait(hours(9) + minutes(40));
    const Error error = error_of([&] { (void)sealed(counts(5, 2)); });
    EXPECT_EQ(error.reason(), "too_late");
    RunSealTest::Params params = counts(5, 2);
    params.failed_to = FailedTo::discard;
    EXPECT_NO_THROW((void)sealed(params));
}

TEST_F(ByTheBook, JarsJustWithinADayOfHeatOffMayStillBeKept) {
    hand.wait(hours(9) + minutes(10)); // 23 h 55 min after heat off
    EXPECT_NO_THROW((void)sealed(counts(5, 2)));
}

TEST_F(ByTheBook, BestByBeyondAYearNeedsAReason) {
    RunSealTest::Params params = counts(7);
    params.best_by = parse_date("2027-06-01");
    EXPECT_EQ(error_of([&] { (void)sealed(params); }).reason(), "reason_missing");
    params.reason = "kept at 12 C";
    EXPECT_EQ(sealed(params).conversion->outputs[0].best_by, parse_date("2027-06-01"));
}

TEST_F(ByTheBook, TheDayOfCanningIsThatOfTheKitchensClock) {
    // Heat off at 09:04 UTC is 23:04 of the day before in Honolulu.
    const SealOutcome made =
        seal_outcome(run, hand.state(), counts(7),
                     {hand.now(), parse_date("2026-03-02"), "Pacific/Honolulu"}, {});
    EXPECT_EQ(made.test.canned, parse_date("2026-03-01"));
}

TEST_F(Seals, AreNotTestedBeforeTwelveHours) {
    hand.by_the_book().wait(hours(11));
    const Error error = error_of([&] { (void)sealed(counts(7)); });
    EXPECT_EQ(error.reason(), "too_early");
    EXPECT_THAT(error.hint(), HasSubstr("1 h"));
}

/// A run whose hold nobody watched.
class WithAGap : public Seals {
protected:
    WithAGap() {
        hand.up_to_pressure(11).wait(minutes(20)).step(Step::heat_off).cool_and_open();
        hand.wait(hours(13));
    }
};

TEST_F(WithAGap, JarsAreHeldForMissingEvidence) {
    RunSealTest::Params params = counts(6, 1);
    params.failed_to = FailedTo::discard;
    const SealOutcome made = sealed(params);
    ASSERT_THAT(made.conversion->outputs, SizeIs(1));
    EXPECT_THAT(kinds(made.conversion->outputs[0]), ElementsAre(HoldKind::evidence_missing));
    EXPECT_THAT(made.conversion->outputs[0].holds[0].note, HasSubstr("No reading for 20 min"));
}

TEST_F(WithAGap, JarsThatFailedAreNotKeptAtAll) {
    EXPECT_EQ(error_of([&] { (void)sealed(counts(6, 1)); }).reason(), "log_incomplete");
}

/// A run that was vented short.
class Deviating : public Seals {
protected:
    Deviating() {
        hand.step(Step::steam_flows).wait(minutes(5)).step(Step::weight_on).wait(minutes(4));
        hand.shows(11).keep_pressure(11, 20).step(Step::heat_off).cool_and_open();
    }
};

// Found in trials: such jars were released with "they look fine" and stood on the shelf for a year.
TEST_F(Deviating, JarsAreThrownOutByDefault) {
    hand.wait(hours(13));
    const SealOutcome made = sealed(counts(7));
    EXPECT_FALSE(made.conversion);
    EXPECT_THAT(made.thrown_out, SizeIs(2));
    EXPECT_THAT(what_now_of(made.test, hand.state()), HasSubstr("Throw out all jars"));
}

TEST_F(Deviating, WithinTwoHoursJarsMayGoIntoTheRefrigeratorHeldForEver) {
    hand.wait(hours(2));
    const SealOutcome made = sealed(deviating_to(DeviationTo::refrigerator));
    const auto& jars = made.conversion->outputs.at(0);
    EXPECT_THAT(kinds(jars), ElementsAre(HoldKind::deviation_known));
    EXPECT_EQ(contract::end_of(jars.holds[0].kind), contract::HoldEnd::never);
    EXPECT_EQ(jars.kept, Keeping::refrigerator);
    EXPECT_EQ(jars.best_by, parse_date("2026-03-04")) << "two days";
    EXPECT_THAT(jars.holds[0].note, HasSubstr("Vented for 5 min only"));
}

TEST_F(Deviating, OrIntoTheFreezer) {
    EXPECT_EQ(sealed(deviating_to(DeviationTo::freezer)).conversion->outputs.at(0).kept,
              Keeping::freezer);
}

TEST_F(Deviating, AfterTwoHoursTheyCanOnlyBeThrownOut) {
    hand.wait(hours(2) + Seconds{1});
    for (const auto place : {DeviationTo::refrigerator, DeviationTo::freezer}) {
        const Error error = error_of([&] { (void)sealed(deviating_to(place)); });
        EXPECT_EQ(error.reason(), "too_late");
        EXPECT_THAT(error.hint(), HasSubstr("[S75]")) << "the looser source is quoted";
    }
}

TEST_F(Deviating, NoCountMakesAShelfLotOfThem) {
    for (const auto place :
         {DeviationTo::discard, DeviationTo::refrigerator, DeviationTo::freezer}) {
        RunSealTest::Params params = deviating_to(place);
        params.held = 4;
        params.failed = 2;
        params.lost_liquid = 1;
        const SealOutcome made = sealed(params);
        const auto outputs =
            made.conversion ? made.conversion->outputs : std::vector<contract::ConvertOutput>{};
        for (const auto& output : outputs)
            EXPECT_THAT(kinds(output), ElementsAre(HoldKind::deviation_known));
    }
}

/// A count that was undone: five held, two failed; their lots were J3 and J4.
class Recounted : public ByTheBook {
protected:
    Recounted() {
        const SealOutcome first = sealed(counts(5, 2));
        LogLine line = note_line(run, LineKind::seal_test, {}, hand.logging());
        line.seal_test = first.test;
        hand.log(line);
        line = note_line(run, LineKind::seal_test_undone, "miscounted", hand.logging());
        line.lots = {{LotCode{'J', 3}, LotCode{'J', 4}}};
        hand.log(line);
    }
};

TEST_F(Recounted, JarsKeepTheCodesOnTheirLids) {
    const auto outputs = sealed(counts(6, 1)).conversion->outputs;
    EXPECT_EQ(outputs.at(0).lot, (LotCode{'J', 3}));
    EXPECT_EQ(outputs.at(1).lot, (LotCode{'J', 4}));
}

TEST_F(Recounted, JarsThatStandInTheColdSinceTheFirstCountStayThereAndNoLonger) {
    hand.wait(hours(30));
    const SealOutcome made = sealed(counts(6, 1));
    EXPECT_EQ(made.conversion->outputs.at(1).best_by, parse_date("2026-03-05"));
    EXPECT_EQ(error_of([&] { (void)sealed(counts(4, 3)); }).reason(), "too_late")
        << "the third was not in the cold";
}

// A count that is undone must not wash the run of a jar that was spoiled.
TEST_F(Recounted, JarsOfARunWithASpoiledOneStayHeldHoweverTheyAreCounted) {
    LogLine spoiled = note_line(run, LineKind::spoiled, "mould", hand.logging());
    spoiled.jars = 1;
    hand.log(spoiled);
    RunSealTest::Params params = counts(5, 1);
    params.lost_liquid = 1;
    const auto made = sealed(params);
    for (const auto& output : made.conversion->outputs)
        EXPECT_FALSE(output.holds.empty());
    EXPECT_THAT(kinds(made.conversion->outputs.at(1)), ElementsAre(HoldKind::run_suspect));
    hand.log(spoiled);
    EXPECT_THAT(kinds(sealed(params).conversion->outputs.at(1)),
                ElementsAre(HoldKind::run_suspect, HoldKind::deviation_known));
}

TEST(JarsProcessedTwice, AreNotOffered) {
    for (const auto& word : enum_names(FailedTo{}))
        EXPECT_NE(word.text, "reprocess");
    for (const auto& field : RunStart::Params::fields(0))
        EXPECT_NE(field.name, "again");
}

} // namespace
} // namespace barmkeep::canning
