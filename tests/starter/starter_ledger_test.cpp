// The starter plugin on a real ledger.
#include "plugins/starter/starter.hpp"
#include "tests/starter/cellar_under_test.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using brewing::billion_cells;
using brewing::Gravity;
using brewing::litre;

class StarterOnLedger : public testing::Test {
protected:
    StarterOnLedger() {
        add("ale yeast", contract::GoodClass::yeast);
        add("light concentrate", contract::GoodClass::concentrate);
        contract::Facts yeast;
        yeast.form = "liquid";
        yeast.cells = 100.0 * billion_cells;
        yeast_ = buy("ale yeast", 2, "9.00", yeast);
        contract::Facts jars;
        jars.gravity = Gravity::sg(1.090);
        jars.fill = 0.42 * litre;
        jars_ = buy("light concentrate", 6, "7.20", jars);
        cellar_.start<Starter>();
    }

    void add(std::string name, contract::GoodClass goods) {
        contract::GoodAdd::Params params;
        params.name = std::move(name);
        params.goods = goods;
        cellar_.call<contract::GoodAdd>(params);
    }
    LotCode buy(std::string good, std::int64_t count, std::string_view paid,
                const contract::Facts& facts) {
        contract::StockBuy::Params params;
        params.good = std::move(good);
        params.amount = AmountGiven{pieces(count)};
        params.paid = parse_money(paid);
        params.packed = test::day("2026-03-14");
        params.facts = facts;
        return cellar_.call<contract::StockBuy>(params).lot.code;
    }
    std::int64_t left(const LotCode& lot) {
        return cellar_.call<contract::LotShow>({lot}).on_hand.steps;
    }
    static Wish wish() {
        Wish wish;
        wish.volume = 20.0 * litre;
        wish.gravity = Gravity::sg(1.048);
        wish.aeration = Aeration::stirred;
        return wish;
    }

    test::CellarUnderTest cellar_;
    LotCode yeast_;
    LotCode jars_;
};

TEST_F(StarterOnLedger, ShowsTheYeastOnTheShelf) {
    const auto shown = cellar_.call<StarterYeast>({});
    ASSERT_EQ(shown.yeast.size(), 1U);
    EXPECT_EQ(shown.yeast[0].lot, yeast_);
    EXPECT_EQ(shown.yeast[0].amount, pieces(2));
    EXPECT_NEAR(shown.yeast[0].cells->likely.in(billion_cells), 200.0, 1e-3);
    EXPECT_EQ(shown.day, test::day("2026-03-14"));
}

TEST_F(StarterOnLedger, PlanningTakesNothing) {
    const auto plan = cellar_.call<StarterPlan>(wish());
    EXPECT_EQ(plan.steps.size(), 1U);
    EXPECT_EQ(left(yeast_), 2);
    EXPECT_EQ(left(jars_), 6);
}

TEST_F(StarterOnLedger, MakingTakesYeastAndJarsAndKeepsARecord) {
    const auto made = cellar_.call<StarterMake>(wish(), "make-1");
    EXPECT_EQ(made.starter.number, 1);
    EXPECT_EQ(made.starter.steps_made, 1);
    ASSERT_EQ(made.entries.size(), 2U);
    ASSERT_EQ(made.lines.size(), 2U);
    EXPECT_EQ(made.lines[0].lot, yeast_);
    EXPECT_EQ(made.lines[0].value, parse_money("-4.50"));
    EXPECT_EQ(made.lines[1].lot, jars_);
    EXPECT_EQ(made.lines[1].value, parse_money("-1.20"));
    EXPECT_EQ(left(yeast_), 1);
    EXPECT_EQ(left(jars_), 5);

    EXPECT_EQ(cellar_.call<StarterShow>({1}).plan.yeast.at(0).lot, yeast_);
    EXPECT_EQ(cellar_.call<StarterList>({}).starters.size(), 1U);
}

TEST_F(StarterOnLedger, TheSameRequestAgainIsDoneOnceAndAnsweredAlike) {
    const auto first = cellar_.call<StarterMake>(wish(), "make-1");
    const auto again = cellar_.call<StarterMake>(wish(), "make-1");
    EXPECT_EQ(write_json(to_json(first)), write_json(to_json(again)));
    EXPECT_EQ(left(jars_), 5);
    EXPECT_EQ(cellar_.call<StarterMake>(wish(), "make-2").starter.number, 2);
    EXPECT_EQ(left(jars_), 4);
}

TEST_F(StarterOnLedger, WithoutJarsEnoughNothingIsTaken) {
    auto asked = wish();
    asked.wort = 10.0 * litre; // 1037 g of extract; six jars hold about 590 g
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(asked, "m"); }),
              "not_enough_concentrate");
    EXPECT_EQ(left(yeast_), 2);
    EXPECT_EQ(left(jars_), 6);
}

TEST_F(StarterOnLedger, TheNextStepIsFedFromTheShelf) {
    cellar_.call<contract::FlaskSet>({"small", 1.0 * litre});
    auto asked = wish();
    asked.flask = "small";
    asked.pitch = 250.0 * billion_cells;
    const auto made = cellar_.call<StarterMake>(asked, "m");
    ASSERT_EQ(made.starter.plan.steps.size(), 2U);
    const auto before = left(jars_);
    const auto fed = cellar_.call<StarterFeed>({1, {}, {}}, "f");
    EXPECT_EQ(fed.starter.steps_made, 2);
    EXPECT_EQ(left(jars_), before - fed.starter.plan.steps[1].jars.at(0).jars);
    EXPECT_EQ(cellar_.call<StarterFeed>({1, {}, {}}, "f").entries, fed.entries);
    EXPECT_EQ(test::reason_of([&] {
                  return cellar_.call<StarterFeed>({1, {}, {}}, "g");
              }),
              "no_step_left");
}

TEST_F(StarterOnLedger, ABrewDayMayUseWhatItHasSetAside) {
    contract::BrewPlan::Params brew;
    brew.day = test::day("2026-03-20");
    brew.name = "bitter";
    brew.volume = 20.0 * litre;
    brew.gravity = Gravity::sg(1.048);
    const auto number = cellar_.call<contract::BrewPlan>(brew).number;
    cellar_.call<contract::BrewReserve>({number, "ale yeast", AmountGiven{pieces(2)}});
    cellar_.call<contract::BrewReserve>({number, "light concentrate", AmountGiven{pieces(6)}});
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(wish(), "m"); }), "no_yeast");
    Wish asked;
    asked.brew = number;
    asked.wort = 1.0 * litre;
    asked.aeration = Aeration::stirred;
    const auto made = cellar_.call<StarterMake>(asked, "n");
    EXPECT_EQ(made.starter.plan.brew, number);
    EXPECT_EQ(left(yeast_), 0); // both packs were set aside for it
}

TEST_F(StarterOnLedger, JarsPastTheirBestByAreOpenedOnlyByTheirCode) {
    contract::LotChange::Params change;
    change.code = jars_;
    change.best_by = test::day("2026-03-20");
    change.reason = "label";
    cellar_.call<contract::LotChange>(change);
    cellar_.set_time("2026-03-21T08:00:00Z");
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterMake>(wish(), "m"); }),
              "not_enough_concentrate");
    auto named = wish();
    named.concentrate = to_text(jars_);
    EXPECT_EQ(cellar_.call<StarterMake>(named, "n").starter.steps_made, 1);
    EXPECT_EQ(left(jars_), 5);
}

TEST_F(StarterOnLedger, AStarterThatIsNotThereIsToldWithAHint) {
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<StarterShow>({9}); }), "no_such_starter");
    Wish asked = wish();
    asked.brew = 99;
    EXPECT_FALSE(test::reason_of([&] { return cellar_.call<StarterPlan>(asked); }).empty());
}

TEST_F(StarterOnLedger, TheLedgerStaysSound) {
    cellar_.call<StarterMake>(wish(), "m");
    EXPECT_TRUE(cellar_.call<contract::LedgerCheck>({}).sound);
}

} // namespace
} // namespace barmkeep::starter
