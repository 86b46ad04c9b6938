#include "tests/canning/cellar.hpp"

namespace barmkeep::canning {
namespace {

using test::Cellar;
using testing::Contains;
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
    brewing::Mass water;
    for (const auto& line : plan.card)
        water += line.water.value_or(brewing::Mass{}) * double(line.last - line.first + 1);
    EXPECT_NEAR(water.in(brewing::gram), plan.total.water.in(brewing::gram), 0.1);
}

TEST_F(PlanOnLedger, LeavesAloneWhatABrewDayHasReserved) {
    const auto brew = call<contract::BrewPlan>({{}, parse_date("2026-03-05"), "ale"});
    (void)call<contract::BrewReserve>(
        {brew.number, to_text(first_bag_), amount_of(400 * brewing::gram)});
    const Plan plan = call<CanningPlan>(seven_pints());
    ASSERT_THAT(plan.lots, SizeIs(1));
    EXPECT_EQ(plan.lots[0].lot, second_bag_);
}

TEST_F(PlanOnLedger, UsesAMeasuredPotentialOverTheGoods) {
    contract::CellarSet::Params finer; // a whole gram would show more than the potential
    finer.scale_step = 0.1 * brewing::gram;
    (void)call<contract::CellarSet>(finer);
    const auto before = call<CanningPlan>(seven_pints());
    contract::Facts measured;
    measured.potential = brewing::Gravity::sg(1.040);
    for (const auto& bag : {first_bag_, second_bag_})
        (void)call<contract::LotChange>({bag, {}, {}, {}, {}, {}, measured, {}, "measured"});
    const auto after = call<CanningPlan>(seven_pints());
    EXPECT_NEAR(after.each.weighed / before.each.weighed, 44.0 / 40.0, 0.005);
}

TEST_F(PlanOnLedger, LidsCanBeWhatLimits) {
    (void)call<contract::StockUse>({"lids", pieces(20), {}, {}, {}, false, {}});
    CanningPlan::Params wanted = seven_pints();
    wanted.jars.reset();
    const Plan plan = call<CanningPlan>(wanted);
    EXPECT_EQ(plan.jars, 4);
    EXPECT_EQ(plan.limit, "lids on hand");
}

// Found in trials: 3 lb gave 11 jars of 4 oz, and the plan asked for another bag for 1 g.
TEST_F(PlanOnLedger, AFreshBagOfThreePoundsFillsTwelveJarsOfFourOuncesAndIsEmptied) {
    (void)call<contract::StockDiscard>({first_bag_, {}, "mice", {}});
    (void)call<contract::StockRecount>({second_bag_, amount_of(3 * brewing::pound), "a fresh bag"});
    contract::CellarSet::Params scale;
    scale.scale_step = 0.1 * brewing::gram;
    (void)call<contract::CellarSet>(scale);
    (void)call<contract::CannerSet>({{"kettle",
                                      contract::Gauge::dial,
                                      {{"pint", 12}},
                                      parse_date("2026-01-10"),
                                      0.5 * brewing::psi_gauge},
                                     {}});
    RunStart::Params params;
    params.jar = "pint";
    params.jars = 12;
    params.weigh = 4 * brewing::ounce;
    params.process = "mine";
    CanningPlan::Params wanted;
    static_cast<LoadRequest&>(wanted) = params;
    const Plan plan = call<CanningPlan>(wanted);
    EXPECT_TRUE(plan.feasible);
    EXPECT_EQ(plan.jars, 12);
    EXPECT_THAT(plan.buying, testing::IsEmpty());
    (void)call<RunStart>(params);
    process_by_the_book(1);
    const auto sealed = seal(1, 12);
    ASSERT_THAT(sealed.swept, SizeIs(1)) << "what the scale cannot show goes with it";
    EXPECT_EQ(sealed.swept[0].lot, second_bag_);
    EXPECT_EQ(lot(second_bag_).on_hand.steps, 0);
    expect_sound();
}

TEST_F(PlanOnLedger, AProcessShorterThanAnyPublishedIsSaidInThePlan) {
    ProcessSet::Params process;
    static_cast<Process&>(process) = {"quick",
                                      "pint",
                                      contract::Gauge::dial,
                                      Appliance::pressure_canner,
                                      12 * brewing::psi_gauge,
                                      test::minutes(10),
                                      "my own idea",
                                      {}};
    process.confirm = "quick";
    EXPECT_THAT(call<ProcessSet>(process).process_note.value_or(""),
                testing::HasSubstr("shorter than any low-acid process published"));
    CanningPlan::Params wanted = seven_pints();
    wanted.process = "quick";
    EXPECT_THAT(call<CanningPlan>(wanted).warnings,
                Contains(testing::HasSubstr("longer proves nothing")));
}

} // namespace
} // namespace barmkeep::canning
