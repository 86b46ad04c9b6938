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
using testing::Not;

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
    EXPECT_THAT(plan.cautions, Contains(HasSubstr("never taste")));
    EXPECT_THAT(plan.cautions, Contains(HasSubstr("no tested process for canning wort exists")));
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

TEST(Plan, TheBrewDayGivesVolumeGravityAndYeastReserved) {
    auto there = scene();
    auto& lot = there.shelves[0].lots[0];
    lot.available = pieces(0);
    lot.reserved = pieces(2);
    there.brew.emplace();
    there.brew->number = 7;
    there.brew->volume = 20.0 * litre;
    there.brew->gravity = Gravity::sg(1.048);
    there.brew->reserved = {{lot.code, lot.good, pieces(2)}};
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
    dry.facts.form = contract::Form::dry;
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
    old.available = pieces(0);
    auto held = test::jars_of(2, 4, 1.090, 0.42);
    test::put_on_hold(held, contract::HoldKind::evidence_missing, "log not complete");
    there.shelves[1].lots.push_back(held);
    const auto plan = make_plan(wish(), there, {});
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("was best by 2026-03-01 and is passed over")));
    EXPECT_TRUE(plan.steps.at(0).extract_missing);
    auto named = wish();
    named.concentrate = test::code('J', 1);
    const auto by_name = make_plan(named, there, {});
    EXPECT_FALSE(by_name.steps.at(0).extract_missing);
    EXPECT_THAT(by_name.warnings, Contains(HasSubstr("it was named")));
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("the log of its run has a gap (log not "
                                                  "complete)")));
}

TEST(Plan, JarsThatDidNotSealAreToldAndPassedOver) {
    auto there = scene();
    auto chilled = test::jars_of(2, 2, 1.090, 0.42);
    test::chill(chilled, "2026-03-16");
    there.shelves[1].lots.push_back(chilled);
    const std::string code = test::code('J', 2);
    const auto plan = make_plan(wish(), there, {});
    EXPECT_EQ(plan.steps.at(0).jars.at(0).lot.number(), 1);
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("--concentrate " + code + " --boiled")));
    auto named = wish();
    named.concentrate = code;
    EXPECT_EQ(test::reason_of([&] { return make_plan(named, there, {}); }), "boil_first");
    named.boiled = true;
    const auto boiled = make_plan(named, there, {});
    EXPECT_EQ(boiled.steps.at(0).jars.at(0).lot.number(), 2);
    EXPECT_THAT(boiled.warnings, Contains(HasSubstr("boil it before it goes into the starter")));
    EXPECT_THAT(boiled.warnings, Not(Contains(HasSubstr("passed over"))));
}

TEST(Plan, WhatWasReleasedWithAReasonIsShownAtEachUse) {
    auto there = scene();
    EXPECT_TRUE(make_plan(wish(), there, {}).despite.empty());
    there.shelves[1].lots[0].released = {
        test::hold_of(contract::HoldKind::evidence_missing, "gap of 8 min", "gauge was watched")};
    there.shelves[1].lots[0].facts.process_note = "Processed shorter than any published time.";
    auto other = test::jars_of(2, 2, 1.090, 0.42); // not opened, so not told
    other.released = there.shelves[1].lots[0].released;
    there.shelves[1].lots.push_back(other);
    const auto plan = make_plan(wish(), there, {});
    ASSERT_EQ(plan.despite.size(), 1U);
    EXPECT_EQ(plan.despite[0].lot, there.shelves[1].lots[0].code);
    EXPECT_EQ(plan.despite[0].hold.end_reason, "gauge was watched");
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("shorter than any published time")));
}

// Found by a mutant: what a brew day has reserved was taken though it was put on hold since.
TEST(Plan, YeastReservedAndThenPutOnHoldIsNotTaken) {
    auto there = scene();
    auto& held = there.shelves[0].lots[0];
    held.reserved = pieces(2);
    there.brew.emplace();
    there.brew->volume = 20.0 * litre;
    there.brew->gravity = Gravity::sg(1.048);
    there.brew->reserved = {{held.code, held.good, pieces(2)}};
    test::put_on_hold(held, contract::HoldKind::quarantine, "swollen pack");
    EXPECT_EQ(test::reason_of([&] { return make_plan({}, there, {}); }), "no_yeast");
    there.shelves[0].lots.push_back(test::packs_of(2, 1, "2026-03-14"));
    const auto plan = make_plan({}, there, {});
    ASSERT_EQ(plan.yeast.size(), 1U);
    EXPECT_EQ(plan.yeast[0].lot.number(), 2);
}

TEST(Plan, DryYeastThatSufficesIsHeldToTheOthersRatesWhereAStarterIsWishedFor) {
    auto there = scene();
    auto dry = test::packs_of(3, 2, "2026-03-14", "dry yeast");
    dry.facts.form = contract::Form::dry;
    there.shelves[0] = test::shelf_of({dry});
    auto asked = wish();
    asked.amount = AmountGiven{pieces(2)};
    asked.wort = 2.0 * litre;
    const auto plan = make_plan(asked, there, {});
    // Grown in a starter it is dry yeast no more: 0.75 x 20 L x 11.91 P, as of liquid yeast.
    EXPECT_NEAR(plan.target.in(billion_cells), 178.7, 0.1);
    EXPECT_EQ(plan.steps.size(), 1U);
}

TEST(Plan, OfTwoFlasksThatFitTheSmallerIsNamed) {
    auto there = scene();
    auto asked = wish();
    asked.wort = 1.0 * litre; // with 30 % for foam 1.43 L
    const contract::Flask small{"small", 1.0 * litre};
    const contract::Flask fits{"fits", 2.0 * litre};
    const contract::Flask large{"large", 5.0 * litre};
    there.flasks = {small, fits, large};
    EXPECT_EQ(make_plan(asked, there, {}).flask, "fits");
    there.flasks = {large, fits, small};
    EXPECT_EQ(make_plan(asked, there, {}).flask, "fits");
    there.flasks = {{"just", 1.0 / 0.7 * litre}, large};
    EXPECT_EQ(make_plan(asked, there, {}).flask, "just");
}

TEST(Plan, ADayAheadSeesTheJarsOfThatDay) {
    auto there = scene();
    there.shelves[1].lots[0].best_by = test::day("2026-03-20");
    auto asked = wish();
    asked.day = test::day("2026-03-20");
    EXPECT_FALSE(make_plan(asked, there, {}).steps.at(0).extract_missing);
    asked.day = test::day("2026-03-21");
    const auto late = make_plan(asked, there, {});
    EXPECT_TRUE(late.steps.at(0).extract_missing);
    EXPECT_THAT(late.warnings, Contains(HasSubstr("was best by 2026-03-20")));
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
