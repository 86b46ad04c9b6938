// Starters in steps (sdk/brewing/starter_plan.hpp), and what the property tests share.
#include "sdk/brewing/starter_plan.hpp"

#include "sdk/brewing/errors.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <cmath>
#include <limits>

namespace barmkeep::brewing {

double magnitude_between(double lowest, double highest) {
    return lowest * std::pow(highest / lowest, number_between(0, 1));
}

namespace {

Cells of(double count) {
    return count * billion_cells;
}

StarterGoal goal(double now, double target, double litres, Stirring stirring, double fold = 8) {
    return {{of(now), of(now), of(now), ""},
            of(target),
            litres * litre,
            Gravity::sg(1.040),
            stirring,
            fold};
}

TEST(StarterPlan, IsEmptyAndReachedWithCellsEnough) {
    const StarterPlan plan = plan_starter(goal(200, 200, 2, Stirring::unstirred));
    EXPECT_TRUE(plan.reached());
    EXPECT_TRUE(plan.steps().empty());
    EXPECT_EQ(plan.total_wort(), 0.0 * litre);
}

TEST(StarterPlan, TakesOneStepWhereOneIsEnough) {
    const StarterPlan plan = plan_starter(goal(50, 200, 2, Stirring::stirred));
    ASSERT_EQ(plan.steps().size(), 1u);
    EXPECT_TRUE(plan.reached());
    EXPECT_NEAR(plan.steps()[0].after.likely.in(billion_cells), 200, 1e-6);
    EXPECT_NEAR(plan.steps()[0].extract.in(gram), 150, 1e-6);
}

// 1.040 has 103.7 g of extract in a litre: 150 / (282.1 - 103.7) = 0.841 L, which ends at
// 150 + 87.2 = 237.2 billion.
TEST(StarterPlan, AStirredStepIsNoDenserThanWhatWasCounted) {
    const StarterPlan plan = plan_starter(goal(150, 170, 2, Stirring::stirred));
    ASSERT_EQ(plan.steps().size(), 1u);
    EXPECT_TRUE(plan.reached());
    EXPECT_NEAR(plan.steps()[0].wort.volume.in(litre), 0.841, 0.0005);
    EXPECT_NEAR(plan.steps()[0].after.likely.in(billion_cells), 237.2, 0.1);
}

TEST(StarterPlan, ASlantTakesMoreStepsWithASmallerFold) {
    const StarterPlan large = plan_starter(goal(2, 200, 2, Stirring::stirred, 10));
    const StarterPlan small = plan_starter(goal(2, 200, 2, Stirring::stirred, 4));
    EXPECT_EQ(large.steps().size(), 2u);
    EXPECT_EQ(small.steps().size(), 4u);
}

TEST(StarterPlan, SaysWhenTheVesselIsTooSmall) {
    const StarterPlan plan = plan_starter(goal(150, 600, 1, Stirring::stirred));
    EXPECT_FALSE(plan.reached());
    ASSERT_EQ(plan.steps().size(), 1u);
    EXPECT_LT(plan.steps()[0].after.likely, of(600));
    // 300 million a millilitre at the start: nothing that was counted ended denser.
    EXPECT_TRUE(plan_starter(goal(300, 600, 1, Stirring::stirred)).steps().empty());
    EXPECT_TRUE(plan_starter(goal(300, 301, 1, Stirring::unstirred)).steps().empty());
}

TEST(StarterPlan, HoldsToFoldVesselAndOrder) {
    holds_always([] {
        const auto stirring =
            *rc::gen::elementOf(std::array{Stirring::unstirred, Stirring::stirred});
        const double now = magnitude_between(0.5, 500);
        const double target = now * magnitude_between(0.5, 300);
        const double vessel = magnitude_between(0.3, 10);
        const double fold = number_between(2, 20);
        const StarterPlan plan = plan_starter(goal(now, target, vessel, stirring, fold));
        Cells cells = of(now);
        Volume wort;
        for (const StarterStep& step : plan.steps()) {
            RC_ASSERT(step.before.likely == cells);
            RC_ASSERT(step.fold() > 1.0 && step.fold() <= fold * (1 + 1e-9));
            RC_ASSERT(step.wort.volume <= vessel * litre);
            RC_ASSERT(step.after.low <= step.after.likely);
            RC_ASSERT(step.after.likely <= step.after.high);
            RC_ASSERT(step.extract > 0.0 * gram);
            cells = step.after.likely;
            wort += step.wort.volume;
        }
        RC_ASSERT(plan.reached() == (cells >= of(target * (1 - 1e-9))));
        RC_ASSERT(plan.total_wort() == wort);
        RC_ASSERT(plan.steps().size() <= most_starter_steps);
    });
}

TEST(StarterPlan, RefusesGoalsItCannotRead) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double endless = std::numeric_limits<double>::infinity();
    for (const double bad : {0.0, -1.0, nan, endless}) {
        EXPECT_THROW((void)plan_starter(goal(bad, 200, 2, Stirring::unstirred)), OutOfRange) << bad;
        EXPECT_THROW((void)plan_starter(goal(50, bad, 2, Stirring::unstirred)), OutOfRange) << bad;
        EXPECT_THROW((void)plan_starter(goal(50, 200, bad, Stirring::unstirred)), OutOfRange)
            << bad;
        EXPECT_THROW((void)plan_starter(goal(50, 200, 2, Stirring::unstirred, bad)), OutOfRange)
            << bad;
    }
    StarterGoal strong = goal(50, 200, 2, Stirring::unstirred);
    strong.gravity = Gravity::sg(1.080);
    EXPECT_THROW((void)plan_starter(strong), OutOfRange);
    StarterGoal disordered = goal(50, 200, 2, Stirring::unstirred);
    disordered.cells_now.low = of(60);
    EXPECT_THROW((void)plan_starter(disordered), OutOfRange);
}

TEST(StepLimits, AreFoundByKey) {
    EXPECT_EQ(find_step_limit("SP16")->fold, 4);
    EXPECT_EQ(find_step_limit("nobody"), nullptr);
    EXPECT_EQ(step_limits().size(), 5u);
}

} // namespace
} // namespace barmkeep::brewing
