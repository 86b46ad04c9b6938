// The cost plugin on a real ledger.
#include "plugins/cost/cost.hpp"
#include "tests/starter/cellar_under_test.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::cost {
namespace {

using brewing::Gravity;
using brewing::litre;
using contract::Category;
using test::day;

Money money(std::string_view text) {
    return parse_money(text);
}

/// A cellar that canned 10 jars from 1 kg of extract at 8.00 and 12 lids at 0.25; two failed.
class CostOnLedger : public testing::Test {
protected:
    CostOnLedger() {
        add("dry extract", Category::extract);
        add("lids", Category::lids);
        add("light concentrate", Category::concentrate);
        buy("dry extract", AmountGiven{Amount{2'000'000, Measure::mass}}, "16.00");
        buy("lids", AmountGiven{pieces(24)}, "6.00");
        contract::CellarSet::Params euro;
        euro.currency = "EUR";
        cellar_.call<contract::CellarSet>(euro);
        jars_ = can();
        cellar_.start<Cost>();
    }

    void add(std::string name, Category category) {
        contract::GoodAdd::Params params;
        params.name = std::move(name);
        params.category = category;
        cellar_.call<contract::GoodAdd>(params);
    }
    void buy(std::string good, const AmountGiven& amount, std::string_view paid) {
        contract::StockBuy::Params params;
        params.good = std::move(good);
        params.amount = amount;
        params.paid = money(paid);
        cellar_.call<contract::StockBuy>(params);
    }
    LotCode can() {
        contract::StockConvert::Params params;
        params.inputs = {{"dry extract", AmountGiven{Amount{1'000'000, Measure::mass}}},
                         {"lids", AmountGiven{pieces(12)}}};
        contract::ConvertOutput out;
        out.good = "light concentrate";
        out.amount = AmountGiven{pieces(10)};
        out.facts.gravity = Gravity::sg(1.090);
        out.facts.fill = 0.42 * litre;
        params.outputs = {out};
        params.lost = 2;
        const auto lot = cellar_.call<contract::StockConvert>(params).lots.at(0).code;
        cellar_.vouch(lot); // made without a logged run, so somebody has to say how
        return lot;
    }
    std::int64_t use(std::int64_t count) {
        contract::StockUse::Params params;
        params.what = "light concentrate";
        params.amount = AmountGiven{pieces(count)};
        return cellar_.call<contract::StockUse>(params).entry;
    }
    void note_price() {
        contract::PriceSet::Params params;
        params.item = "canned wort";
        params.price = money("4.50");
        params.volume = 0.5 * litre;
        params.gravity = Gravity::sg(1.080);
        cellar_.call<contract::PriceSet>(params);
    }

    test::CellarUnderTest cellar_;
    LotCode jars_;
};

TEST_F(CostOnLedger, AJarCostsWhatWentIntoIt) {
    // 8.00 of extract and 3.00 of lids over ten good jars.
    const auto cost = cellar_.call<CostJar>({});
    EXPECT_EQ(cost.currency, "EUR");
    ASSERT_EQ(cost.goods.size(), 1U);
    EXPECT_EQ(cost.goods[0].jar, money("1.10"));
    EXPECT_EQ(cost.goods[0].lots.at(0).lot, jars_);
    EXPECT_TRUE(cost.goods[0].per_litre);
    ASSERT_EQ(cost.goods[0].parts.size(), 2U);
    EXPECT_EQ(cost.goods[0].parts[0].jar, money("0.80")); // extract
    EXPECT_EQ(cost.goods[0].parts[1].jar, money("0.30")); // lids
}

TEST_F(CostOnLedger, TheJarIsHeldAgainstTheCan) {
    note_price();
    use(4);
    const auto wrong = use(1);
    cellar_.call<contract::EntryUndo>({wrong, contract::EntryKind::used, "not opened"});

    const auto compared = cellar_.call<CostCompare>({});
    EXPECT_EQ(compared.jar, money("1.10"));
    EXPECT_EQ(compared.jars, 6);
    EXPECT_EQ(compared.used_last_year, 4);
    ASSERT_EQ(compared.cans.size(), 1U);
    const auto& can = compared.cans[0];
    // By hand: 1.090 is 21.57 P at 1088.1 g/L, so 98.6 g in 0.42 L; 1.080 is 19.33 P at
    // 1078.1 g/L, so 104.2 g in 0.5 L.
    EXPECT_NEAR(compared.extract.in(brewing::gram), 98.6, 0.1);
    EXPECT_NEAR(can.extract.in(brewing::gram), 104.2, 0.1);
    EXPECT_NEAR(can.per_100g.units(), 4.50 / 1.042, 0.01);
    EXPECT_NEAR(can.saving_per_jar.units(), 4.50 * 98.6 / 104.2 - 1.10, 0.01);
    EXPECT_NEAR(can.saving_last_year.units(), 4 * can.saving_per_jar.units(), 0.00001);
}

TEST_F(CostOnLedger, ThePartsAreThoseOfTheConversion) {
    note_price();
    const auto compared = cellar_.call<CostCompare>({"light concentrate", {}});
    ASSERT_EQ(compared.parts.size(), 2U);
    EXPECT_EQ(compared.parts[0].good, "dry extract");
    EXPECT_EQ(compared.parts[0].jar, money("0.80"));
    EXPECT_EQ(compared.parts[1].good, "lids");
    EXPECT_EQ(compared.parts[1].jar, money("0.30"));
    // 2 of 12 filled jars: the same figure that the ledger showed at the conversion, 11.00 / 6.
    ASSERT_TRUE(compared.lost);
    EXPECT_EQ(compared.lost->jars, 2);
    EXPECT_EQ(compared.lost->value, money("1.833333"));
}

TEST_F(CostOnLedger, WithoutAPriceItSaysHowToNoteOne) {
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<CostCompare>({}); }), "no_can_price");
}

TEST_F(CostOnLedger, WithoutFactsItSaysHowToSetThem) {
    contract::StockConvert::Params params;
    params.inputs = {{"lids", AmountGiven{pieces(1)}}};
    contract::ConvertOutput out;
    add("dark concentrate", Category::concentrate);
    out.good = "dark concentrate";
    out.amount = AmountGiven{pieces(1)};
    params.outputs = {out};
    cellar_.call<contract::StockConvert>(params);
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<CostJar>({"dark concentrate"}); }),
              "extract_unknown");
    EXPECT_EQ(cellar_.call<CostJar>({}).goods.size(), 2U);
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<CostCompare>({}); }), "which_concentrate");
}

// A part of a lot that is held becomes a lot of its own; what made it is still the conversion.
TEST_F(CostOnLedger, APartThatWasSplitOffKeepsWhatMadeItsCost) {
    note_price();
    cellar_.call<contract::LotHold>(
        {jars_, "scratched lids", contract::HoldKind::quarantine, AmountGiven{pieces(4)}, {}});
    const auto compared = cellar_.call<CostCompare>({});
    EXPECT_EQ(compared.jars, 10);
    ASSERT_EQ(compared.parts.size(), 2U);
    EXPECT_EQ(compared.parts[0].good, "dry extract");
    EXPECT_EQ(compared.parts[0].jar, money("0.80"));
    EXPECT_EQ(compared.lost->jars, 2);
    // A sixth of the 11.00, rounded once for each of the two lots.
    EXPECT_NEAR(compared.lost->value.units(), 1.833333, 0.0000011);
}

TEST_F(CostOnLedger, JarsThatNeverBecomeStockAreLeftOut) {
    note_price();
    cellar_.call<contract::LotHold>(
        {jars_, "lid flexed", contract::HoldKind::seal_failed, AmountGiven{pieces(4)}, {}});
    const auto compared = cellar_.call<CostCompare>({});
    EXPECT_EQ(compared.jars, 6);
    EXPECT_EQ(compared.jar, money("1.10"));
    EXPECT_THAT(compared.notes, testing::Contains(testing::HasSubstr("never become shelf stock")));
    cellar_.call<contract::LotHold>(
        {jars_, "vented short", contract::HoldKind::deviation_known, {}, {}});
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<CostCompare>({}); }), "no_jars");
    EXPECT_TRUE(cellar_.call<CostJar>({}).goods.empty());
}

TEST_F(CostOnLedger, JarsFoundByARecountAreLeftOut) {
    cellar_.call<contract::StockRecount>({jars_, AmountGiven{pieces(13)}, "behind the others"});
    const auto cost = cellar_.call<CostJar>({});
    ASSERT_EQ(cost.goods.size(), 1U);
    EXPECT_EQ(cost.goods[0].jars, 10);
    EXPECT_EQ(cost.goods[0].jar, money("1.10"));
}

// A gift of extract, canned with or without lids that were a gift too.
TEST_F(CostOnLedger, JarsOfGoodsThatCostNothingAreComparedAsWell) {
    note_price();
    add("gift extract", Category::extract);
    add("gift lids", Category::lids);
    buy("gift extract", AmountGiven{Amount{2'000'000, Measure::mass}}, "0");
    buy("gift lids", AmountGiven{pieces(24)}, "0");
    for (const bool with_lids : {false, true}) {
        const std::string good = with_lids ? "lidded concentrate" : "bare concentrate";
        add(good, Category::concentrate);
        contract::StockConvert::Params params;
        params.inputs = {{"gift extract", AmountGiven{Amount{1'000'000, Measure::mass}}}};
        if (with_lids)
            params.inputs.push_back({"gift lids", AmountGiven{pieces(12)}});
        contract::ConvertOutput out;
        out.good = good;
        out.amount = AmountGiven{pieces(10)};
        out.facts.gravity = Gravity::sg(1.090);
        out.facts.fill = 0.42 * litre;
        params.outputs = {out};
        params.lost = 2;
        cellar_.call<contract::StockConvert>(params);

        const auto compared = cellar_.call<CostCompare>({good, {}});
        EXPECT_EQ(compared.jar, Money{});
        EXPECT_EQ(compared.cans.at(0).times, 0.0);
        EXPECT_EQ(compared.lost.value_or(CostLost{}).jars, 2);
    }
}

TEST_F(CostOnLedger, ALotThatIsUsedUpIsValuedAsItWasMade) {
    use(10);
    const auto cost = cellar_.call<CostJar>({to_text(jars_), Gravity::sg(1.040)});
    EXPECT_TRUE(cost.goods.at(0).lots.at(0).is_empty);
    EXPECT_EQ(cost.goods[0].jar, money("1.10"));
    EXPECT_EQ(cost.goods[0].jars, 10);
}

TEST_F(CostOnLedger, ANameThatIsNoConcentrateIsTold) {
    EXPECT_EQ(test::reason_of([&] { return cellar_.call<CostJar>({"lids"}); }),
              "no_such_concentrate");
}

} // namespace
} // namespace barmkeep::cost
