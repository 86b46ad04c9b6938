// Jars in words: none that is held or chilled looks ready, and why stands beside it.
#include "plugins/canning/sheets/sheets.hpp"
#include "tests/canning/runs.hpp"
#include "tests/canning/sheet_page.hpp"

namespace barmkeep::canning {
namespace {

using namespace test; // NOLINT
using contract::HoldKind;
using contract::Keeping;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const LotCode good_lot{'J', 10};
const LotCode failed_lot{'J', 17};
const LotCode extract_lot{'E', 1};

Instant noon() {
    return parse_instant("2026-03-03T12:00:00Z");
}

Page page(const sheet::Sheet& sheet, int width = 80) {
    return {sheet, reader_at(noon(), width)};
}

Page daily(const sheet::Sheet& sheet) {
    (void)page(sheet, 40);
    Page made = page(sheet);
    EXPECT_LE(made.lines.size(), lines_max_daily) << made.text;
    return made;
}

contract::Lot jars(const LotCode& code, std::int64_t number) {
    contract::Lot lot;
    lot.code = code;
    lot.good = "wort";
    lot.category = contract::Category::concentrate;
    lot.on_hand = lot.available = pieces(number);
    lot.best_by = parse_date("2027-03-02");
    return lot;
}

contract::Lot on_hold(contract::Lot lot, HoldKind kind, std::string note) {
    lot.available = pieces(0);
    lot.holds.push_back({1, kind, std::move(note), {}, noon(), "anna", {}, {}, {}});
    return lot;
}

contract::Lot chilled(const LotCode& code, std::int64_t number) {
    contract::Lot lot = on_hold(jars(code, number), HoldKind::seal_failed, "run 1");
    lot.kept = Keeping::refrigerator;
    lot.best_by = parse_date("2026-03-05");
    return lot;
}

RunSealTest::Result sealed() {
    Run run = sample_run();
    Hand hand{run};
    hand.by_the_book().wait(hours(14));
    RunSealTest::Result result;
    result.run = hand.seen();
    result.run.phase = Phase::shelved;
    result.run.cautions.clear();
    result.entry = 12;
    result.lots = {jars(good_lot, 5), chilled(failed_lot, 2)};
    result.value = Money{15'250'000};
    result.cautions = cautions(Moment::sealing);
    return result;
}

TEST(SealSheet, SaysForEachLotWhereItsJarsGo) {
    const auto sheet = sheets::seal_test({1, 5, 2, 0, 0, 0, {}, {}, {}, {}}, sealed());
    const Page tested = daily(sheet);
    EXPECT_THAT(tested.top(1), HasSubstr("Run 1: seals tested"));
    EXPECT_THAT(tested.top(3), HasSubstr("5 jars go on the shelf; no tested process"));
    EXPECT_THAT(tested.words(), HasSubstr("write the code on the lids"));
    EXPECT_THAT(tested.words(),
                HasSubstr(to_text(failed_lot) + ", 2 jars: it did not seal (run 1). "
                                                "Put into the refrigerator"));
    EXPECT_THAT(tested.words(), HasSubstr("it did not seal"));
    EXPECT_THAT(tested.words(), HasSubstr("never for the shelf"));
    EXPECT_THAT(tested.words(), HasSubstr("Treat all jars of a load"));
}

TEST(SealSheet, JarsThatLostLiquidAreUsedFirst) {
    auto result = sealed();
    result.lots = {jars(good_lot, 4), jars(LotCode{'J', 11}, 1)};
    RunSealTest::Params params{1, 4, 0, 1, 1, 1, {}, {}, {}, {}};
    const Page tested = page(sheets::seal_test(params, result));
    EXPECT_THAT(tested.words(), HasSubstr("They lost liquid: use them first"));
    EXPECT_THAT(tested.words(),
                HasSubstr("Throw out 1 jar that lost half or more and 1 jar that broke."));
}

TEST(SealSheet, AfterADeviationNoJarLooksReady) {
    auto result = sealed();
    result.because = {{noon(), "time_not_completed", "The heat went off after 15 min.",
                       HoldKind::deviation_known}};
    result.lots.clear();
    result.entry.reset();
    const Page out = daily(sheets::seal_test({1, 7, 0, 0, 0, 0, {}, {}, {}, {}}, result));
    EXPECT_THAT(out.top(3), HasSubstr("A step went wrong: throw out all jars of the run."));
    EXPECT_THAT(out.words(), HasSubstr("The heat went off after 15 min."));
    EXPECT_THAT(out.text, Not(HasSubstr("on the shelf;")));
    result.lots = {on_hold(chilled(failed_lot, 7), HoldKind::deviation_known, "run 1")};
    const Page cold =
        page(sheets::seal_test({1, 7, 0, 0, 0, 0, {}, DeviationTo::refrigerator, {}, {}}, result));
    EXPECT_THAT(cold.words(), HasSubstr("no jar goes on the shelf"));
    EXPECT_THAT(cold.words(), HasSubstr("boil first"));
}

TEST(SealSheet, AGapInTheLogHoldsAllJars) {
    auto result = sealed();
    result.because = {
        {noon(), "interrupted", "The daemon was down for 20 min.", HoldKind::evidence_missing}};
    result.lots = {on_hold(jars(good_lot, 7), HoldKind::evidence_missing, "run 1")};
    const Page held = daily(sheets::seal_test({1, 7, 0, 0, 0, 0, {}, {}, {}, {}}, result));
    EXPECT_THAT(held.top(3), HasSubstr("all jars are on hold until you know what happened"));
    EXPECT_THAT(held.text, HasSubstr("release them"));
    EXPECT_THAT(held.words(), HasSubstr("store apart and do not use"));
    EXPECT_THAT(held.words(), HasSubstr("the log of its run has a gap"));
}

TEST(JarSheet, QuarantineSaysWhichJarsAndWhy) {
    RunDecision decision{sealed().run,
                         {on_hold(jars(good_lot, 5), HoldKind::quarantine, "odd smell")},
                         cautions(Moment::sealing)};
    const Page held = daily(sheets::held({1, "odd smell"}, decision));
    EXPECT_THAT(held.top(2), HasSubstr("Do not use " + to_text(good_lot) + ": odd smell."));
    EXPECT_THAT(held.words(), HasSubstr("put in quarantine (odd smell)"));
}

TEST(JarSheet, AReleaseShowsWhatIsStillHeldAndWhatWasReleased) {
    auto lot = on_hold(jars(good_lot, 5), HoldKind::quarantine, "odd smell");
    lot.released.push_back({2,
                            HoldKind::evidence_missing,
                            "run 1",
                            {},
                            noon(),
                            "anna",
                            noon(),
                            "anna",
                            "I read the gauge on paper"});
    lot.facts.process_note = "shorter than any published";
    RunDecision decision{sealed().run, {lot}, cautions(Moment::sealing)};
    RunRelease::Params params;
    params.run = 1;
    params.reason = "I read the gauge on paper";
    const Page released = page(sheets::released(params, decision));
    EXPECT_THAT(released.top(3), HasSubstr("This no longer holds " + to_text(good_lot)));
    EXPECT_THAT(released.words(), HasSubstr("there is another reason against it"));
    EXPECT_THAT(released.words(), HasSubstr("Reason: I read the gauge on paper."));
    EXPECT_THAT(released.words(), HasSubstr("its process is shorter than any published"));
}

TEST(JarSheet, AMeasurementSaysWhatAJarHolds) {
    RunMeasure::Result result;
    result.lot = jars(good_lot, 5);
    result.planned_gravity = brewing::Gravity::sg(1.09);
    result.gravity = brewing::Gravity::sg(1.093);
    result.fill = 420 * brewing::millilitre;
    result.extract = 93 * brewing::gram;
    result.points_found = 43.6;
    result.extract_lot = extract_lot;
    result.cautions = cautions(Moment::storing);
    const auto sheet =
        sheets::measured({good_lot, {brewing::Gravity::sg(1.093)}, {}, false}, result);
    const Page measured = daily(sheet);
    EXPECT_THAT(measured.top(2), HasSubstr("Each holds 420 mL at 1.093; the plan said 1.090."));
    EXPECT_THAT(measured.text, HasSubstr("43.6 points"));
    EXPECT_TRUE(sheet.actions.front().params.at("correct_extract").as_bool());
}

TEST(StorageSheet, MarksEachLotThatIsNotToBeUsed) {
    StorageShow::Result result;
    auto old = jars(LotCode{'J', 3}, 1);
    old.available = pieces(0);
    old.best_by = parse_date("2026-01-02");
    result.lots = {jars(good_lot, 5), chilled(failed_lot, 2), old};
    result.temperatures = {{noon(), brewing::Temperature::celsius(24), "anna"},
                           {noon() - hours(24), brewing::Temperature::celsius(18), "anna"}};
    result.cautions = cautions(Moment::storing);
    const auto sheet = sheets::storage({}, result);
    const Page stored = daily(sheet);
    EXPECT_THAT(stored.top(2), HasSubstr("5 jars on the shelf; 3 jars are not to be used"));
    EXPECT_THAT(stored.words(), HasSubstr("it did not seal (run 1)"));
    EXPECT_THAT(stored.words(), HasSubstr("past its best-by day"));
    EXPECT_THAT(stored.words(), HasSubstr("Above 21 C"));
    EXPECT_THAT(stored.words(), HasSubstr("never taste"));
    EXPECT_EQ(usual_of(sheet)->params.at("lot").as_string(), to_text(good_lot));
    EXPECT_EQ(usual_of(sheets::storage({}, {{}, {chilled(failed_lot, 2)}, {}, {}})), nullptr);
    EXPECT_THAT(page(sheets::storage({}, {})).text, HasSubstr("No jars are stored."));
}

TEST(StorageSheet, ASpoiledJarStopsItsRun) {
    StorageInspect::Params params{good_lot, 1, {Sign::swollen_lid}, {}};
    StorageInspect::Result result{good_lot,
                                  1,
                                  {good_lot, failed_lot},
                                  parse_date("2026-04-02"),
                                  {},
                                  cautions(Moment::storing)};
    const Page bad = daily(sheets::inspected(params, result));
    EXPECT_THAT(bad.top(3), HasSubstr("Throw out 1 jar, and use no other jar of the run"));
    EXPECT_THAT(bad.words(), HasSubstr("swollen lid"));
    EXPECT_THAT(bad.words(), HasSubstr("Do not open or taste it."));
    const Page fine =
        daily(sheets::inspected({good_lot, 0, {}, {}}, {good_lot, 0, {}, {}, {}, {}}));
    EXPECT_THAT(fine.top(2), HasSubstr("No sign of spoilage was found."));
}

TEST(StorageSheet, ATemperatureIsJudged) {
    const StorageReading reading{noon(), brewing::Temperature::celsius(16), "anna"};
    EXPECT_THAT(daily(sheets::temperature({}, {reading, {}, {}})).top(2),
                HasSubstr("16 C logged for today 12:00"));
    const Page warm = daily(sheets::temperature({}, {reading, {"Above 35 C: never."}, {}}));
    EXPECT_THAT(warm.words(), HasSubstr("! Above 35 C: never."));
}

OpeningShow::Result opening_of(contract::Lot lot) {
    OpeningShow::Result result;
    result.lot = std::move(lot);
    result.boil_for = minutes(12);
    result.cautions = cautions(Moment::opening);
    return result;
}

TEST(OpeningSheet, ChecksAreStepsAndNeverTasteStandsInFull) {
    const auto sheet = sheets::opening({good_lot}, opening_of(jars(good_lot, 5)));
    const Page checks = daily(sheet);
    EXPECT_THAT(checks.top(2), HasSubstr("NEVER TASTE"));
    EXPECT_THAT(checks.text, HasSubstr("1  Look:"));
    EXPECT_THAT(checks.text, HasSubstr("2  Listen"));
    EXPECT_THAT(checks.text, HasSubstr("3  Smell:"));
    EXPECT_THAT(checks.words(), HasSubstr("Before you open a jar look, listen and smell"));
    EXPECT_THAT(checks.words(), HasSubstr("Do not boil a jar to rescue it"));
    EXPECT_THAT(checks.words(), HasSubstr("Boil the diluted wort for 12 min or longer"));
    EXPECT_EQ(usual_of(sheet)->method, "opening.record");
}

TEST(OpeningSheet, AHeldLotIsStoppedBeforeTheTitle) {
    auto result = opening_of(on_hold(jars(failed_lot, 2), HoldKind::deviation_known, "run 1"));
    result.stops = {"On hold: a step of its process went wrong: run 1 Throw it out."};
    const auto sheet = sheets::opening({failed_lot}, result);
    const Page stop = daily(sheet);
    EXPECT_THAT(stop.text, StartsWith("!! DO NOT USE " + to_text(failed_lot)));
    EXPECT_THAT(stop.words(), HasSubstr("a step of its process went wrong (run 1). Throw it out."));
    EXPECT_EQ(usual_of(sheet), nullptr);
    for (const auto* action : sheet::actions_of(sheet))
        EXPECT_NE(action->method, "opening.record") << "not to be used";
}

TEST(OpeningSheet, AJarPastItsBestByIsStopped) {
    auto result = opening_of(jars(good_lot, 5));
    result.lot.best_by = parse_date("2026-02-01");
    result.stops = {"Past its best by, 2026-02-01."};
    EXPECT_THAT(page(sheets::opening({good_lot}, result)).text,
                HasSubstr("past its best-by day, 1 Feb"));
}

TEST(OpeningSheet, AChilledJarSaysWhyAndUntilWhen) {
    const auto sheet = sheets::opening({failed_lot}, opening_of(chilled(failed_lot, 2)));
    const Page cold = daily(sheet);
    EXPECT_THAT(cold.words(), HasSubstr("Never for the shelf: it did not seal (run 1). "
                                        "Use it until Thu, and boil it first."));
    EXPECT_THAT(cold.words(), HasSubstr("only if it was kept cold all the time"));
    EXPECT_THAT(usual_of(sheet)->ask, testing::Contains("boiled"));
}

TEST(OpeningSheet, WhatWasOpenedIsBoiledOrThrownOut) {
    OpeningRecord::Params params;
    params.lot = good_lot;
    OpeningRecord::Result used{14, true, {}, {}, "", {}, cautions(Moment::opening)};
    EXPECT_THAT(daily(sheets::opened(params, used)).top(2),
                HasSubstr("1 jar of " + to_text(good_lot) + " used: boil the diluted wort"));
    OpeningRecord::Result bad{
        15, false, {}, {good_lot}, "Lay the jar on its side.", {}, cautions(Moment::opening)};
    params.signs = {Sign::mould};
    const Page out = daily(sheets::opened(params, bad));
    EXPECT_THAT(out.top(2), HasSubstr("Throw out 1 jar of"));
    EXPECT_THAT(out.top(2), HasSubstr("never taste it"));
    EXPECT_THAT(out.words(), HasSubstr("Lay the jar on its side."));
    EXPECT_THAT(out.words(), HasSubstr("a jar of the same run was spoiled"));
}

TraceResult traced() {
    TraceResult result;
    contract::Lot bag;
    bag.code = extract_lot;
    bag.good = "light extract";
    bag.category = contract::Category::extract;
    bag.supplier = "malt shop";
    bag.on_hand = bag.available = amount_of(200 * brewing::gram);
    result.lots = {{bag, -1, {}},
                   {on_hold(jars(good_lot, 5), HoldKind::run_suspect, "mould"), 0, 1}};
    TracedRun run;
    run.run = 1;
    run.phase = Phase::shelved;
    run.process = sample_run().begun.process.process;
    run.process_note = "shorter than any published";
    run.started = noon() - hours(24);
    run.warnings = {
        {noon(), "interrupted", "The daemon was down for 20 min.", HoldKind::evidence_missing}};
    result.runs = {run};
    result.suppliers = {"malt shop"};
    result.uses = {
        {good_lot, 14, contract::EntryKind::used, parse_date("2026-03-03"), pieces(2), 12, {}}};
    contract::Brew brew;
    brew.number = 12;
    brew.name = "Dunkel";
    brew.day = parse_date("2026-03-05");
    result.brews = {brew};
    result.cautions = cautions(Moment::storing);
    return result;
}

TEST(TraceSheet, GoesFromTheBagToTheBeer) {
    const Page trace = page(sheets::traced_lot({good_lot}, traced()));
    EXPECT_THAT(trace.words(), HasSubstr("It was made of " + to_text(extract_lot) +
                                         " in run 1, and is in 1 beer."));
    EXPECT_THAT(trace.words(), HasSubstr("malt shop"));
    EXPECT_THAT(trace.words(), HasSubstr("Dunkel on Thu"));
    EXPECT_THAT(trace.words(), HasSubstr("another jar of its run was spoiled (mould)"));
    EXPECT_THAT(trace.words(), HasSubstr("Run 1: its process is shorter"));
    const Page brew = page(sheets::traced_brew({12}, traced()));
    EXPECT_THAT(brew.words(), HasSubstr("Its jars, " + to_text(good_lot) + ", come from run 1."));
}

} // namespace
} // namespace barmkeep::canning
