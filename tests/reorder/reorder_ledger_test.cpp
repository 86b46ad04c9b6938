// The reorder plugin on a real ledger.
#include "plugins/reorder/reorder.hpp"
#include "tests/starter/cellar_under_test.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::reorder {
namespace {

using contract::Category;
using test::day;

class ReorderOnLedger : public testing::Test {
protected:
    ReorderOnLedger() {
        contract::GoodAdd::Params lids;
        lids.name = "lids";
        lids.category = Category::lids;
        lids.package = AmountGiven{pieces(12)};
        cellar_.call<contract::GoodAdd>(lids);
        buy(24);
    }
    void start() {
        cellar_.start<Reorder>();
        cellar_.deliver_events();
    }
    LotCode buy(std::int64_t count) {
        contract::StockBuy::Params params;
        params.good = "lids";
        params.amount = AmountGiven{pieces(count)};
        params.paid = parse_money("3.60");
        return cellar_.call<contract::StockBuy>(params).lot.code;
    }
    std::int64_t use(std::int64_t count) {
        contract::StockUse::Params params;
        params.what = "lids";
        params.amount = AmountGiven{pieces(count)};
        return cellar_.call<contract::StockUse>(params).entry;
    }
    ReorderPoint set(std::int64_t reorder_point, std::string_view key = {}) {
        ReorderSet::Params params;
        params.good = "lids";
        params.reorder_point = AmountGiven{pieces(reorder_point)};
        const auto point = cellar_.call<ReorderSet>(params, key);
        cellar_.deliver_events();
        return point;
    }
    std::vector<contract::Reminder> reminders(bool all = false) {
        contract::ReminderList::Params params;
        params.all = all;
        return cellar_.call<contract::ReminderList>(params).reminders;
    }

    test::CellarUnderTest cellar_;
};

TEST_F(ReorderOnLedger, AReminderComesWhenTheLimitIsReachedAndGoesWhenItIsNot) {
    start();
    EXPECT_EQ(set(12).order_up_to, pieces(24));
    EXPECT_TRUE(reminders().empty());
    use(12);
    cellar_.deliver_events();
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_EQ(reminders()[0].name, "reorder:lids");
    EXPECT_EQ(reminders()[0].owner, "reorder");
    EXPECT_EQ(reminders()[0].cause, "low");
    EXPECT_EQ(reminders()[0].about, (contract::Links{{"reorder.point", 1}}));
    EXPECT_EQ(reminders()[0].title, "Buy 1 package of lids (12 each)");
    buy(12);
    cellar_.deliver_events();
    EXPECT_TRUE(reminders(true).empty());
}

TEST_F(ReorderOnLedger, ComputingAnewChangesNothing) {
    start();
    set(30);
    ASSERT_EQ(reminders().size(), 1U);
    // A new day: only the event that says so, and no reminder that becomes younger by it.
    cellar_.set_time("2026-03-20T08:00:00Z");
    EXPECT_EQ(cellar_.deliver_events(), 1U);
    EXPECT_EQ(reminders().at(0).due, day("2026-03-14"));
}

TEST_F(ReorderOnLedger, StartingBringsTheRemindersUpToDate) {
    {
        start();
        set(12);
    }
    use(20);
    EXPECT_TRUE(reminders().empty()); // the event has not come to the plugin
    cellar_.stop();
    cellar_.start<Reorder>();
    EXPECT_EQ(reminders().size(), 1U);
    EXPECT_TRUE(cellar_.log_lines().empty());
}

TEST_F(ReorderOnLedger, AReminderPutOffStaysPutOff) {
    start();
    set(30);
    cellar_.call<contract::ReminderSnooze>({"reorder:lids", day("2026-03-20")});
    use(1);
    cellar_.deliver_events();
    EXPECT_TRUE(reminders().empty());
    cellar_.set_time("2026-03-20T08:00:00Z");
    cellar_.deliver_events();
    EXPECT_EQ(reminders().size(), 1U);
}

TEST_F(ReorderOnLedger, ABrewDayThatSetsAsideMakesItDueBefore) {
    start();
    set(12);
    contract::BrewPlan::Params brew;
    brew.day = day("2026-04-10");
    brew.name = "canning day";
    const auto number = cellar_.call<contract::BrewPlan>(brew).number;
    cellar_.call<contract::BrewReserve>({number, "lids", AmountGiven{pieces(14)}});
    cellar_.deliver_events();
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_EQ(reminders()[0].due, day("2026-04-09"));
    EXPECT_EQ(contract::linked(reminders()[0].about, "brew"), number);
    cellar_.call<contract::BrewCancel>({number});
    cellar_.deliver_events();
    EXPECT_TRUE(reminders().empty());
}

TEST_F(ReorderOnLedger, ABrewDayThatTakesStockExactlyToTheLimitRaisesIt) {
    start();
    set(12);
    contract::BrewPlan::Params brew;
    brew.day = day("2026-04-10");
    brew.name = "canning day";
    const auto number = cellar_.call<contract::BrewPlan>(brew).number;
    cellar_.call<contract::BrewReserve>({number, "lids", AmountGiven{pieces(11)}});
    cellar_.deliver_events();
    EXPECT_TRUE(reminders().empty()); // 13 are left
    cellar_.call<contract::BrewReserve>({number, "lids", AmountGiven{pieces(1)}});
    cellar_.deliver_events();
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_EQ(reminders()[0].due, day("2026-04-09"));
}

TEST_F(ReorderOnLedger, ANeedThatTheShelfDoesNotMeetRaisesIt) {
    start();
    set(0);
    contract::BrewPlan::Params brew;
    brew.day = day("2026-04-10");
    brew.name = "canning day";
    const auto number = cellar_.call<contract::BrewPlan>(brew).number;
    cellar_.call<contract::BrewNeed>({number, "lids", AmountGiven{pieces(30)}, {}});
    cellar_.deliver_events();
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_EQ(cellar_.call<ReorderCheck>({}).goods.at(0).needed, pieces(6));
    buy(12); // goes to the brew day that needs it; six stay free
    cellar_.deliver_events();
    EXPECT_TRUE(reminders().empty());
}

TEST_F(ReorderOnLedger, HeldLotsAreNotFree) {
    start();
    set(12);
    const auto lot = cellar_.call<contract::StockList>({}).shelves.at(0).lots.at(0).code;
    cellar_.call<contract::LotHold>({lot, "rusty", {}, {}, {}});
    cellar_.deliver_events();
    EXPECT_EQ(reminders().size(), 1U);
}

TEST_F(ReorderOnLedger, RemovingALimitTakesItsReminderWithIt) {
    start();
    set(30);
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_TRUE(cellar_.call<ReorderRemove>({"Lids"}, "r").was_there);
    EXPECT_TRUE(reminders(true).empty());
    EXPECT_TRUE(cellar_.call<ReorderList>({}).points.empty());
    // The same request again is answered alike; another one finds nothing.
    EXPECT_TRUE(cellar_.call<ReorderRemove>({"Lids"}, "r").was_there);
    EXPECT_FALSE(cellar_.call<ReorderRemove>({"Lids"}, "s").was_there);
}

TEST_F(ReorderOnLedger, SettingAgainReplacesAndTheSameKeyWritesOnce) {
    start();
    set(12, "k");
    set(6, "l");
    EXPECT_EQ(set(12, "k").reorder_point, pieces(12)); // the stored answer
    const auto points = cellar_.call<ReorderList>({}).points;
    ASSERT_EQ(points.size(), 1U);
    EXPECT_EQ(points[0].reorder_point, pieces(6));
    EXPECT_EQ(set(6, "l").reorder_point, pieces(6));
}

TEST_F(ReorderOnLedger, CheckShowsWhatIsLow) {
    start();
    set(12);
    EXPECT_TRUE(cellar_.call<ReorderCheck>({}).goods.empty());
    EXPECT_EQ(cellar_.call<ReorderCheck>({{}, true}).goods.size(), 1U);
    EXPECT_FALSE(cellar_.call<ReorderCheck>({"lids", false}).goods.at(0).low);
    use(13);
    const auto low = cellar_.call<ReorderCheck>({}).goods;
    ASSERT_EQ(low.size(), 1U);
    EXPECT_EQ(low[0].available, pieces(11));
    EXPECT_EQ(low[0].missing, pieces(13));
    EXPECT_EQ(low[0].packages, 2);
    EXPECT_EQ(test::reason_of([&] {
                  return cellar_.call<ReorderCheck>({"corks", false});
              }),
              "no_reorder_point");
}

TEST_F(ReorderOnLedger, ARenamedGoodIsToldAndItsReminderGoes) {
    start();
    set(30);
    contract::GoodChange::Params rename;
    rename.name = "lids";
    rename.rename = "wide lids";
    cellar_.call<contract::GoodChange>(rename);
    cellar_.deliver_events();
    EXPECT_TRUE(reminders(true).empty());
    EXPECT_FALSE(cellar_.call<ReorderCheck>({}).goods.at(0).category);
    EXPECT_TRUE(cellar_.call<ReorderRemove>({"lids"}).was_there);
}

TEST_F(ReorderOnLedger, AReminderDoneIsLeftAloneUntilTheFiguresChange) {
    start();
    set(30);
    cellar_.call<contract::ReminderDone>({"reorder:lids"});
    cellar_.deliver_events();
    cellar_.set_time("2026-03-16T08:00:00Z");
    cellar_.deliver_events();
    EXPECT_TRUE(reminders().empty());
    use(1); // the figures change, so it is raised again
    cellar_.deliver_events();
    ASSERT_EQ(reminders().size(), 1U);
    EXPECT_EQ(reminders()[0].due, day("2026-03-16"));
}

} // namespace
} // namespace barmkeep::reorder
