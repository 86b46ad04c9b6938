// The sheets of the reorder plugin: what a person reads of its answers.
#include "plugins/reorder/reorder.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/sheet_text.hpp"

namespace barmkeep::reorder {
namespace {

using test::lines_of;
using test::written;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

/// 5 lids left of at least 12, in packages of 12; brew day 12 needs 9.
GoodStatus lids() {
    GoodStatus status;
    status.good = "lids";
    status.category = contract::Category::lids;
    status.available = pieces(5);
    status.reserved = pieces(4);
    status.needed = pieces(9);
    status.reorder_point = pieces(12);
    status.order_up_to = pieces(24);
    status.low = true;
    status.missing = pieces(28);
    status.package = pieces(12);
    status.packages = 3;
    status.due = parse_date("2026-03-14");
    return status;
}

GoodStatus jars() {
    GoodStatus status;
    status.good = "light concentrate";
    status.category = contract::Category::concentrate;
    status.available = status.needed = status.reserved = pieces(0);
    status.available = pieces(4);
    status.reorder_point = pieces(3);
    status.order_up_to = pieces(9);
    status.low = true;
    status.missing = pieces(8);
    status.due = parse_date("2026-03-12");
    status.brew = 12;
    return status;
}

GoodStatus extract() {
    GoodStatus status;
    status.good = "dry extract";
    status.category = contract::Category::extract;
    status.available = {2'900'000, Measure::mass};
    status.reserved = status.needed = {0, Measure::mass};
    status.reorder_point = {1'000'000, Measure::mass};
    status.order_up_to = {3'000'000, Measure::mass};
    return status;
}

ReorderCheck::Result result_of(std::vector<GoodStatus> goods) {
    return {parse_date("2026-03-14"), std::move(goods)};
}

/// Through the boundary, as the daemon gets it.
template <class M>
sheet::Sheet sheet_of(const typename M::Params& params, const typename M::Result& result) {
    plugin::FakeHost host;
    host.start<Reorder>();
    return host.sheet<M>(params, result);
}

TEST(CheckSheet, WhatIsDueFirstIsTheAnswer) {
    const auto made = sheet_of<ReorderCheck>({}, result_of({lids(), jars()}));
    const auto text = written(made);
    EXPECT_LE(lines_of(text).size(), 24U) << text;
    EXPECT_THAT(text,
                StartsWith("To restock\nCan 8 jars of light concentrate: it was due on 12 Mar; "
                           "2 goods are low.\n"));
    const auto wide = written(made, 200);
    EXPECT_THAT(wide, HasSubstr("Buy 3 packages of lids (36 in all): 5 available, brew days need 9 "
                                "more; reorder point 12."));
    EXPECT_THAT(wide, HasSubstr("4 jars available; brew day 12 brings it to the reorder point, 3 "
                                "jars."));
    EXPECT_THAT(text, HasSubstr("barm stock buy --good 'lids' --amount '36' --paid"));
    (void)written(made, 40);
    (void)written(made, 40, true);
}

// What somebody sells as concentrate has a process that nobody knows.
TEST(CheckSheet, JarsAreNeverOfferedToBuy) {
    const auto text = written(sheet_of<ReorderCheck>({}, result_of({jars()})));
    EXPECT_THAT(text, Not(HasSubstr("stock buy")));
}

TEST(CheckSheet, GoodsWithEnoughStandBehind) {
    ReorderCheck::Params all;
    all.all = true;
    const auto text = written(sheet_of<ReorderCheck>(all, result_of({extract(), lids()})));
    EXPECT_LT(text.find("Buy 3 packages of lids (36 in all) today."), text.find("Enough"));
    EXPECT_THAT(text, HasSubstr("dry extract"));
    ReorderCheck::Params one;
    one.good = "dry extract";
    EXPECT_THAT(written(sheet_of<ReorderCheck>(one, result_of({extract()}))),
                HasSubstr("There is enough: 2.9 kg available, reorder point 1 kg."));
    EXPECT_THAT(written(sheet_of<ReorderCheck>({}, result_of({}))), HasSubstr("No good is low."));
}

TEST(CheckSheet, AGoodThatIsGoneIsSaid) {
    auto gone = extract();
    gone.category.reset();
    gone.note = "No good has this name any more.";
    EXPECT_THAT(written(sheet_of<ReorderCheck>({}, result_of({gone}))),
                AllOf(HasSubstr("! No good is called 'dry extract' any more"),
                      HasSubstr("barm reorder remove --good 'dry extract'")));
}

TEST(PointSheets, SayWhenAReminderAppears) {
    const ReorderPoint point{"lids", pieces(12), pieces(24), 3};
    ReorderSet::Params params;
    params.good = "lids";
    params.reorder_point = AmountGiven{pieces(12)};
    EXPECT_THAT(written(sheet_of<ReorderSet>(params, point)),
                AllOf(StartsWith("Reorder point of lids\nAt 12 available, or less, a reminder "
                                 "appears: restock up to 24."),
                      HasSubstr("3 days before")));
    const auto text = written(sheet_of<ReorderList>({}, {{point}}));
    EXPECT_THAT(text, StartsWith("Reorder points\n1 good has one."));
    EXPECT_THAT(text, HasSubstr("lids      12             24  3 days"));
    EXPECT_THAT(written(sheet_of<ReorderList>({}, {})), HasSubstr("No good has a reorder point."));
    EXPECT_THAT(written(sheet_of<ReorderRemove>({"lids"}, {true})), HasSubstr("It is removed"));
    EXPECT_THAT(written(sheet_of<ReorderRemove>({"lids"}, {false})), HasSubstr("There was none"));
}

} // namespace
} // namespace barmkeep::reorder
