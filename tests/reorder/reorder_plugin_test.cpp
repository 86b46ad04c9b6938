// The reorder plugin across the boundary, on a fake host.
#include "plugins/reorder/reorder.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::reorder {
namespace {

using plugin::FakeHost;
using testing::HasSubstr;

TEST(ReorderOnFakeHost, StartsThoughTheCellarDoesNotAnswerAndSaysSo) {
    FakeHost host; // no stand-ins: every call of the plugin fails
    host.start<Reorder>();
    ASSERT_EQ(host.log_lines().size(), 1U);
    EXPECT_THAT(host.log_lines()[0].text, HasSubstr("could not be updated"));
}

TEST(ReorderOnFakeHost, OnlyItsOwnRecordsMoveIt) {
    FakeHost host;
    int asked = 0;
    host.stand_in<contract::RecordList>([&](const Call&, const contract::RecordList::Params&) {
        ++asked;
        return contract::RecordList::Result{};
    });
    host.stand_in<contract::ReminderList>([](const Call&, const contract::ReminderList::Params&) {
        return contract::ReminderList::Result{};
    });
    host.start<Reorder>();
    EXPECT_EQ(asked, 1);
    host.deliver("record.changed", {{"owner", "canning"}, {"collection", "point"}});
    host.deliver("record.changed", {{"owner", "reorder"}, {"collection", "other"}});
    host.deliver("record.changed", {{"owner", 7}});
    host.deliver("price.changed", {{"item", "lids"}});
    EXPECT_EQ(asked, 1);
    host.deliver("record.changed", {{"owner", "reorder"}, {"collection", "point"}});
    host.deliver("event.missed");
    EXPECT_EQ(asked, 3);
}

TEST(ReorderOnFakeHost, AnothersReminderOfThatNameIsNotCleared) {
    FakeHost host;
    host.stand_in<contract::RecordList>([](const Call&, const contract::RecordList::Params&) {
        return contract::RecordList::Result{};
    });
    host.stand_in<contract::ReminderList>([](const Call&, const contract::ReminderList::Params&) {
        contract::Reminder hers;
        hers.name = "reorder:corks";
        hers.title = "Buy corks";
        hers.due = parse_date("2026-03-14");
        hers.owner = "anna";
        auto ours = hers;
        ours.name = "reorder:lids";
        ours.owner = "reorder";
        return contract::ReminderList::Result{{}, {hers, ours}};
    });
    std::vector<std::string> cleared;
    host.stand_in<contract::ReminderClear>(
        [&](const Call&, const contract::ReminderClear::Params& params) {
            cleared.push_back(params.name.value_or(""));
            return contract::ReminderClear::Result{1};
        });
    host.start<Reorder>();
    EXPECT_EQ(cleared, std::vector<std::string>{"reorder:lids"});
}

TEST(ReorderOnFakeHost, WrongFieldsAreToldAtOnce) {
    FakeHost host;
    host.start<Reorder>();
    const auto outcome =
        host.call("reorder.set", {{"reorder_point", true}, {"lead_days", -1}, {"upto", 5}});
    const auto* error = std::get_if<Error>(&outcome);
    ASSERT_NE(error, nullptr);
    EXPECT_EQ(error->kind(), ErrorKind::params);
    EXPECT_GE(error->faults().size(), 4U);
}

TEST(ReorderOnFakeHost, ARecordThatIsNoLimitIsToldAsSuch) {
    FakeHost host;
    host.stand_in<contract::RecordList>([](const Call&, const contract::RecordList::Params&) {
        contract::Record record;
        record.number = 1;
        record.document = {{"good", 5}};
        return contract::RecordList::Result{{}, {record}};
    });
    host.start<Reorder>();
    const auto outcome = host.call("reorder.list", {});
    ASSERT_TRUE(std::holds_alternative<Error>(outcome));
    EXPECT_EQ(std::get<Error>(outcome).reason(), "record_not_understood");
}

} // namespace
} // namespace barmkeep::reorder
