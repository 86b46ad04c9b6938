// Cancelling, progress, notifications and stopping.
#include "tests/protocol/conversation.hpp"

#include <gtest/gtest.h>
#include <limits>
#include <thread>

namespace barmkeep::tests {
namespace {

TEST(Cancel, ReachesTheRequestAndBothAreAnswered) {
    Conversation c;
    c.hold(1);
    auto one = c.held.take();
    EXPECT_FALSE(one.call.cancelled.stop_requested());
    c.call("2", "call.cancel", R"({"id":1})");
    EXPECT_TRUE(one.call.cancelled.stop_requested());
    one.done(Error(ErrorKind::cancelled, "cancelled", "Stopped."));
    const auto replies = c.replies();
    ASSERT_EQ(replies.size(), 2U);
    EXPECT_EQ(replies[0].at("result"), json::object{});
    EXPECT_EQ(code_in(replies[1]), code_of(ErrorKind::cancelled));
}

TEST(Cancel, OfAnUnknownOrFinishedRequestIsNoError) {
    Conversation c;
    c.call("1", "example.get_data");
    c.call("2", "call.cancel", R"({"id":1})");
    c.call("3", "call.cancel", R"({"id":"1"})");
    for (const auto& reply : c.replies())
        EXPECT_EQ(reason_of(reply), "");
}

TEST(Cancel, PassesRequestsThatWaitAndAnswersAWaitingOneAtOnce) {
    protocol::Limits limits;
    limits.in_flight_max = 1;
    Conversation c{limits};
    c.hold(1);
    c.hold(2);
    c.hold(3);
    c.call("4", "call.cancel", R"({"id":2})");
    auto replies = c.replies();
    ASSERT_EQ(replies.size(), 2U);
    EXPECT_EQ(replies[0].at("id"), 2);
    EXPECT_EQ(reason_of(replies[0]), "cancelled");
    EXPECT_EQ(replies[1].at("id"), 4);
    c.held.take().done(json::value("first"));
    c.held.take().done(json::value("third"));
    replies = c.replies();
    ASSERT_EQ(replies.size(), 2U);
    EXPECT_EQ(replies[1].at("id"), 3);
    EXPECT_EQ(c.held.count(), 0U);
    EXPECT_EQ(c.session->unanswered(), 0U);
}

TEST(Cancel, IsRefusedToACallWithoutAConnection) {
    MethodTable methods;
    protocol::add_protocol_methods(methods);
    const json::value params = {{"id", 1}};
    const auto outcome = methods.call("call.cancel", Call{}, &params);
    EXPECT_EQ(std::get<Error>(outcome).reason(), "no_connection");
}

TEST(Arrival, IsWhenTheLineWasCompleteHoweverLongTheRequestWaits) {
    protocol::Limits limits;
    limits.in_flight_max = 1;
    Conversation c{limits};
    const Instant eight = c.clock.now();
    c.hold(1);
    c.session->take(R"({"jsonrpc":"2.0","id":2,)");
    c.clock.advance(std::chrono::minutes{1});
    c.session->take("\"method\":\"example.hold\"}\n");
    c.clock.advance(std::chrono::minutes{1});
    auto first = c.held.take();
    EXPECT_EQ(first.call.arrived, eight);
    first.done(json::value(1));
    auto second = c.held.take();
    EXPECT_EQ(second.call.arrived, eight + std::chrono::minutes{1});
    second.done(json::value(2));
}

TEST(Progress, IsSentBeforeTheReplyAndNeverAfter) {
    Conversation c;
    c.send(R"({"jsonrpc":"2.0","id":1,"method":"example.hold","progress":"p"})");
    auto one = c.held.take();
    send_progress(one.call, 1, 2, "half");
    one.done(json::value("done"));
    send_progress(one.call, 2, 2, "late");
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 2U);
    EXPECT_EQ(said[0].at("method"), "call.progress");
    EXPECT_EQ(said[0].at("params").at("token"), "p");
    EXPECT_EQ(said[0].at("params").at("message"), "half");
    EXPECT_EQ(said[1].at("result"), "done");
}

TEST(Progress, IsNotSentToWhoDidNotAsk) {
    Conversation c;
    c.hold(1);
    send_progress(c.held.take().call, 1, 2, "half");
    EXPECT_EQ(c.replies().size(), 1U); // the answer to the forgotten call
}

TEST(Progress, IsLeftOutWhileTheClientIsSlow) {
    protocol::Limits limits;
    limits.reply_bytes_max = 1000;
    Conversation c{limits};
    c.send(R"({"jsonrpc":"2.0","id":1,"method":"example.hold","progress":1})");
    auto one = c.held.take();
    for (int i = 0; i < 100; ++i)
        send_progress(one.call, i, 100, "step");
    one.done(json::value("done"));
    const auto said = c.replies();
    EXPECT_LT(said.size(), 15U);
    EXPECT_EQ(said.back().at("result"), "done");
    EXPECT_FALSE(c.session->is_closing());
}

TEST(Progress, WithANumberThatIsNoneIsNotSent) {
    Conversation c;
    c.send(R"({"jsonrpc":"2.0","id":1,"method":"example.hold","progress":1})");
    auto one = c.held.take();
    send_progress(one.call, std::numeric_limits<double>::quiet_NaN(), 1, "");
    EXPECT_EQ(c.said(), "");
    one.done(json::value(1));
}

TEST(Notifications, OneListenerStandsForTheConnection) {
    Conversation c;
    Conversation other;
    c.hold(1);
    c.hold(2);
    other.hold(1);
    const auto first = c.held.take();
    const auto second = c.held.take();
    const auto third = other.held.take();
    EXPECT_EQ(first.call.listener, second.call.listener);
    EXPECT_NE(first.call.listener, third.call.listener);
}

TEST(Stopping, RefusesWhatIsNewAndAnswersWhatIsInFlight) {
    Conversation c;
    c.hold(1);
    c.session->stop_taking();
    EXPECT_FALSE(c.session->is_closing());
    c.call("2", "example.get_data");
    c.send(R"({"jsonrpc":"2.0","method":"example.update"})");
    auto said = c.replies();
    ASSERT_EQ(said.size(), 1U);
    EXPECT_EQ(code_in(said[0]), code_of(ErrorKind::unavailable));
    EXPECT_EQ(reason_of(said[0]), "stopping");
    c.held.take().done(json::value("done"));
    said = c.replies();
    ASSERT_EQ(said.size(), 2U);
    EXPECT_EQ(said[0].at("result"), "done");
    EXPECT_EQ(reason_of(said[1]), "stopping");
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Stopping, EndsAnIdleSessionAtOnceAndLetsCancelThrough) {
    Conversation idle;
    idle.session->stop_taking();
    EXPECT_EQ(reason_of(idle.replies().at(0)), "stopping");
    EXPECT_TRUE(idle.session->is_finished());

    Conversation busy;
    busy.hold(1);
    auto one = busy.held.take();
    busy.session->stop_taking();
    busy.call("2", "call.cancel", R"({"id":1})");
    EXPECT_TRUE(one.call.cancelled.stop_requested());
    one.done(json::value(1));
}

TEST(Workers, AnswerManyRequestsFromManyThreads) {
    std::mutex mutex;
    std::vector<std::function<void()>> queue;
    constexpr int count = 500;
    {
        protocol::Limits limits;
        limits.in_flight_max = 8;
        Conversation c{limits, Access::manage, [&](std::function<void()> work) {
                           const std::lock_guard lock{mutex};
                           queue.push_back(std::move(work));
                       }};
        std::atomic<bool> over = false;
        const auto work = [&] {
            while (!over) {
                std::function<void()> next;
                {
                    const std::lock_guard lock{mutex};
                    if (!queue.empty()) {
                        next = std::move(queue.back());
                        queue.pop_back();
                    }
                }
                if (next)
                    next();
            }
        };
        std::vector<std::jthread> workers;
        for (int i = 0; i < 3; ++i)
            workers.emplace_back(work);
        std::vector<json::value> replies;
        for (int id = 0; id < count; ++id) {
            c.call(std::to_string(id), "example.subtract", "[" + std::to_string(id) + ",1]");
            for (auto& reply : c.replies())
                replies.push_back(std::move(reply));
        }
        while (c.session->unanswered() > 0)
            std::this_thread::yield();
        over = true;
        workers.clear();
        for (auto& reply : c.replies())
            replies.push_back(std::move(reply));
        ASSERT_EQ(replies.size(), static_cast<std::size_t>(count));
        for (const auto& reply : replies)
            EXPECT_EQ(reply.at("result").as_int64(), reply.at("id").as_int64() - 1);
    }
}

TEST(Calls, RightsChangeForWhatBeginsFromThenOn) {
    protocol::Limits limits;
    limits.in_flight_max = 1;
    Conversation c{limits, Access::manage};
    c.hold(1);
    c.hold(2);
    c.session->set_access(Access::look);
    const auto first = c.held.take();
    EXPECT_EQ(first.call.caller.access, Access::manage);
    first.done(json::value(1));
    EXPECT_EQ(c.held.take().call.caller.access, Access::look);
    EXPECT_FALSE(c.session->is_closing());
}

TEST(Calls, WhoIsNoLongerAdmittedIsToldSoAndTheConnectionEnds) {
    Conversation c;
    c.hold(1);
    c.session->set_access(std::nullopt);
    const auto one = c.held.take();
    EXPECT_TRUE(one.call.cancelled.stop_requested());
    one.done(json::value(1));
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 1U);
    EXPECT_EQ(reason_of(said[0]), "not_admitted");
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Calls, EveryInternalFaultIsToldOnceWithItsMethodAndCallerAndWithoutItsParams) {
    Conversation c;
    const Error fault{ErrorKind::internal, "internal", "The barrel has no bottom."};
    c.call("1", "example.hold", R"({"n":"a secret"})");
    c.held.take().done(fault);
    c.send(R"({"jsonrpc":"2.0","method":"example.hold","params":{"n":"a secret"}})");
    c.held.take().done(fault); // nobody is answered, but the log has it
    c.hold(2);
    c.held.take().done(json::value(std::numeric_limits<double>::infinity()));
    c.hold(3);
    c.held.take().done(Error(ErrorKind::conflict, "no", "Not now."));
    c.hold(4);
    c.held.take().done(json::value(1));
    ASSERT_EQ(c.faults.size(), 3U);
    EXPECT_EQ(c.faults[0], "example.hold, asked by anna: internal: The barrel has no bottom.");
    EXPECT_EQ(c.faults[1], c.faults[0]);
    EXPECT_EQ(c.faults[2].find("example.hold, asked by anna: not_finite: "), 0U) << c.faults[2];
}

} // namespace
} // namespace barmkeep::tests
