#include "tests/protocol/conversation.hpp"

#include <gtest/gtest.h>

namespace barmkeep::tests {
namespace {

TEST(Session, AnswersRequestsInTheOrderInWhichTheyAreDone) {
    Conversation c;
    c.hold(1);
    c.hold(2);
    c.call("3", "example.get_data");
    auto first = c.held.take();
    auto second = c.held.take();
    second.done(json::value("two"));
    first.done(json::value("one"));
    const auto replies = c.replies();
    ASSERT_EQ(replies.size(), 3U);
    EXPECT_EQ(replies[0].at("id"), 3);
    EXPECT_EQ(replies[1].at("id"), 2);
    EXPECT_EQ(replies[2].at("id"), 1);
}

TEST(Session, BeginsRequestsInTheOrderInWhichTheyCame) {
    protocol::Limits limits;
    limits.in_flight_max = 2;
    Conversation c{limits};
    for (int id = 1; id <= 5; ++id)
        c.call(std::to_string(id), "example.hold", "[" + std::to_string(id) + "]");
    for (int id = 1; id <= 5; ++id) {
        EXPECT_EQ(c.held.count(), id == 5 ? 1U : 2U);
        auto one = c.held.take();
        EXPECT_EQ(one.params.at("n"), id);
        one.done(json::value(id));
    }
    EXPECT_EQ(c.replies().size(), 5U);
    EXPECT_EQ(c.session->unanswered(), 0U);
}

TEST(Session, AnswersABatchOnceWhenAllIsDoneInTheOrderOfItsRequests) {
    Conversation c;
    c.send(R"([{"jsonrpc":"2.0","id":1,"method":"example.hold"},)"
           R"({"jsonrpc":"2.0","id":2,"method":"example.hold"},)"
           R"({"jsonrpc":"2.0","id":3,"method":"example.get_data"}])");
    auto first = c.held.take();
    c.held.take().done(json::value("b"));
    EXPECT_TRUE(c.replies().empty());
    first.done(json::value("a"));
    const auto replies = c.replies();
    ASSERT_EQ(replies.size(), 1U);
    const auto& batch = replies[0].as_array();
    ASSERT_EQ(batch.size(), 3U);
    EXPECT_EQ(batch[0].at("result"), "a");
    EXPECT_EQ(batch[1].at("result"), "b");
    EXPECT_EQ(batch[2].at("id"), 3);
}

TEST(Session, SaysNothingToABatchOfNotifications) {
    Conversation c;
    c.send(R"([{"jsonrpc":"2.0","method":"example.hold"},)"
           R"({"jsonrpc":"2.0","method":"example.update","params":["wrong"]}])");
    c.held.take().done(Error(ErrorKind::internal, "internal", "lost"));
    EXPECT_EQ(c.said(), "");
    EXPECT_EQ(c.session->unanswered(), 0U);
}

TEST(Session, PassesOverEmptyLinesAndTakesCarriageReturns) {
    Conversation c;
    c.session->take("\r\n\n  \t\r\n");
    EXPECT_EQ(c.said(), "");
    c.session->take("{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"example.get_data\"}\r\n");
    EXPECT_EQ(c.replies().size(), 1U);
}

TEST(Session, GoesOnAfterALineThatIsNotJson) {
    Conversation c;
    for (const std::string& bad :
         {std::string("{"), std::string("\xff\xfe"), std::string("\"\xc3\x28\""),
          std::string("[1e999]"), std::string("{\"a\":1}x"), std::string(200, '['),
          std::string("\"\\ud800\""), std::string("nul\0l", 5)}) {
        c.send(bad);
        const auto replies = c.replies();
        ASSERT_EQ(replies.size(), 1U) << bad;
        EXPECT_EQ(code_in(replies[0]), -32700) << bad;
        EXPECT_TRUE(replies[0].at("id").is_null());
    }
    c.call("1", "example.get_data");
    EXPECT_EQ(c.replies().at(0).at("id"), 1);
}

TEST(Session, TakesNestingUpToTheLimitAndNoDeeper) {
    const auto nested = [](std::size_t depth) {
        return std::string(depth, '[') + std::string(depth, ']');
    };
    Conversation c;
    c.send(nested(json_depth_max)); // a batch with one malformed element
    EXPECT_EQ(code_in(c.replies().at(0).at(0)), -32600);
    c.send(nested(json_depth_max + 1));
    EXPECT_EQ(code_in(c.replies().at(0)), -32700);
}

TEST(Session, TellsAWebClientWhatThisIsAndCloses) {
    for (const char* start :
         {"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n", "POST /rpc HTTP/1.1\r\n"}) {
        Conversation c;
        c.session->take(start);
        const auto replies = c.replies();
        ASSERT_EQ(replies.size(), 2U);
        EXPECT_EQ(code_in(replies[0]), -32700);
        EXPECT_EQ(reason_of(replies[0]), "speaks_http");
        EXPECT_EQ(reason_of(replies[1]), "speaks_http");
        EXPECT_TRUE(c.session->is_finished());
    }
}

TEST(Session, RefusesASecondRequestWithAnIdInFlight) {
    Conversation c;
    c.hold(1);
    c.hold(1);
    c.call("\"1\"", "example.get_data"); // another id
    auto replies = c.replies();
    ASSERT_EQ(replies.size(), 2U);
    EXPECT_EQ(reason_of(replies[0]), "id_in_use");
    EXPECT_EQ(replies[1].at("id"), "1");
    c.held.take().done(json::value(1));
    c.replies();
    c.call("1", "example.get_data"); // free again
    EXPECT_EQ(reason_of(c.replies().at(0)), "");
}

TEST(Session, NullIdsMayRepeat) {
    Conversation c;
    c.call("null", "example.hold");
    c.call("null", "example.hold");
    c.held.take().done(json::value(1));
    c.held.take().done(json::value(2));
    EXPECT_EQ(c.replies().size(), 2U);
}

TEST(Session, AnswersInFlightRequestsAfterTheEndOfInput) {
    Conversation c;
    c.hold(1);
    c.session->take(R"({"jsonrpc":"2.0","id":2,"method":"example.get_data"})"); // no line break
    EXPECT_TRUE(c.session->partial_line());
    EXPECT_FALSE(c.session->is_finished());
    c.session->end_of_input();
    EXPECT_FALSE(c.session->wants_input());
    EXPECT_FALSE(c.session->is_finished());
    c.held.take().done(json::value(1));
    EXPECT_EQ(c.replies().size(), 2U);
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Session, TellsOneUnfinishedLineFromTheNext) {
    Conversation c;
    EXPECT_FALSE(c.session->partial_line());
    c.session->take("{");
    const auto first = c.session->partial_line();
    ASSERT_TRUE(first);
    c.session->take("}");
    EXPECT_EQ(c.session->partial_line(), first);
    // A busy client's reads may all end within a line; none of them is late for that.
    c.session->take("\n{");
    ASSERT_TRUE(c.session->partial_line());
    EXPECT_NE(c.session->partial_line(), first);
    c.session->take("}\n");
    EXPECT_FALSE(c.session->partial_line());
}

TEST(Session, RefusesWhatTheCallerMayNotDo) {
    Conversation c{{}, Access::look};
    add_example(c.methods, example<Nothing>("example.tidy", Access::keep),
                [](const Call&, const json::object&) -> json::value { return 1; });
    c.call("1", "example.tidy");
    EXPECT_EQ(code_in(c.replies().at(0)), code_of(ErrorKind::refused));
}

TEST(Session, KeyAndDigestReachAWritingMethod) {
    Conversation c;
    std::vector<std::pair<std::string, std::string>> seen;
    add_example(c.methods, example<Numbers>("example.note", Access::keep, Effect::writes),
                [&](const Call& call, const json::object& params) -> json::value {
                    EXPECT_FALSE(params.contains("key"));
                    EXPECT_EQ(call.caller.name, "anna");
                    seen.emplace_back(call.key, call.digest);
                    return nullptr;
                });
    c.call("1", "example.note", R"({"key":"k1","a":1,"b":2})");
    c.call("2", "example.note", R"({"b":2,"a":1,"key":"k1"})");
    c.call("3", "example.note", R"({"a":2,"key":"k1"})");
    c.call("4", "example.note", R"({"a":1})");
    ASSERT_EQ(seen.size(), 4U);
    EXPECT_EQ(seen[0].first, "k1");
    EXPECT_EQ(seen[0], seen[1]);
    EXPECT_NE(seen[0].second, seen[2].second);
    EXPECT_EQ(seen[3], (std::pair<std::string, std::string>{}));
}

TEST(Session, AHandlerThatThrowsOrForgetsIsAnErrorToTheCallerOnly) {
    Conversation c;
    const auto add = [&](const char* name, const Start& start) {
        c.methods.add(example<Nothing>(name), "example", start);
    };
    add("bad.throws",
        [](const Call&, const json::object&, const Done&) { throw std::runtime_error("oops"); });
    add("bad.number", [](const Call&, const json::object&, const Done&) { throw 7; });
    add("bad.forgets", [](const Call&, const json::object&, const Done&) {});
    add("bad.twice", [](const Call&, const json::object&, const Done& done) {
        done(json::value(1));
        done(json::value(2));
    });
    int id = 0;
    for (const char* name : {"bad.throws", "bad.number", "bad.forgets"}) {
        c.call(std::to_string(++id), name);
        const auto replies = c.replies();
        ASSERT_EQ(replies.size(), 1U) << name;
        EXPECT_EQ(code_in(replies[0]), -32603) << name;
    }
    c.call("9", "bad.twice");
    const auto replies = c.replies();
    ASSERT_EQ(replies.size(), 1U);
    EXPECT_EQ(replies[0].at("result"), 1);
    EXPECT_EQ(c.session->unanswered(), 0U);
}

TEST(Session, AnswersMayComeFromAnyThreadAndAfterItsEnd) {
    std::optional<Conversation> c{std::in_place};
    c->hold(1);
    auto one = c->held.take();
    EXPECT_TRUE(one.call.listener->notify("example.happened", {}));
    c->session->hang_up();
    EXPECT_TRUE(one.call.cancelled.stop_requested());
    EXPECT_FALSE(one.call.listener->notify("example.happened", {}));
    const auto listener = one.call.listener;
    one.done(json::value(1));
    EXPECT_EQ(c->said(), "");
    EXPECT_TRUE(c->session->is_finished());
}

} // namespace
} // namespace barmkeep::tests
