// What a planned starter grows to, and what it refuses or warns of.
#include "tests/starter/plan_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using brewing::billion_cells;
using brewing::Gravity;
using brewing::litre;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

TEST(PlannedGrowth, AnUnstirredStarterGrowsByTheSeries) {
    auto asked = request();
    asked.wort = 1.0 * litre;
    asked.starter_gravity = Gravity::sg(1.036);
    const auto plan = make_plan(asked, view(), {});
    // 100 billion in a litre are 100 million a millilitre: 1.52-fold (growth_still.hpp).
    EXPECT_NEAR(likely(plan.cells_end), 152.0, 0.5);
    ASSERT_EQ(plan.steps.size(), 1U);
    EXPECT_EQ(plan.enough, TargetReached::no);
    EXPECT_FALSE(plan.stirred);
    EXPECT_THAT(plan.growth_model, HasSubstr("Published series, unstirred"));
    EXPECT_THAT(plan.cells_end.sources, HasSubstr("WZ1"));
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("below the cells recommended")));
}

TEST(PlannedGrowth, AStirredStarterGrowsByItsExtract) {
    auto asked = request();
    asked.wort = 1.0 * litre;
    asked.starter_gravity = Gravity::sg(1.040);
    asked.stirred = true;
    const auto plan = make_plan(asked, view(), {});
    // 1.040 is 9.99 P and weighs 1038 g a litre: 103.7 g of extract, 1.0 billion new cells each.
    // At the low end 96.4 % of the pack live and 0.72 grow a gram: 96.4 + 74.7 = 171.1, which is
    // below the 178.7 recommended.
    EXPECT_NEAR(likely(plan.cells_end), 203.7, 0.1);
    EXPECT_NEAR(plan.cells_end.low.in(billion_cells), 171.1, 0.1);
    EXPECT_EQ(plan.enough, TargetReached::likely);
    EXPECT_TRUE(plan.stirred);
    EXPECT_EQ(plan.cells_end.sources, "own WL3 WL2-vial BAR-linear BAR-monthly GR06 GR15 GR36");
    EXPECT_THAT(plan.growth_model, HasSubstr("GR15"));
}

TEST(PlannedGrowth, AsMuchAsNeededReachesTheTargetInOneStep) {
    auto asked = request();
    asked.stirred = true;
    const auto plan = make_plan(asked, view(), {});
    ASSERT_EQ(plan.steps.size(), 1U);
    EXPECT_NEAR(likely(plan.cells_end), plan.target.in(billion_cells), 0.01);
    // 78.7 billion new cells at 1.0 billion a gram: 78.7 g of extract.
    EXPECT_NEAR(plan.steps[0].extract.in(brewing::gram), 78.7, 0.1);
    // A jar of 0.42 L at 1.090 holds about 98 g, so one jar is opened and some is left.
    EXPECT_EQ(plan.steps[0].jars.at(0).jars, 1);
    EXPECT_GT(plan.steps[0].jars[0].left, 0.05 * litre); // 19 g of 98 g: 0.08 L
    EXPECT_THAT(plan.warnings, Contains(HasSubstr("left over")));
}

// 25 billion to 400 in one step are 16-fold; two steps of 4-fold do it.
TEST(PlannedGrowth, TheLargestGrowthInOneStepIsANumber) {
    auto there = view();
    there.shelves[0].lots[0].facts.cells = 25.0 * billion_cells;
    auto asked = request();
    asked.pitch = 400.0 * billion_cells;
    asked.stirred = true;
    const auto usual = make_plan(asked, there, {});
    EXPECT_EQ(usual.max_fold, 8.0);
    EXPECT_EQ(usual.steps.size(), 2U);
    EXPECT_THAT(usual.max_fold_reason, HasSubstr("SP14"));
    EXPECT_THAT(usual.max_fold_reason, Not(HasSubstr("2.76")));
    auto unstirred = asked;
    unstirred.stirred = false; // 16 is between 2.76 to the second and to the third power
    EXPECT_EQ(make_plan(unstirred, there, {}).steps.size(), 3U);
    EXPECT_THAT(make_plan(unstirred, there, {}).max_fold_reason, HasSubstr("2.76-fold"));
    asked.max_fold = 16.1;
    EXPECT_EQ(make_plan(asked, there, {}).steps.size(), 1U);
    asked.max_fold = 3.0; // 16 is between 9 and 27
    const auto small = make_plan(asked, there, {});
    EXPECT_EQ(small.steps.size(), 3U);
    EXPECT_THAT(small.max_fold_reason, HasSubstr("Your own limit"));
    asked.wort = 2.0 * litre; // 207 g, 232 billion: 9.3-fold
    EXPECT_THAT(make_plan(asked, there, {}).warnings,
                Contains(HasSubstr("Step 1 grows 9.3-fold. The largest growth in one step is "
                                   "3-fold")));
}

// 200 billion in half a litre are 400 million a millilitre, above the 282 of the densest counted.
TEST(PlannedGrowth, AStartSoDenseThatLittleGrowsIsWarnedOf) {
    auto asked = request();
    asked.amount = AmountGiven{pieces(2)};
    asked.wort = 0.5 * litre;
    asked.stirred = true;
    EXPECT_THAT(make_plan(asked, view(), {}).warnings,
                Contains(HasSubstr("Step 1 starts with 400 million cells per millilitre")));
    asked.wort = 2.0 * litre;
    EXPECT_THAT(make_plan(asked, view(), {}).warnings, Not(Contains(HasSubstr("starts with"))));
}

// The published series was made at 9 P; 1.055 is 13.6 P.
TEST(PlannedGrowth, AnUnstirredStarterInStrongWortIsRefusedWithWhatToDo) {
    auto asked = request();
    asked.starter_gravity = Gravity::sg(1.055);
    for (const bool has_wort : {false, true}) {
        if (has_wort)
            asked.wort = 1.0 * litre;
        try {
            (void)make_plan(asked, view(), {});
            FAIL();
        } catch (const Error& error) {
            EXPECT_STREQ(error.what(), "The strength of an unstirred starter is 13.6 P. It must be "
                                       "from 7 to 11 P.");
            EXPECT_EQ(error.faults()[0].pointer, "/starter_gravity");
            EXPECT_THAT(error.hint(), HasSubstr("Dilute"));
            EXPECT_THAT(error.hint(), HasSubstr("--stirred"));
        }
    }
}

TEST(PlannedGrowth, WortOutsideWhatWasMeasuredIsRefusedAtItsField) {
    auto asked = request();
    asked.wort = 0.1 * litre;
    try {
        (void)make_plan(asked, view(), {});
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "out_of_range");
        EXPECT_EQ(error.faults()[0].pointer, "/wort");
        // 200 and 25 million a millilitre of 100 billion.
        EXPECT_THAT(error.what(), HasSubstr("An unstirred starter of them takes 500 mL to 4 L"));
    }
}

} // namespace
} // namespace barmkeep::starter
