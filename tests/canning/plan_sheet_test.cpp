// What is read before a load: whether it can be done, what to buy or weigh, and whose process it
// is.
#include "plugins/canning/sheets/sheets.hpp"
#include "tests/canning/runs.hpp"
#include "tests/canning/sheet_page.hpp"

namespace barmkeep::canning {
namespace {

using namespace test; // NOLINT
using testing::HasSubstr;
using testing::Not;

Page page(const sheet::Sheet& sheet, int width = 80) {
    return {sheet, reader_at(parse_instant("2026-03-14T09:00:00Z"), width)};
}

Range<brewing::Gravity> around(double gravity) {
    Range<brewing::Gravity> range;
    range.low = brewing::Gravity::sg(gravity - 0.001);
    range.likely = brewing::Gravity::sg(gravity);
    range.high = brewing::Gravity::sg(gravity + 0.001);
    return range;
}

Plan nine_pints() {
    Plan plan;
    plan.jar = "pint";
    plan.jars = 9;
    plan.loads = {7, 2};
    plan.feasible = true;
    plan.limit = "extract on hand";
    plan.each.fill = 415 * brewing::millilitre;
    plan.each.weighed = 95 * brewing::gram;
    plan.each.gravity = around(1.085);
    plan.each.water = 355 * brewing::gram;
    plan.each.makes = 1 * brewing::litre;
    plan.each.makes_gravity = around(1.035);
    plan.each.points_gravity = brewing::Gravity::sg(1.036);
    plan.each.top_up = 590 * brewing::millilitre;
    plan.card = {{1, 6, LotCode{'E', 1}, 95 * brewing::gram, 3.35, 355 * brewing::gram, 12.5, {}},
                 {7, 9, LotCode{'E', 9}, 95 * brewing::gram, 3.35, 355 * brewing::gram, 12.5, {}}};
    plan.total = {855 * brewing::gram, 30.2, 3195 * brewing::gram, 112.7, {}};
    Range<double> points;
    points.low = 42;
    points.likely = 44;
    points.high = 45;
    plan.lots = {{LotCode{'E', 1}, 570 * brewing::gram, 20.1, points, "malt shop",
                  parse_date("2027-01-01")}};
    plan.needs = {{"light extract",
                   amount_of(855 * brewing::gram),
                   amount_of(900 * brewing::gram),
                   amount_of(0 * brewing::gram),
                   {},
                   {},
                   {}},
                  {"lids", pieces(9), pieces(20), pieces(0), {}, {}, {}}};
    plan.warnings = {"No nutrient is planned."};
    plan.cautions = cautions(Moment::planning);
    return plan;
}

CanningPlan::Params asked() {
    CanningPlan::Params params;
    params.jar = "pint";
    params.makes = 1 * brewing::litre;
    params.at = brewing::Gravity::sg(1.035);
    return params;
}

TEST(PlanSheet, AnswersThenWeighsThenWarns) {
    const auto sheet = sheets::plan(asked(), nine_pints());
    const Page plan = page(sheet);
    EXPECT_THAT(plan.top(1), HasSubstr("Plan of 9 pint jars"));
    EXPECT_THAT(plan.top(2), HasSubstr("Everything is here: each jar makes 1 L at 1.035."));
    EXPECT_THAT(plan.text, HasSubstr("1 to 6"));
    EXPECT_THAT(plan.words(), HasSubstr("no tested process for canning wort exists"));
    EXPECT_THAT(plan.words(), HasSubstr("! No nutrient is planned."));
    EXPECT_THAT(plan.text, HasSubstr("7 jars and 2 jars"));
    EXPECT_LE(plan.lines.size(), lines_max_daily) << plan.text;
    (void)page(sheet, 40);
}

TEST(PlanSheet, StartsTheFirstOfTwoLoads) {
    const auto sheet = sheets::plan(asked(), nine_pints());
    const auto* start = usual_of(sheet);
    ASSERT_NE(start, nullptr);
    EXPECT_EQ(start->method, "run.start");
    EXPECT_EQ(start->params.at("jars").as_int64(), 7);
    EXPECT_EQ(start->params.if_contains("fill_canner"), nullptr);
    EXPECT_THAT(start->ask, testing::ElementsAre("process"));
    // What is offered is what the method takes.
    EXPECT_NO_THROW((void)read_as<RunStart::Params>([&] {
        json::object params = start->params;
        params["process"] = "mine";
        return params;
    }()));
}

TEST(PlanSheet, WhatIsMissingStandsInTheFirstSentence) {
    Plan plan = nine_pints();
    plan.feasible = false;
    plan.jars = 24;
    plan.buying = {{"light extract",
                    amount_of(2280 * brewing::gram),
                    amount_of(900 * brewing::gram),
                    amount_of(1380 * brewing::gram),
                    {},
                    amount_of(500 * brewing::gram),
                    3},
                   {"lids", pieces(24), pieces(20), pieces(4), {}, {}, {}}};
    plan.warnings = {"The extract on hand fills 9 of 24 jars. The card is for these."};
    const auto sheet = sheets::plan(asked(), plan);
    const Page shown = page(sheet);
    EXPECT_THAT(shown.top(2),
                HasSubstr("Not possible yet: buy 1.38 kg of light extract and 4 lids"));
    EXPECT_THAT(shown.words(), HasSubstr("3 packages of 500 g"));
    EXPECT_THAT(shown.words(), HasSubstr("More with --full: Card for what is here"));
    EXPECT_THAT(shown.text, Not(HasSubstr("Everything is here")));
    EXPECT_EQ(usual_of(sheet)->method, "stock.buy");
    EXPECT_LE(shown.lines.size(), lines_max_daily) << shown.text;
}

TEST(PlanSheet, NoJarAtAllIsSaid) {
    Plan plan;
    plan.jar = "pint";
    plan.limit = "lids on hand";
    plan.cautions = cautions(Moment::planning);
    EXPECT_THAT(page(sheets::plan(asked(), plan)).top(2), HasSubstr("No jar can be filled"));
}

ProcessShown short_process() {
    ProcessShown shown;
    const Run run = sample_run();
    shown.process = run.begun.process.process;
    shown.at_altitude = run.begun.process.at_altitude;
    shown.process_note = "shorter than any published";
    shown.confirmed = Confirmation{"test", "anna", run.begun.started};
    shown.cautions = cautions(Moment::process);
    return shown;
}

TEST(ProcessSheet, IsTheBrewersOwnAndNeverCalledSafe) {
    const Page set = page(sheets::process_set({}, short_process()));
    EXPECT_THAT(set.words(), HasSubstr("Recorded as yours: 75.8 kPa for 20 min in pint jars"));
    EXPECT_THAT(set.words(), HasSubstr("Your process is shorter than any published."));
    EXPECT_THAT(set.words(), HasSubstr("for low-acid food, not wort"));
    EXPECT_THAT(set.words(), HasSubstr("Barmkeep knows no safe time"));
    EXPECT_THAT(set.words(), HasSubstr("Confirmed by anna"));
    EXPECT_LE(set.lines.size(), lines_max_daily) << set.text;
}

TEST(ProcessSheet, TheListSaysWhichIsShort) {
    const Page list =
        page(sheets::process_list({}, {{short_process()}, cautions(Moment::process)}));
    EXPECT_THAT(list.top(2), HasSubstr("1 process; none was tested for wort."));
    EXPECT_THAT(list.words(), HasSubstr("test is shorter than any published."));
    EXPECT_LE(list.lines.size(), lines_max_daily) << list.text;
    EXPECT_THAT(page(sheets::process_list({}, {})).text, HasSubstr("Barmkeep has none to offer."));
}

TEST(ProcessSheet, TheReferenceIsNoProcess) {
    const Page known = page(sheets::process_reference({}, {{"Pints of meat stock [S1]"}, {}}));
    EXPECT_THAT(known.top(2), HasSubstr("None of this is a process for wort"));
    EXPECT_THAT(known.text, HasSubstr("- Pints of meat stock [S1]"));
}

TEST(CautionSheet, ReadsAllOfThemInFull) {
    CanningCautions::Result result{contract::all_cautions(), {{"S1", "A guide"}}};
    const Page all = page(sheets::all_cautions({}, result));
    for (const Caution& caution : result.cautions)
        EXPECT_THAT(all.words(), HasSubstr(caution.text));
    EXPECT_THAT(all.words(), HasSubstr("More with --full: Titles of the sources"));
}

} // namespace
} // namespace barmkeep::canning
