// The C++ face of a plugin, exercised through the boundary by the fake host.
#include "sdk/plugin/fake_host.hpp"
#include "tests/plugin/samples.hpp"

#include <gmock/gmock.h>

namespace barmkeep::plugin::test {
namespace {

using testing::HasSubstr;

Error error_of(const Outcome& outcome) {
    const auto* error = std::get_if<Error>(&outcome);
    return error != nullptr ? *error : Error(ErrorKind::internal, "none", "there is no error");
}

Error failure_of(FakeHost& host, std::string_view how) {
    return error_of(host.call("tally.fail", {{"how", how}}));
}

/// Stands in for reminder.post, and counts how often it was truly done.
void post_reminders(FakeHost& host, int& posted) {
    host.stand_in<contract::ReminderPost>(
        [&posted](const Call& call, const contract::ReminderPost::Params& params) {
            ++posted;
            return contract::Reminder{params.name,
                                      params.title,
                                      params.note,
                                      params.due,
                                      contract::ReminderState::open,
                                      std::nullopt,
                                      params.cause,
                                      params.every_days,
                                      params.about,
                                      call.caller.plugin};
        });
}

TEST(Face, AMethodIsCalledWithItsTypes) {
    FakeHost host;
    host.start<Tally>({{"first", 5}});
    const auto result = host.call<TallyCount>({.by = 3});
    EXPECT_EQ(result.count, 8);
    EXPECT_EQ(result.caller, "anna");
}

TEST(Face, AMethodHasItsSheet) {
    FakeHost host;
    host.start<Tally>();
    TallyCount::Result result;
    result.count = 8;
    const auto sheet = host.sheet<TallyCount>({}, result);
    EXPECT_EQ(sheet.lead, sheet::text("There are ", sheet::count(8, "lot"), "."));
    for (const auto& method : host.manifest().methods)
        EXPECT_EQ(method.has_sheet, method.name == "tally.count") << method.name;
    EXPECT_THROW((void)host.sheet<TallyNote>({"a"}, {"b"}), Error);
}

TEST(Face, AMethodSeesWhenItsRequestArrived) {
    FakeHost host;
    host.start<Tally>();
    EXPECT_EQ(host.call<TallyCount>({}).arrived, host.clock().now());
    Call earlier = FakeHost::circumstances();
    earlier.arrived = host.clock().now() - std::chrono::seconds{24};
    const auto outcome = host.call("tally.count", {}, earlier);
    EXPECT_EQ(decode<TallyCount::Result>(std::get<json::value>(outcome)).arrived, earlier.arrived);
}

/// A host of version 1.0 of the boundary, reduced to what one call needs.
class EarlierHost {
public:
    EarlierHost() {
        table_.size = sizeof table_;
        table_.context = this;
        table_.answer = [](const barmkeep_host* host, barmkeep_call_number, barmkeep_ending,
                           const char* text, std::size_t length) {
            static_cast<EarlierHost*>(host->context)->answer_.assign(text, length);
        };
        table_.now = [](const barmkeep_host*) {
            return std::int64_t{1000};
        };
        table_.log = [](const barmkeep_host*, barmkeep_log_level, const char*, std::size_t) {
        };
    }
    json::value count() {
        const auto& plugin = descriptor<Tally>();
        void* state = plugin.start(
            &table_, "{}", 2, [](void*, const char*, std::size_t) {}, this);
        const std::string_view method = "tally.count";
        barmkeep_request request{};
        request.size = offsetof(barmkeep_request, arrived);
        request.method = method.data();
        request.method_length = method.size();
        request.arrived = 7; // beyond the size, so it is not there
        plugin.call(state, 1, &request);
        plugin.stop(state);
        return parse_json(answer_);
    }

private:
    barmkeep_host table_{};
    std::string answer_;
};

TEST(Face, WhereTheHostDoesNotSayWhenARequestArrivedItIsNow) {
    const auto result = decode<TallyCount::Result>(EarlierHost{}.count());
    EXPECT_EQ(result.arrived, Instant{std::chrono::seconds{1}});
}

TEST(Face, TheLaneOfAMethodCrossesTheBoundary) {
    FakeHost host;
    host.start<Tally>();
    for (const auto& method : host.manifest().methods)
        EXPECT_EQ(lane_of(method), method.name == "tally.note" ? Lane::log : Lane::look)
            << method.name;
}

TEST(Face, TheManifestHasMethodsEventsAndSettings) {
    FakeHost host;
    host.start<Tally>();
    EXPECT_EQ(host.manifest().name, "tally");
    EXPECT_EQ(host.manifest().version, "1.2.3");
    EXPECT_EQ(host.manifest().methods.size(), 5u);
    EXPECT_EQ(host.manifest().events, std::vector<std::string>{"lot."});
    EXPECT_TRUE(host.manifest().settings.at("properties").as_object().contains("greeting"));
}

TEST(Face, EveryFaultOfTheParamsIsTold) {
    FakeHost host;
    host.start<Tally>();
    const Error error = error_of(host.call("tally.count", {{"by", 11}, {"bye", 1}}));
    EXPECT_EQ(error.kind(), ErrorKind::params);
    ASSERT_EQ(error.faults().size(), 2u);
    EXPECT_EQ(error.faults()[0].pointer, "/bye");
    EXPECT_THAT(error.faults()[0].hint, HasSubstr("'by'"));
    EXPECT_EQ(error.faults()[1].pointer, "/by");
}

TEST(Face, AnUnknownSettingIsRefusedWithTheNearestName) {
    FakeHost host;
    try {
        host.start<Tally>({{"greetin", "hello"}});
        FAIL() << "it started";
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "unknown_field");
        EXPECT_THAT(error.hint(), HasSubstr("greeting"));
    }
}

TEST(Face, WhatTheConstructorThrowsIsTheReasonWhyItDidNotStart) {
    FakeHost host;
    try {
        host.start<Tally>({{"first", 13}});
        FAIL() << "it started";
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "unlucky");
        EXPECT_EQ(error.hint(), "Take 12.");
        EXPECT_EQ(error.faults().front().pointer, "/first");
    }
    host.start<Tally>({{"first", 12}});
    EXPECT_EQ(host.call<TallyCount>({}).count, 13);
}

TEST(Face, ErrorsKeepTheirKindReasonAndHint) {
    FakeHost host;
    host.start<Tally>();
    const Error error = failure_of(host, "error");
    EXPECT_EQ(error.kind(), ErrorKind::not_enough);
    EXPECT_EQ(error.reason(), "too_little");
    EXPECT_EQ(error.hint(), "Buy some.");
}

TEST(Face, NothingThrownCrossesTheBoundary) {
    FakeHost host;
    host.start<Tally>();
    EXPECT_EQ(failure_of(host, "exception").kind(), ErrorKind::internal);
    EXPECT_EQ(failure_of(host, "range").kind(), ErrorKind::params);
    EXPECT_EQ(failure_of(host, "stone").kind(), ErrorKind::internal);
    EXPECT_EQ(failure_of(host, "infinite").reason(), "not_finite");
}

TEST(Face, LogLinesReachTheHostAsOneLine) {
    FakeHost host;
    host.start<Tally>({{"greeting", "good morning"}});
    host.stop();
    const auto lines = host.log_lines();
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_EQ(lines[0].text, "good morning");
    EXPECT_EQ(lines[1].text, "stopped");
    EXPECT_EQ(lines[1].level, LogLevel::debug);
}

TEST(Face, OnlyWantedEventsArrive) {
    FakeHost host;
    host.start<Tally>();
    host.deliver("lot.changed");
    host.deliver("day.begun");
    EXPECT_EQ(host.call<TallyCount>({}).count, 2);
}

TEST(Face, AnEventThatCannotBeDealtWithIsLogged) {
    FakeHost host;
    host.start<Tally>();
    host.deliver("lot.changed", {{"throw", true}});
    ASSERT_EQ(host.log_lines().size(), 1u);
    EXPECT_EQ(host.log_lines()[0].level, LogLevel::error);
    EXPECT_THAT(host.log_lines()[0].text, HasSubstr("no such lot"));
}

TEST(Face, ProgressReachesTheCallerThatAskedForIt) {
    struct Ear final : Listener {
        bool notify(std::string_view, json::object params) override {
            heard.push_back(std::move(params));
            return true;
        }
        std::vector<json::object> heard;
    };
    FakeHost host;
    host.start<Tally>();
    const auto ear = std::make_shared<Ear>();
    Call call = FakeHost::circumstances();
    call.listener = ear;
    call.progress_token = "t";
    (void)host.call("tally.work", {}, call);
    ASSERT_EQ(ear->heard.size(), 1u);
    EXPECT_EQ(ear->heard[0].at("message").as_string(), "half way");
}

TEST(Face, AMethodThatAPluginCallsHasNoLineToTheCallerButItsCancellation) {
    struct Deaf final : Listener {
        bool notify(std::string_view, json::object) override { return true; }
    };
    FakeHost host;
    Call seen;
    host.stand_in<contract::ReminderPost>(
        [&](const Call& call, const contract::ReminderPost::Params& params) {
            seen = call;
            contract::Reminder posted;
            posted.due = params.due;
            return posted;
        });
    host.start<Tally>();
    std::stop_source source;
    Call call = FakeHost::circumstances();
    call.listener = std::make_shared<Deaf>();
    call.progress_token = "t";
    call.cancelled = source.get_token();
    (void)host.call("tally.note", {{"name", "jars"}}, call);
    EXPECT_EQ(seen.listener, nullptr);
    EXPECT_TRUE(seen.progress_token.is_null());
    source.request_stop();
    EXPECT_TRUE(seen.cancelled.stop_requested());
}

TEST(Face, ACancelledCallIsAnsweredAsCancelled) {
    FakeHost host;
    host.start<Tally>();
    std::stop_source source;
    source.request_stop();
    Call call = FakeHost::circumstances();
    call.cancelled = source.get_token();
    EXPECT_EQ(error_of(host.call("tally.work", {}, call)).kind(), ErrorKind::cancelled);
}

TEST(Face, ACircleEndsAfterSixteenPlugins) {
    FakeHost host;
    host.start<Tally>();
    EXPECT_EQ(error_of(host.call("tally.circle", {})).reason(), "too_deep");
    EXPECT_EQ(error_of(host.call("tally.circle", {{"own_accord", true}})).reason(), "too_deep");
}

TEST(Once, WithoutAKeyItWritesEveryTime) {
    FakeHost host;
    int posted = 0;
    post_reminders(host, posted);
    host.start<Tally>();
    EXPECT_EQ(host.call<TallyNote>({"jars"}).title, "count 1");
    EXPECT_EQ(host.call<TallyNote>({"jars"}).title, "count 2");
    EXPECT_EQ(posted, 2);
}

TEST(Once, TheSameKeyWritesOnceAndIsAnsweredAlike) {
    FakeHost host;
    int posted = 0;
    post_reminders(host, posted);
    host.start<Tally>();
    EXPECT_EQ(host.call<TallyNote>({"jars"}, "k1").title, "count 1");
    host.deliver("lot.changed"); // the state that the answer was made of has changed since
    EXPECT_EQ(host.call<TallyNote>({"jars"}, "k1").title, "count 1");
    EXPECT_EQ(posted, 1);
    EXPECT_EQ(host.call<TallyNote>({"jars"}, "k2").title, "count 3");
}

TEST(Once, TheSameKeyWithAnotherRequestIsRefused) {
    FakeHost host;
    int posted = 0;
    post_reminders(host, posted);
    host.start<Tally>();
    (void)host.call<TallyNote>({"jars"}, "k1");
    const Error error = error_of(host.call("tally.note", {{"name", "lids"}, {"key", "k1"}}));
    EXPECT_EQ(error.kind(), ErrorKind::conflict);
    EXPECT_EQ(posted, 1);
}

TEST(Once, AKeyTooLongToBeExtendedIsRefusedBeforeAnythingIsWritten) {
    FakeHost host;
    int posted = 0;
    post_reminders(host, posted);
    host.start<Tally>();
    const auto answer = [&](std::size_t length) {
        return host.call("tally.note", {{"name", "jars"}, {"key", std::string(length, 'k')}});
    };
    EXPECT_EQ(error_of(answer(119)).faults().front().pointer, "/key");
    EXPECT_EQ(posted, 0);
    EXPECT_TRUE(std::holds_alternative<json::value>(answer(118)));
}

TEST(Once, ASecondWriteInOneCallIsOurBugAndIsRefused) {
    FakeHost host;
    int posted = 0;
    post_reminders(host, posted);
    host.start<Tally>();
    EXPECT_EQ(failure_of(host, "twice").reason(), "wrote_twice");
    EXPECT_EQ(posted, 1);
}

TEST(Once, TheJournalSeesThePluginAndThePerson) {
    FakeHost host;
    Caller seen;
    host.stand_in<contract::ReminderPost>(
        [&](const Call& call, const contract::ReminderPost::Params& params) {
            seen = call.caller;
            contract::Reminder posted;
            posted.due = params.due;
            return posted;
        });
    host.start<Tally>();
    (void)host.call("tally.note", {{"name", "jars"}});
    EXPECT_EQ(seen.name, "tally for anna");
    EXPECT_EQ(seen.plugin, "tally");
    EXPECT_EQ(seen.access, Access::keep);
}

} // namespace
} // namespace barmkeep::plugin::test
