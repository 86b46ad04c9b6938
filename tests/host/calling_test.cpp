// Calls through the host, and every way in which a plugin can spoil one.
#include "tests/host/fixture.hpp"

#include "sdk/contract/ledger.hpp"
#include "sdk/contract/reminder.hpp"

namespace barmkeep::host::test {
namespace {

using namespace std::chrono_literals;
using testing::HasSubstr;

class Calling : public HostTest {
protected:
    Calling() {
        put("tally");
        put("rogue");
    }
    /// Has work of other kinds than the log's stand at the gate on all threads that there are for
    /// it.
    void take_all_threads(Lane lane = Lane::look) {
        for (std::size_t i = 0; i < threads_; ++i) {
            executor::Task task;
            task.lane = lane;
            task.work = [this] {
                gate_.pass();
            };
            executor_->submit(std::move(task));
        }
        gate_.wait_for(static_cast<int>(threads_) - (lane == Lane::log ? 0 : 1));
    }
    /// Starts a call, whose outcome comes.
    std::future<Outcome> outcome_to_come(std::string_view method, const Call& call) {
        const auto outcome = std::make_shared<std::promise<Outcome>>();
        methods_.start(method, call, nullptr,
                       [outcome](Outcome told) { outcome->set_value(std::move(told)); });
        return outcome->get_future();
    }
};

TEST_F(Calling, AnAnswerComesBack) {
    options_.settings["tally"] = {{"first", 40}};
    start();
    const json::value answer = result("tally.count", {{"by", 2}});
    EXPECT_EQ(answer.at("count"), 42);
    EXPECT_EQ(answer.at("caller"), "anna");
}

TEST_F(Calling, ASheetIsMadeByThePluginOnAThreadOfTheExecutor) {
    start();
    const auto row = methods_.find("tally.count");
    ASSERT_TRUE(row->description.has_sheet);
    std::promise<Outcome> promise;
    row->sheet(circumstances(), {},
               {{"count", 3}, {"caller", "x"}, {"arrived", "2026-03-14T08:00:00Z"}},
               [&](Outcome outcome) { promise.set_value(std::move(outcome)); });
    const Outcome made = promise.get_future().get();
    EXPECT_THAT(write_json(std::get<json::value>(made)), HasSubstr("\"number\":3"));
    EXPECT_EQ(methods_.find("tally.note")->sheet, nullptr);
}

TEST_F(Calling, AnErrorComesBackWhole) {
    start();
    const Error told = error("tally.fail", {{"how", "error"}});
    EXPECT_EQ(told.kind(), ErrorKind::not_enough);
    EXPECT_EQ(told.reason(), "too_little");
}

TEST_F(Calling, RubbishIsAnErrorToTheCallerAndALineInTheLog) {
    start();
    for (const auto* method : {"rogue.invalid", "rogue.infinite", "rogue.neither", "rogue.bare"})
        EXPECT_EQ(error(method).reason(), "plugin_invalid") << method;
    EXPECT_EQ(error("rogue.twice").reason(), "plugin_answered_twice");
    EXPECT_EQ(error("rogue.silent").reason(), "plugin_silent");
    end();
    EXPECT_THAT(log(), HasSubstr("plugin rogue: rogue.twice: the plugin answered more than once"));
    EXPECT_THAT(log(), HasSubstr("rogue.silent: the plugin returned without an answer"));
}

TEST_F(Calling, AnExceptionDoesNotGetFurtherThanTheCall) {
    start();
    EXPECT_EQ(error("rogue.throw").reason(), "plugin_threw");
    EXPECT_EQ(error("rogue.stone").reason(), "plugin_threw");
    EXPECT_EQ(result("tally.count").at("count"), 1);
}

TEST_F(Calling, APluginThatCallsItselfWithoutEndIsEnded) {
    start();
    EXPECT_EQ(error("rogue.circle").reason(), "too_deep");
    EXPECT_EQ(error("tally.circle").reason(), "too_deep");
}

TEST_F(Calling, ACallThatHasEndedCanNeitherBeAnsweredNorCalledFrom) {
    start();
    (void)call("rogue.silent");
    EXPECT_EQ(error("rogue.ended").reason(), "call_ended");
    end();
    EXPECT_THAT(log(), HasSubstr("a call that has ended is dropped"));
}

TEST_F(Calling, ParamsThatAreNeitherObjectNorArrayAreRefused) {
    start();
    EXPECT_EQ(error("rogue.primitive").kind(), ErrorKind::request);
    EXPECT_TRUE(gate_.heard().empty());
}

TEST_F(Calling, APluginCallsAnotherOnItsOwnThread) {
    threads_ = 1; // which would wait for itself, were another one needed
    start();
    const json::value answer = result("rogue.count", {{"by", 3}});
    EXPECT_EQ(answer.at("count"), 3);
    EXPECT_EQ(answer.at("caller"), "rogue for anna");
}

TEST_F(Calling, ASlowPluginIsAnsweredForAndItsLateAnswerDropped) {
    start();
    auto slow = error_to_come("rogue.slow");
    gate_.wait_for_heard(1); // it has begun
    deadlines_->expire();
    const Error told = slow.get();
    EXPECT_EQ(told.kind(), ErrorKind::unavailable);
    EXPECT_EQ(told.reason(), "plugin_slow");
    end(); // ends when the late answer has come
    EXPECT_THAT(log(), HasSubstr("rogue.slow: the answer came too late and is dropped"));
}

TEST_F(Calling, ACallThatWasGivenUpCanDoNothingMore) {
    start();
    auto slow = error_to_come("rogue.after");
    gate_.wait_for_heard(1);
    deadlines_->expire();
    EXPECT_EQ(slow.get().reason(), "plugin_slow");
    end();
    EXPECT_EQ(gate_.heard().size(), 1u);
}

TEST_F(Calling, AStuckPluginDoesNotHoldUpTheOthers) {
    threads_ = 1;
    start();
    for (int i = 1; i <= 3; ++i) {
        auto stuck = error_to_come("rogue.gate");
        gate_.wait_for(i);
        deadlines_->expire();
        EXPECT_EQ(stuck.get().reason(), "plugin_slow");
    }
    EXPECT_EQ(result("tally.count").at("count"), 1);
    EXPECT_EQ(result("tally.count").at("count"), 2);
    gate_.open();
}

TEST_F(Calling, ACallThatFoundNoThreadInTimeWasNotBegunAndSaysSo) {
    threads_ = 1;
    start();
    auto stuck = error_to_come("rogue.gate");
    gate_.wait_for(1);
    auto waiting = error_to_come("tally.count");
    deadlines_->wait_for(2);
    deadlines_->expire_latest();
    const Error told = waiting.get();
    EXPECT_EQ(told.kind(), ErrorKind::busy);
    EXPECT_EQ(told.reason(), "plugins_busy");
    gate_.open();
    EXPECT_EQ(stuck.get().reason(), "no_error");
    EXPECT_EQ(result("tally.count").at("count"), 1) << "the one given up was not run later";
}

TEST_F(Calling, TheCallersCancellationReachesThePlugin) {
    start();
    std::stop_source source;
    Call mine = circumstances();
    mine.cancelled = source.get_token();
    std::promise<Outcome> outcome;
    methods_.start("rogue.slow", mine, nullptr,
                   [&](Outcome told) { outcome.set_value(std::move(told)); });
    gate_.wait_for_heard(1); // it has begun
    source.request_stop();
    const Outcome told = outcome.get_future().get();
    EXPECT_EQ(std::get<json::value>(told), "at last");
}

TEST_F(Calling, OnePluginMayBeCalledSeveralTimesAtOnce) {
    start();
    std::vector<std::future<Outcome>> calls;
    for (int i = 0; i < 3; ++i)
        calls.push_back(std::async(std::launch::async, [&] { return call("rogue.gate"); }));
    gate_.wait_for(3);
    gate_.open();
    for (auto& one : calls)
        EXPECT_TRUE(std::holds_alternative<json::value>(one.get()));
    EXPECT_EQ(gate_.most_at_once(), 3);
}

TEST_F(Calling, TheOutermostRequestsDigestGoesAlongWithKeysMadeFromItsKey) {
    Call seen;
    add_direct<contract::LedgerRecall>(methods_, "core", [](const Call&, const auto&) {
        return contract::LedgerRecall::Result{};
    });
    add_direct<contract::ReminderPost>(methods_, "core",
                                       [&](const Call& asked, const auto& params) {
                                           seen = asked;
                                           contract::Reminder posted;
                                           posted.title = params.title;
                                           posted.due = params.due;
                                           return posted;
                                       });
    start();
    (void)result("tally.note", {{"name", "jars"}, {"key", "k7"}});
    EXPECT_EQ(seen.key, "k7/1");
    EXPECT_EQ(seen.digest, request_digest("tally.note", {{"name", "jars"}}));
    EXPECT_EQ(seen.caller.name, "tally for anna");
    EXPECT_EQ(seen.caller.plugin, "tally");
    EXPECT_EQ(seen.depth, 1);
    (void)result("tally.note", {{"name", "jars"}});
    EXPECT_TRUE(seen.key.empty());
}

TEST_F(Calling, AStepOfARunIsServedWhileWatchersHaveAllOtherThreads) {
    // Four that watched a run had all four workers; a step sent then waited for them to end.
    threads_ = 4;
    start();
    take_all_threads();
    auto watcher = outcome_to_come("rogue.gate", circumstances());
    EXPECT_EQ(result("rogue.step"), 1773475200000);
    EXPECT_EQ(executor_->counters(Lane::look).waiting, 2u) << "the watcher and one task more";
    gate_.open();
    EXPECT_TRUE(std::holds_alternative<json::value>(watcher.get()));
}

TEST_F(Calling, WhatAStepRecordsIsOfItsArrivalHoweverLongItWaits) {
    threads_ = 2;
    start();
    take_all_threads(Lane::log);
    auto step = outcome_to_come("rogue.step", circumstances());
    const Instant arrived = clock_.now();
    clock_.advance(24s);
    gate_.open();
    EXPECT_EQ(std::get<json::value>(step.get()), arrived.time_since_epoch().count());
    ASSERT_EQ(noted_.size(), 1u);
    EXPECT_EQ(noted_[0].arrived, arrived) << "a nested call arrives with the outer one";
}

TEST_F(Calling, WhatAPluginLogsIsLoggedInTheOrderOfArrivalOneAtATime) {
    start();
    auto first = outcome_to_come("rogue.log", circumstances());
    Call bens = circumstances();
    bens.caller.name = "ben";
    auto second = outcome_to_come("rogue.log", bens);
    gate_.wait_for(1);
    EXPECT_EQ(executor_->counters(Lane::log).waiting, 1u);
    gate_.open();
    (void)first.get();
    (void)second.get();
    EXPECT_EQ(gate_.most_at_once(), 1);
}

TEST_F(Calling, WhatAPluginDoesOfItsOwnAccordArrivesWhenItDoesIt) {
    start();
    Call call = circumstances();
    call.arrived = clock_.now() - 1h;
    (void)outcome_to_come("rogue.own", call).get();
    ASSERT_EQ(noted_.size(), 1u);
    EXPECT_EQ(noted_[0].arrived, clock_.now());
}

TEST_F(Calling, ACallThatIsCancelledBeforeItsTurnDoesNotReachThePlugin) {
    threads_ = 2;
    start();
    take_all_threads();
    std::stop_source source;
    Call mine = circumstances();
    mine.cancelled = source.get_token();
    auto waiting = outcome_to_come("rogue.slow", mine);
    source.request_stop();
    gate_.open();
    EXPECT_EQ(std::get<Error>(waiting.get()).reason(), "cancelled");
    EXPECT_TRUE(gate_.heard().empty());
}

TEST_F(Calling, APluginOfTheBoundarysFirstMinorVersionIsServed) {
    put("veteran");
    start();
    EXPECT_EQ(methods_.find("veteran.ask")->sheet, nullptr);
    EXPECT_EQ(result("veteran.ask"), "veteran.ask for anna");
}

} // namespace
} // namespace barmkeep::host::test
