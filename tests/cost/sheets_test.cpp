// The sheets of the cost plugin: what a person reads of its answers.
#include "plugins/cost/cost.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/sheet_text.hpp"

namespace barmkeep::cost {
namespace {

using test::lines_of;
using test::written;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

Money money(std::string_view text) {
    return parse_money(text);
}

LotCost lot(std::int64_t number, std::int64_t jars, std::string_view jar) {
    LotCost lot;
    lot.lot = LotCode('J', number);
    lot.jars = jars;
    lot.jar = money(jar);
    lot.value = Money{lot.jar.millionths * jars};
    lot.extract = 98.6 * brewing::gram;
    lot.per_100g = money("1.91");
    return lot;
}

/// 8.00 of extract and 3.00 of lids in ten jars.
GoodCost concentrate() {
    GoodCost good;
    good.good = "light concentrate";
    good.jars = 10;
    good.value = money("11.00");
    good.jar = money("1.10");
    good.extract = 986.0 * brewing::gram;
    good.per_100g = money("1.12");
    good.per_litre = money("1.16");
    good.lots = {lot(10, 6, "1.10"), lot(16, 4, "1.10")};
    good.parts = {{"dry extract", contract::Category::extract, money("8.00"), money("0.80"), 727},
                  {"lids", contract::Category::lids, money("3.00"), money("0.30"), 273}};
    return good;
}

/// A can of 500 mL at 1.080 has 104.2 g: the extract of a jar, 98.6 g, costs
/// 4.50 x 98.6 / 104.2 = 4.26, that is 3.87 times 1.10; saved 3.16 a jar, 12.63 on four.
CostCompare::Result against_a_can() {
    CostCompare::Result result;
    result.currency = "EUR";
    result.good = "light concentrate";
    result.jars = 10;
    result.jar = money("1.10");
    result.extract = 98.6 * brewing::gram;
    result.per_100g = money("1.12");
    result.parts = concentrate().parts;
    result.lost = CostLost{2, money("1.833333"), money("0.183333")};
    result.used_last_year = 4;
    CanComparison can;
    can.item = "canned wort";
    can.where = "the shop";
    can.day = parse_date("2026-02-01");
    can.price = money("4.50");
    can.extract = 104.2 * brewing::gram;
    can.per_100g = money("4.32");
    can.same_extract = money("4.26");
    can.saving_per_jar = money("3.16");
    can.saving_last_year = money("12.63");
    can.times = 3.87;
    result.cans = {can};
    result.notes = {"The cost contains only what was entered as used for the jars: no fuel, no "
                    "work, no wear of jars and rings."};
    return result;
}

/// Through the boundary, as the daemon gets it.
template <class M>
sheet::Sheet sheet_of(const typename M::Params& params, const typename M::Result& result) {
    plugin::FakeHost host;
    host.start<Cost>();
    return host.sheet<M>(params, result);
}

CostJar::Result jars(std::vector<GoodCost> goods) {
    return {"EUR", brewing::Gravity::sg(1.04), std::move(goods)};
}

TEST(JarSheet, SaysWhatAJarCostsAndOfWhat) {
    const auto made = sheet_of<CostJar>({}, jars({concentrate()}));
    const auto text = written(made);
    EXPECT_LE(lines_of(text).size(), 24U) << text;
    EXPECT_THAT(text, StartsWith("Cost of a jar\nA jar of light concentrate costs 1.10 EUR.\n"));
    EXPECT_THAT(text, AllOf(HasSubstr("73 %"), HasSubstr("27 %"), HasSubstr("0.80 EUR"),
                            HasSubstr("barm cost compare --what 'light concentrate'")));
    EXPECT_THAT(text, Not(HasSubstr("1.16"))); // the litre of starter is in `more`
    EXPECT_THAT(written(made, 80, true), HasSubstr("1.16 EUR at 1.040"));
    (void)written(made, 40);
}

TEST(JarSheet, MarksJarsThatMayNotBeUsedAndFiguresThatAreMissing) {
    auto good = concentrate();
    good.lots.at(0).held = "the log of its run has a gap";
    good.lots.at(1).note = "Its extract is not known.";
    good.lots.at(1).is_empty = true;
    EXPECT_THAT(written(sheet_of<CostJar>({}, jars({good})), 120),
                AllOf(HasSubstr("not to use"), HasSubstr("the log of its run has a gap"),
                      HasSubstr(": Its extract is not known."), HasSubstr("4 jars, used up")));
}

TEST(JarSheet, OfSeveralGoodsOrNone) {
    auto dark = concentrate();
    dark.good = "dark concentrate";
    dark.jar = money("1.30");
    EXPECT_THAT(written(sheet_of<CostJar>({}, jars({dark, concentrate()})), 200),
                HasSubstr("A jar of dark concentrate costs 1.30 EUR and one of light concentrate "
                          "costs 1.10 EUR."));
    EXPECT_THAT(written(sheet_of<CostJar>({}, jars({}))), HasSubstr("No jar has a cost yet."));
}

TEST(ComparedSheet, TheJarAgainstTheCanIsTheAnswer) {
    const auto made = sheet_of<CostCompare>({}, against_a_can());
    const auto text = written(made);
    EXPECT_LE(lines_of(text).size(), 24U) << text;
    EXPECT_THAT(lines_of(text).at(0), "light concentrate against bought cans");
    EXPECT_THAT(text,
                AllOf(HasSubstr("3.16 EUR"), HasSubstr("12.63 EUR"),
                      HasSubstr("In the last 12 months 4 jars were used."), HasSubstr("no fuel")));
    EXPECT_THAT(written(made, 120),
                AllOf(HasSubstr("A jar costs 1.10 EUR; as much extract from canned wort costs 4.26 "
                                "EUR, 3.9 times as much."),
                      HasSubstr("2 failed jars, 0.18 EUR on each good one, 1.83 EUR in all.")));
    EXPECT_THAT(written(made, 80, true), HasSubstr("104 g"));
    (void)written(made, 40, true);
}

TEST(ComparedSheet, ACanThatIsCheaperIsSaidToBe) {
    auto result = against_a_can();
    result.cans.front().times = 0.9;
    EXPECT_THAT(written(sheet_of<CostCompare>({}, result), 120),
                HasSubstr("so the can is no dearer"));
    result.cans.front().times = 0; // the jar cost nothing
    EXPECT_THAT(written(sheet_of<CostCompare>({}, result), 120), HasSubstr("costs 4.26 EUR."));
}

} // namespace
} // namespace barmkeep::cost
