// The sheets of the starter plugin: what a person reads of its answers.
#include "plugins/starter/cautions.hpp"
#include "plugins/starter/sheets/sheets.hpp"
#include "plugins/starter/starter.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/plan_of.hpp"
#include "tests/starter/sheet_text.hpp"

namespace barmkeep::starter {
namespace {

using test::lines_of;
using test::written;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

LotCode lot(std::string_view letter_and_number) {
    return LotCode(letter_and_number.front(), std::stoll(std::string(letter_and_number.substr(1))));
}

Range<brewing::Cells> billions(double low, double likely, double high, std::string sources) {
    const auto one = brewing::billion_cells;
    return brewing::Estimate<brewing::Cells>{low * one, likely * one, high * one,
                                             std::move(sources)};
}

LivingYeast pack() {
    LivingYeast yeast;
    yeast.lot = lot("Y15");
    yeast.good = "lager yeast";
    yeast.amount = pieces(1);
    yeast.age_days = 181;
    yeast.aged_from = AgedFrom::packed;
    yeast.alive = brewing::Estimate<double>{0.18, 0.72, 0.75, "VI1"};
    yeast.cells = billions(18, 72, 75, "PK1 VI1");
    yeast.notes = {"No source covers such yeast beyond 100 days at this temperature."};
    return yeast;
}

JarsOpened opened(std::string_view code, std::int64_t jars, double left = 0) {
    JarsOpened opened;
    opened.lot = lot(code);
    opened.good = "light concentrate";
    opened.jars = jars;
    opened.gravity = brewing::Gravity::sg(1.1);
    opened.fill = 0.36 * brewing::litre;
    opened.left = left * brewing::litre;
    opened.poured = opened.fill * static_cast<double>(jars) - opened.left;
    opened.extract = 85.0 * brewing::gram;
    return opened;
}

Step grown(double wort, std::vector<JarsOpened> jars, double water) {
    Step step;
    step.wort = wort * brewing::litre;
    step.gravity = brewing::Gravity::sg(1.04);
    step.extract = 90.0 * brewing::gram;
    step.before = billions(18, 72, 75, "PK1");
    step.after = billions(100, 190, 200, "GR06");
    step.jars = std::move(jars);
    step.water = water * brewing::litre;
    return step;
}

/// Two steps of a stirred lager for brew day 12.
Plan lager() {
    Plan plan;
    plan.day = test::day("2026-03-14");
    plan.brew = 12;
    plan.volume = 20.0 * brewing::litre;
    plan.gravity = brewing::Gravity::sg(1.052);
    plan.beer = BeerClass::lager;
    plan.yeast = {pack()};
    plan.cells_now = *pack().cells;
    plan.cells_needed = billions(300, 386, 515, "PR02 PR06-lager");
    plan.target = 386.0 * brewing::billion_cells;
    plan.target_reason = "Twice the ale rate (PR02).";
    plan.stirred = true;
    plan.growth_model = "Yield per gram of extract (GR06 GR15).";
    plan.max_fold = 8;
    plan.max_fold_reason = "Two sources agree on 8-fold.";
    plan.steps = {grown(1, {opened("J10", 1)}, 0.61),
                  grown(2, {opened("J10", 1), opened("J16", 2, 0.15)}, 1.2)};
    plan.cells_end = billions(178, 385, 409, "GR06");
    plan.enough = TargetReached::likely;
    plan.flask = "three litres";
    plan.vessel = 2.9 * brewing::litre;
    plan.warnings = {
        "150 mL of an opened jar of J16B is left over. Use it at once or throw it away."};
    plan.cautions = cautions();
    return plan;
}

StarterRequest asked() {
    StarterRequest asked;
    asked.brew = 12;
    asked.beer = BeerClass::lager;
    asked.stirred = true;
    return asked;
}

contract::UsedDespite released(std::string_view code) {
    return {lot(code), test::hold_of(contract::HoldKind::evidence_missing, "no reading for 20 min",
                                     "the display was off, the weight kept rocking")};
}

StarterRecord record_of(std::int64_t steps_made) {
    StarterRecord starter;
    starter.number = 7;
    starter.steps_made = steps_made;
    starter.plan = lager();
    for (std::int64_t i = 0; i < steps_made; ++i) {
        LogLine line;
        line.at = parse_instant(i == 0 ? "2026-03-12T18:00:00Z" : "2026-03-14T07:00:00Z");
        line.day = test::day(i == 0 ? "2026-03-12" : "2026-03-14");
        line.step = starter.plan.steps.at(static_cast<std::size_t>(i));
        starter.log.push_back(line);
    }
    return starter;
}

StockChange change_of(std::int64_t steps_made, std::int64_t sign = -1) {
    StockChange change;
    change.starter = record_of(steps_made);
    change.entries = {31, 32};
    change.lines = {{lot("Y15"), "lager yeast", pieces(sign), Money{-8'000'000}},
                    {lot("J10"), "light concentrate", pieces(2 * sign), Money{-3'400'000}}};
    return change;
}

/// Through the boundary, as the daemon gets it.
template <class M>
sheet::Sheet sheet_of(const typename M::Params& params, const typename M::Result& result) {
    plugin::FakeHost host;
    host.start<Starter>();
    return host.sheet<M>(params, result);
}

TEST(PlanSheet, TheRecipeComesFirst) {
    const auto text = written(sheet_of<StarterPlan>(asked(), lager()));
    const auto lines = lines_of(text);
    EXPECT_LE(lines.size(), 24U) << text;
    EXPECT_EQ(lines.at(0), "Starter for brew day 12");
    EXPECT_EQ(lines.at(1),
              "Open 4 jars in 2 steps, the first today: enough cells by the likely figure only.");
    EXPECT_THAT(text, HasSubstr("Open 1 jar of " + to_text(lot("J10")) + "; pour all and 610 mL"));
    EXPECT_THAT(text, HasSubstr("add 1 pack of " + to_text(lot("Y15")) + " (lager yeast)"));
    EXPECT_THAT(text, HasSubstr("72 B (18 to 75) now"));
    EXPECT_THAT(text, HasSubstr("! 150 mL of an opened jar"));
    EXPECT_THAT(text, HasSubstr("Caution: Before you open a jar look, listen and smell"));
    EXPECT_THAT(text, HasSubstr("barm starter make --brew 12"));
    EXPECT_THAT(text, Not(HasSubstr("PR02"))); // how it was computed is in `more`
}

TEST(PlanSheet, HowItWasWorkedOutHasItsSources) {
    const auto text = written(sheet_of<StarterPlan>(asked(), lager()), 100, true);
    EXPECT_THAT(text, AllOf(HasSubstr("[PR06-lager]"), HasSubstr("Twice the ale rate [PR02]."),
                            HasSubstr("[GR06] [GR15]"), HasSubstr("No source covers")));
    EXPECT_THAT(text, HasSubstr("left over"));
}

TEST(PlanSheet, ANarrowScreenShowsItToo) {
    const auto text = written(sheet_of<StarterPlan>(asked(), lager()), 40);
    EXPECT_THAT(text, HasSubstr("Starter for brew day 12\nOpen 4 jars in 2 steps"));
    (void)written(sheet_of<StarterPlan>(asked(), lager()), 40, true);
}

// A jar that may be used only chilled and boiled never looks like one from the shelf.
TEST(PlanSheet, AJarThatIsNoShelfStockIsMarkedWhereItIsOpened) {
    auto plan = lager();
    plan.steps.front().jars.front().held = "it did not seal (lid flexed)";
    auto request = asked();
    request.boiled = true;
    const auto made = sheet_of<StarterPlan>(request, plan);
    EXPECT_THAT(sheet::one_line(sheet::Text(written(made, 200)), test::reader(200)),
                HasSubstr("(NOT SHELF STOCK: it did not seal (lid flexed))"));
    ASSERT_FALSE(made.actions.empty());
    EXPECT_TRUE(made.actions.front().usual);
    EXPECT_TRUE(made.actions.front().confirm);
}

TEST(PlanSheet, AReleasedHoldStandsBeforeTheSteps) {
    auto plan = lager();
    plan.despite = {released("J10")};
    const auto text = written(sheet_of<StarterPlan>(asked(), plan), 200);
    const auto hold = text.find("was on hold: the log of its run has a gap");
    ASSERT_NE(hold, std::string::npos) << text;
    EXPECT_LT(hold, text.find("Open 1 jar"));
    EXPECT_THAT(text, HasSubstr("the weight kept rocking"));
}

TEST(PlanSheet, WithoutEnoughJarsItOffersNothingToMake) {
    auto plan = lager();
    plan.steps.at(1).water.reset();
    plan.steps.at(1).extract_missing = 45.0 * brewing::gram;
    const auto made = sheet_of<StarterPlan>(asked(), plan);
    const auto text = written(made);
    EXPECT_THAT(text, HasSubstr("The jars are not enough: 45 g of extract is missing."));
    EXPECT_THAT(text, Not(HasSubstr("barm starter make")));
}

TEST(PlanSheet, EnoughYeastIsPitchedAsItIs) {
    auto plan = lager();
    plan.steps.clear();
    plan.vessel.reset();
    plan.cautions.clear();
    plan.warnings.clear();
    plan.enough = TargetReached::yes;
    const auto text = written(sheet_of<StarterPlan>(asked(), plan));
    EXPECT_THAT(text, HasSubstr("(lager yeast) without a starter"));
    EXPECT_THAT(text, Not(HasSubstr("barm starter make")));
    EXPECT_THAT(text, Not(HasSubstr("Caution")));
}

TEST(MadeSheet, SaysWhatWasTakenAndWhatToDoNow) {
    const auto text = written(sheet_of<StarterMake>(asked(), change_of(1)));
    EXPECT_LE(lines_of(text).size(), 30U) << text;
    EXPECT_THAT(text, StartsWith("Starter 7 for brew day 12\nStep 1 of 2 is recorded. Taken from "
                                 "the shelf: 1 pack of "));
    EXPECT_THAT(text, AllOf(HasSubstr("Open 1 jar of"), HasSubstr("Boil it, let it cool"),
                            HasSubstr("Throw a jar out if liquid spurts"),
                            HasSubstr("Do not boil a jar to rescue it"),
                            HasSubstr("barm starter step --starter 7")));
}

TEST(MadeSheet, OfALaterStepTheReleasedHoldsAndItsOwnWarningsStand) {
    auto change = change_of(2);
    change.despite = {released("J10")};
    change.starter.log.back().warnings = {"J16B: a shorter time than any published"};
    const auto text = written(sheet_of<StarterStep>({}, change));
    EXPECT_THAT(text, AllOf(HasSubstr("Step 2 of 2"), HasSubstr("was on hold"),
                            HasSubstr("! J16B: a shorter time"), HasSubstr("starter finish")));
}

TEST(ShownSheet, AGrowingStarterSaysWhatIsNext) {
    const auto text = written(sheet_of<StarterShow>({7}, record_of(1)));
    EXPECT_LE(lines_of(text).size(), 24U) << text;
    EXPECT_THAT(text, HasSubstr("It grows: 1 step of 2 made."));
    EXPECT_THAT(text, HasSubstr("Opened 1 jar of"));
    EXPECT_THAT(text, HasSubstr("make the next step: 2 L at 1.040, about 3 jars"));
    // The lots of a step ahead may be on hold by now.
    EXPECT_THAT(text, Not(HasSubstr("Open 1 jar")));
    (void)written(sheet_of<StarterShow>({7}, record_of(1)), 40, true);
}

TEST(ShownSheet, ThatWasPitchedOrThrownAwaySaysWhen) {
    auto starter = record_of(2);
    starter.state = StarterState::finished;
    LogLine line;
    line.kind = LogKind::finished;
    line.at = parse_instant("2026-03-14T07:30:00Z");
    line.day = test::day("2026-03-14");
    line.note = "pitched at 9 C";
    starter.log.push_back(line);
    EXPECT_THAT(written(sheet_of<StarterFinish>({}, starter)),
                HasSubstr("It was pitched today: pitched at 9 C."));
    starter.state = StarterState::dropped;
    starter.log.back().kind = LogKind::dropped;
    starter.log.back().note = "smelt of vinegar";
    const auto text = written(sheet_of<StarterDrop>({}, starter));
    EXPECT_THAT(text, HasSubstr("It was thrown away today: smelt of vinegar. The stock"));
    EXPECT_THAT(text, Not(HasSubstr("starter step")));
}

TEST(UndoneSheet, WarnsOfJarsThatWereOpened) {
    auto change = change_of(1, 1);
    change.starter.state = StarterState::dropped;
    const auto text = written(sheet_of<StarterUndo>({}, change));
    EXPECT_THAT(text, AllOf(HasSubstr("Back on the shelf: 1 pack of"),
                            HasSubstr("it is no stock any more"), HasSubstr("starter is gone"),
                            HasSubstr("barm stock discard")));
}

TEST(StarterListSheet, SaysHowManyGrow) {
    StarterList::Result result;
    result.starters = {{7, StarterState::growing, test::day("2026-03-12"), 12, 2}};
    const auto text = written(sheet_of<StarterList>({}, result));
    EXPECT_THAT(text, StartsWith("Starters\n1 starter is growing."));
    EXPECT_THAT(text, HasSubstr("barm starter show --starter 7"));
    result.next = "abc";
    StarterList::Params all;
    all.all = true;
    EXPECT_THAT(written(sheet_of<StarterList>(all, result)),
                AllOf(HasSubstr("There are more"), HasSubstr("growing")));
    EXPECT_THAT(written(sheet_of<StarterList>({}, {})), HasSubstr("No starter is growing."));
}

TEST(YeastSheet, NamesWhatToTakeFirst) {
    YeastList::Result result;
    result.day = test::day("2026-03-14");
    auto old = pack();
    old.extrapolated = true;
    auto unknown = pack();
    unknown.lot = lot("Y16");
    unknown.cells.reset();
    unknown.notes = {"The age is not known."};
    result.yeast = {old, unknown};
    const auto text = written(sheet_of<YeastList>({}, result));
    EXPECT_LE(lines_of(text).size(), 24U) << text;
    EXPECT_THAT(text, HasSubstr("Take " + to_text(lot("Y15")) + " first: 1 pack of lager yeast"));
    EXPECT_THAT(text, AllOf(HasSubstr("a guess"), HasSubstr("not known"),
                            HasSubstr("! " + to_text(lot("Y16")) + ": The age is not known.")));
    (void)written(sheet_of<YeastList>({}, result), 40, true);
    result.yeast.clear();
    EXPECT_THAT(written(sheet_of<YeastList>({}, result)), HasSubstr("No yeast is available."));
}

} // namespace
} // namespace barmkeep::starter
