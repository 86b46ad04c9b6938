#include "plugins/starter/cautions.hpp"
#include "plugins/starter/plan.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using brewing::billion_cells;
using brewing::Gravity;
using brewing::litre;
using testing::Contains;
using testing::HasSubstr;

/// Fresh yeast of 100 billion by its own count, and ten jars of 0.42 L at 1.090.
Scene scene() {
    auto yeast = test::packs_of(1, 2, "2026-03-14");
    yeast.facts.cells = 100.0 * billion_cells;
    Scene scene;
    scene.today = test::day("2026-03-14");
    scene.shelves = {test::shelf_of({yeast}), test::shelf_of({test::jars_of(1, 10, 1.090, 0.42)})};
    return scene;
}

Wish wish() {
    Wish wish;
    wish.volume = 20.0 * litre;
    wish.gravity = Gravity::sg(1.048);
    return wish;
}

double likely(const Range<brewing::Cells>& cells) {
    return cells.likely.in(billion_cells);
}

TEST(Plan, TheCellsNeededAreThoseOfTheRate) {
    const auto plan = make_plan(wish(), scene(), {});
    // 1.048 is 11.91 P; 0.75 x 20 L x 11.91 = 178.7 billion.
    EXPECT_NEAR(plan.target.in(billion_cells), 178.7, 0.1);
    EXPECT_LT(plan.cells_needed.low, plan.target);
    EXPECT_GT(plan.cells_needed.high, plan.target);
    EXPECT_FALSE(plan.target_reason.empty());
}

TEST(Plan, AStillStarterGrowsByTheSeries) {
    auto asked = wish();
    asked.wort = 1.0 * litre;
    asked.starter_gravity = Gravity::sg(1.036);
    const auto plan = make_plan(asked, scene(), {});
    // 100 billion in a litre are 100 million a millilitre: 1.52-fold (growth_still.hpp).
    EXPECT_NEAR(likely(plan.cells_end), 152.0, 0.5);
    ASSERT_EQ(plan.steps.size(), 1U);
    EXPECT_EQ(plan.enough, Enough::no);
    EXPECT_THAT(plan.growth_model, HasSubstr("White"));
    EXPECT_THAT(plan.cells_end.sources, HasSubstr("WZ1"));
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("below the cells recommended")));
}

TEST(Plan, AStirredStarterGrowsByItsExtract) {
    auto asked = wish();
    asked.wort = 1.0 * litre;
    asked.starter_gravity = Gravity::sg(1.040);
    asked.aeration = Aeration::stirred;
    const auto plan = make_plan(asked, scene(), {});
    // 1.040 is 9.99 P and weighs 1038 g a litre: 103.7 g of extract, 1.4 billion new cells each.
    EXPECT_NEAR(likely(plan.cells_end), 100.0 + 1.4 * 103.7, 0.3);
    EXPECT_EQ(plan.enough, Enough::likely);
}

TEST(Plan, AsMuchAsNeededReachesTheTargetInOneStep) {
    auto asked = wish();
    asked.aeration = Aeration::stirred;
    const auto plan = make_plan(asked, scene(), {});
    ASSERT_EQ(plan.steps.size(), 1U);
    EXPECT_NEAR(likely(plan.cells_end), plan.target.in(billion_cells), 0.01);
    // 78.7 billion new cells: 2.33 E - 0.67 x 100 = 78.7 gives E = 62.5 g of extract, at which 1.6
    // billion cells share a gram and the line of Troester's rule holds.
    EXPECT_NEAR(plan.steps[0].extract.in(brewing::gram), 62.5, 0.1);
    // A jar of 0.42 L at 1.090 holds about 98 g, so one jar is opened and some is left.
    EXPECT_EQ(plan.steps[0].jars.at(0).jars, 1);
    EXPECT_GT(plan.steps[0].jars[0].left, 0.1 * litre);
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("left over")));
}

TEST(Plan, YeastThatIsEnoughNeedsNoStarter) {
    auto there = scene();
    there.shelves[0].lots[0].facts.cells = 400.0 * billion_cells;
    const auto plan = make_plan(wish(), there, {});
    EXPECT_TRUE(plan.steps.empty());
    EXPECT_EQ(plan.enough, Enough::yes);
    EXPECT_TRUE(plan.cautions.empty());
}

TEST(Plan, ASmallFlaskAsksForSteps) {
    auto there = scene();
    there.flasks = {{"small", 1.0 * litre}, {"large", 5.0 * litre}};
    auto asked = wish();
    asked.pitch = 400.0 * billion_cells;
    asked.aeration = Aeration::stirred;
    const auto large = make_plan(asked, there, {});
    EXPECT_EQ(large.steps.size(), 1U);
    EXPECT_EQ(large.flask, "large");
    asked.flask = "small";
    const auto small = make_plan(asked, there, {});
    EXPECT_GT(small.steps.size(), 1U);
    for (const auto& step : small.steps)
        EXPECT_LE(step.wort, 0.7 * litre * (1 + 1e-12));
}

TEST(Plan, EachStepOpensJarsOfItsOwn) {
    auto there = scene();
    there.flasks = {{"small", 1.0 * litre}};
    auto asked = wish();
    asked.pitch = 250.0 * billion_cells;
    asked.aeration = Aeration::stirred;
    asked.flask = "small";
    const auto plan = make_plan(asked, there, {});
    ASSERT_EQ(plan.steps.size(), 2U);
    for (const auto& step : plan.steps) {
        ASSERT_EQ(step.jars.size(), 1U);
        EXPECT_TRUE(step.water);
    }
}

TEST(Plan, OpeningAJarCarriesTheCautions) {
    const auto plan = make_plan(wish(), scene(), {});
    ASSERT_FALSE(plan.steps.empty());
    EXPECT_EQ(plan.cautions, cautions());
    EXPECT_THAT(plan.cautions, Contains(HasSubstr("Never taste")));
    EXPECT_THAT(plan.cautions, Contains(HasSubstr("no tested process for canning it")));
}

TEST(Plan, MissingVolumeAndGravityAreBothTold) {
    try {
        (void)make_plan({}, scene(), {});
        FAIL();
    } catch (const Error& error) {
        ASSERT_EQ(error.faults().size(), 2U);
        EXPECT_EQ(error.faults()[0].pointer, "/volume");
        EXPECT_EQ(error.faults()[1].pointer, "/gravity");
    }
}

TEST(Plan, TheBrewDayGivesVolumeGravityAndYeastSetAside) {
    auto there = scene();
    auto& lot = there.shelves[0].lots[0];
    lot.free = pieces(0);
    lot.set_aside = pieces(2);
    there.brew.emplace();
    there.brew->number = 7;
    there.brew->volume = 20.0 * litre;
    there.brew->gravity = Gravity::sg(1.048);
    there.brew->set_aside = {{lot.code, lot.good, pieces(2)}};
    Wish asked;
    asked.brew = 7;
    const auto plan = make_plan(asked, there, {});
    EXPECT_NEAR(likely(plan.cells_now), 200.0, 1e-9);
    EXPECT_EQ(plan.brew, 7);
}

TEST(Plan, TheBrewDaysStrainChoosesAmongYeasts) {
    auto there = scene();
    auto other = test::packs_of(2, 1, "2026-03-14", "lager yeast");
    other.facts.strain = "bottom";
    there.shelves.push_back(test::shelf_of({other}));
    there.brew.emplace();
    there.brew->volume = 20.0 * litre;
    there.brew->gravity = Gravity::sg(1.048);
    there.brew->strain = "bottom";
    EXPECT_EQ(make_plan({}, there, {}).yeast.at(0).lot.number(), 2);
}

TEST(Plan, MoreYeastThanThereIsIsRefused) {
    auto asked = wish();
    asked.amount = AmountGiven{pieces(3)};
    EXPECT_EQ(test::reason_of([&] { return make_plan(asked, scene(), {}); }), "not_enough_yeast");
    asked.amount = AmountGiven{pieces(0)};
    EXPECT_EQ(test::reason_of([&] { return make_plan(asked, scene(), {}); }), "out_of_range");
    EXPECT_EQ(test::reason_of([&] {
                  return make_plan(wish(), {test::day("2026-03-14"), {}, {}, {}, {}}, {});
              }),
              "no_yeast");
}

TEST(Plan, UnknownKeysAreToldWithTheNearestOnes) {
    auto asked = wish();
    asked.rate = "PR0l";
    EXPECT_EQ(test::reason_of([&] { return make_plan(asked, scene(), {}); }), "unknown_rate");
    EXPECT_THAT(test::hint_of([&] { return make_plan(asked, scene(), {}); }), HasSubstr("PR0"));
    asked = wish();
    asked.school = "XX";
    EXPECT_EQ(test::reason_of([&] { return make_plan(asked, scene(), {}); }), "unknown_school");
    asked = wish();
    asked.flask = "none";
    EXPECT_EQ(test::reason_of([&] { return make_plan(asked, scene(), {}); }), "no_such_flask");
}

TEST(Plan, ANamedRateAndAnOwnFigureOutrankTheRecommendedOne) {
    auto asked = wish();
    asked.rate = "PR03";
    // One million a millilitre and degree: 20 x 11.91.
    EXPECT_NEAR(make_plan(asked, scene(), {}).target.in(billion_cells), 238.2, 0.2);
    asked.pitch = 111.0 * billion_cells;
    EXPECT_NEAR(make_plan(asked, scene(), {}).target.in(billion_cells), 111.0, 1e-9);
}

TEST(Plan, WortOutsideWhatWasMeasuredIsRefusedAtItsField) {
    auto asked = wish();
    asked.wort = 0.1 * litre;
    try {
        (void)make_plan(asked, scene(), {});
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "out_of_range");
        EXPECT_EQ(error.faults()[0].pointer, "/wort");
    }
}

TEST(Plan, DryYeastThatIsEnoughIsPitchedByItsOwnRates) {
    auto there = scene();
    auto dry = test::packs_of(3, 2, "2026-03-14", "dry yeast");
    dry.facts.form = "dry";
    there.shelves[0] = test::shelf_of({dry});
    auto asked = wish();
    asked.amount = AmountGiven{pieces(2)};
    const auto plan = make_plan(asked, there, {});
    // 5 million a millilitre in 20 L are 100 billion; two packs hold 2 x 86.25.
    EXPECT_NEAR(plan.target.in(billion_cells), 100.0, 1e-9);
    EXPECT_NEAR(likely(plan.cells_now), 172.5, 1e-9);
    EXPECT_TRUE(plan.steps.empty());
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("without a starter")));
}

TEST(Plan, JarsOnHoldAndPastTheirDayAreTold) {
    auto there = scene();
    auto& old = there.shelves[1].lots[0];
    old.best_by = test::day("2026-03-01");
    old.free = pieces(0);
    auto held = test::jars_of(2, 4, 1.090, 0.42);
    held.hold = "log not complete";
    held.free = pieces(0);
    there.shelves[1].lots.push_back(held);
    const auto plan = make_plan(wish(), there, {});
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("was best by 2026-03-01 and is passed over")));
    EXPECT_TRUE(plan.steps.at(0).extract_missing);
    auto named = wish();
    named.concentrate = test::code('J', 1);
    const auto by_name = make_plan(named, there, {});
    EXPECT_FALSE(by_name.steps.at(0).extract_missing);
    EXPECT_THAT(by_name.warnings, Contains(HasSubstr("it was named")));
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("on hold")));
}

TEST(Plan, JarsThatDidNotSealAreTold) {
    auto there = scene();
    EXPECT_THAT(make_plan(wish(), there, {}).warnings,
                testing::Not(Contains(HasSubstr("did not seal"))));
    there.shelves[1].lots[0].facts.unsealed = true;
    EXPECT_THAT(make_plan(wish(), there, {}).warnings,
                Contains(HasSubstr("did not seal: take one only if it stood in the refrigerator")));
}

TEST(Plan, NutrientFollowsTheDoseInTheSettings) {
    Settings settings;
    settings.nutrient_per_litre = 0.5 * brewing::gram;
    auto asked = wish();
    asked.wort = 1.5 * litre;
    const auto plan = make_plan(asked, scene(), settings);
    EXPECT_NEAR(plan.steps.at(0).nutrient->in(brewing::gram), 0.75, 1e-12);
    EXPECT_FALSE(make_plan(asked, scene(), {}).steps.at(0).nutrient);
}

} // namespace
} // namespace barmkeep::starter
