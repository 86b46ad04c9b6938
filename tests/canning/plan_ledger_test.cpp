#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using test::Cellar;
using testing::SizeIs;

class PlanOnLedger : public Cellar {};

TEST_F(PlanOnLedger, TakesTheBagThatExpiresFirstAndThenTheOther) {
    const Plan plan = call<CanningPlan>(seven_pints());
    ASSERT_THAT(plan.lots, SizeIs(2));
    EXPECT_EQ(plan.lots[0].lot, first_bag_);
    EXPECT_EQ(plan.lots[0].supplier, "Corner shop");
    EXPECT_NEAR(plan.lots[0].mass.in(brewing::gram), 400, 0.01);
    ASSERT_THAT(plan.card, SizeIs(4)) << "jars of the first bag, one of both, jars of the second";
    EXPECT_EQ(plan.card[1].first, 5);
    EXPECT_EQ(plan.card[1].last, plan.card[2].last);
    EXPECT_FALSE(plan.card[1].water) << "the jar's water stands on its last line";
    EXPECT_TRUE(plan.card[2].water);
    brewing::Mass all;
    for (const auto& line : plan.card)
        all += line.extract * double(line.last - line.first + 1);
    EXPECT_NEAR(all.in(brewing::gram), (plan.lots[0].mass + plan.lots[1].mass).in(brewing::gram),
                1e-6);
    EXPECT_NEAR(all.in(brewing::gram), plan.total.extract.in(brewing::gram), 1e-6);
    EXPECT_NEAR(plan.total.ounces, plan.total.extract.in(brewing::ounce), 0.005);
}

TEST_F(PlanOnLedger, LeavesAloneWhatABrewDayHasSetAside) {
    const auto brew = call<contract::BrewPlan>({{}, parse_date("2026-03-05"), "ale"});
    (void)call<contract::BrewReserve>(
        {brew.number, to_text(first_bag_), amount_of(400 * brewing::gram)});
    const Plan plan = call<CanningPlan>(seven_pints());
    ASSERT_THAT(plan.lots, SizeIs(1));
    EXPECT_EQ(plan.lots[0].lot, second_bag_);
}

TEST_F(PlanOnLedger, UsesAMeasuredPotentialOverTheGoods) {
    const auto before = call<CanningPlan>(seven_pints());
    contract::Facts measured;
    measured.potential = brewing::Gravity::sg(1.040);
    for (const auto& bag : {first_bag_, second_bag_})
        (void)call<contract::LotChange>({bag, {}, {}, {}, {}, measured, "measured"});
    const auto after = call<CanningPlan>(seven_pints());
    EXPECT_NEAR(after.each.weighed / before.each.weighed, 44.0 / 40.0, 0.005);
}

TEST_F(PlanOnLedger, LidsCanBeWhatLimits) {
    (void)call<contract::StockUse>({"lids", pieces(20), {}, {}, {}});
    Wanted wanted = seven_pints();
    wanted.jars.reset();
    const Plan plan = call<CanningPlan>(wanted);
    EXPECT_EQ(plan.jars, 4);
    EXPECT_EQ(plan.limit, "lids on hand");
}

} // namespace
} // namespace barmkeep::canning
