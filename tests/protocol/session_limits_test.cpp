// Each limit, with its spoken reason.
#include "tests/protocol/conversation.hpp"

#include <gtest/gtest.h>

namespace barmkeep::tests {
namespace {

protocol::Limits with_little_room() {
    protocol::Limits limits;
    limits.reply_bytes_max = 1000;
    return limits;
}

TEST(Limits, ALineTooLongIsAnsweredThenTheConnectionEnds) {
    protocol::Limits limits;
    limits.line_bytes_max = 100;
    Conversation c{limits};
    c.call("1", "example.get_data");
    c.session->take(std::string(101, ' '));
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 3U);
    EXPECT_EQ(said[0].at("id"), 1);
    EXPECT_EQ(reason_of(said[1]), "line_too_long");
    EXPECT_TRUE(said[1].at("id").is_null());
    EXPECT_EQ(said[2].at("method"), "connection.closing");
    EXPECT_EQ(reason_of(said[2]), "line_too_long");
    EXPECT_TRUE(c.session->is_finished());
    c.call("2", "example.get_data");
    EXPECT_EQ(c.said(), "");
    EXPECT_TRUE(c.session->wants_input()); // to throw it away
}

TEST(Limits, ABatchTooLongIsRefusedAsAWhole) {
    protocol::Limits limits;
    limits.batch_length_max = 2;
    Conversation c{limits};
    const std::string one = R"({"jsonrpc":"2.0","id":1,"method":"example.hold"})";
    c.send("[" + one + "," + one + "," + one + "]");
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 1U);
    EXPECT_EQ(reason_of(said[0]), "batch_too_long");
    EXPECT_EQ(c.held.count(), 0U);
    EXPECT_FALSE(c.session->is_closing());
}

TEST(Limits, RequestsOverThoseAtWorkWaitAndReadingPauses) {
    protocol::Limits limits;
    limits.in_flight_max = 2;
    limits.unanswered_max = 8;
    Conversation c{limits};
    for (int id = 1; id <= 3; ++id)
        c.hold(id);
    EXPECT_TRUE(c.session->wants_input());
    c.hold(4);
    EXPECT_FALSE(c.session->wants_input());
    EXPECT_EQ(c.held.count(), 2U);
    const int wakes = c.wakes;
    c.held.take().done(json::value(1));
    EXPECT_GT(c.wakes, wakes); // whoever reads must hear of it
    EXPECT_TRUE(c.session->wants_input());
    while (c.held.count() > 0)
        c.held.take().done(json::value(1));
    EXPECT_EQ(c.replies().size(), 4U);
}

TEST(Limits, TooManyUnansweredRequestsAreToldSoAndTheConnectionEnds) {
    protocol::Limits limits;
    limits.unanswered_max = 3;
    Conversation c{limits};
    for (int id = 1; id <= 4; ++id)
        c.hold(id);
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 2U);
    EXPECT_EQ(said[0].at("id"), 4);
    EXPECT_EQ(reason_of(said[0]), "too_many_in_flight");
    EXPECT_EQ(reason_of(said[1]), "too_many_in_flight");
    for (int id = 1; id <= 3; ++id) {
        auto one = c.held.take();
        EXPECT_TRUE(one.call.cancelled.stop_requested());
        one.done(json::value(1));
    }
    EXPECT_EQ(c.said(), "");
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Limits, ABatchThatFindsNoPlacesIsToldSo) {
    protocol::Limits limits;
    limits.unanswered_max = 3;
    Conversation c{limits};
    c.hold(1);
    c.hold(2);
    c.send(R"([{"jsonrpc":"2.0","id":3,"method":"example.hold"},)"
           R"({"jsonrpc":"2.0","id":4,"method":"example.hold"}])");
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 2U);
    EXPECT_EQ(reason_of(said[0]), "too_many_in_flight");
    EXPECT_EQ(reason_of(said[1]), "too_many_in_flight");
    ASSERT_EQ(c.held.count(), 2U);
    for (int id = 1; id <= 2; ++id)
        c.held.take().done(json::value(1));
}

/// Only a batch can be longer than the unanswered requests may be many, where there is none yet.
TEST(Limits, NothingOfABatchBeginsOnceItHasClosedTheConnection) {
    protocol::Limits limits;
    limits.in_flight_max = 1;
    limits.unanswered_max = 3;
    Conversation c{limits};
    std::string batch;
    for (int id = 1; id <= 8; ++id)
        batch += std::string(id == 1 ? "[" : ",") + R"({"jsonrpc":"2.0","id":)" +
                 std::to_string(id) + R"(,"method":"example.hold"})";
    c.send(batch + "]");
    EXPECT_EQ(reason_of(c.replies().back()), "too_many_in_flight");
    EXPECT_TRUE(c.session->is_closing());
    EXPECT_EQ(c.session->unanswered(), 1U) << "what waited is forgotten";
    c.held.take().done(json::value(1));
    EXPECT_EQ(c.held.count(), 0U);
}

TEST(Limits, MemoryOfWaitingRequestsIsBoundedByNotReading) {
    protocol::Limits limits;
    limits.in_flight_max = 1;
    limits.line_bytes_max = 1000;
    Conversation c{limits};
    c.hold(1);
    for (int id = 2; id <= 3; ++id) {
        EXPECT_TRUE(c.session->wants_input());
        c.call(std::to_string(id), "example.hold", "[\"" + std::string(600, 'x') + "\"]");
    }
    EXPECT_FALSE(c.session->wants_input());
    for (int id = 1; id <= 3; ++id)
        c.held.take().done(json::value(1));
    EXPECT_TRUE(c.session->wants_input());
}

TEST(Limits, AReaderTooSlowForItsRepliesIsToldSoAndTheConnectionEnds) {
    Conversation c{with_little_room()};
    c.hold(1);
    c.hold(2);
    c.hold(3);
    const json::value large(std::string(400, 'x'));
    c.held.take().done(large);
    EXPECT_TRUE(c.session->wants_input());
    c.held.take().done(large);
    EXPECT_FALSE(c.session->wants_input()); // half full: nothing new until it reads
    c.held.take().done(large);
    EXPECT_TRUE(c.session->is_closing());
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 3U);
    EXPECT_EQ(said[1].at("id"), 2);
    EXPECT_EQ(reason_of(said[2]), "reader_too_slow");
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Limits, WhoSendsMuchWaitsUntilTheReaderHasMadeRoom) {
    Conversation c{with_little_room()};
    c.hold(1);
    const auto one = c.held.take();
    Listener& listener = *one.call.listener;
    int went_on = 0;
    const auto go_on = [&] {
        ++went_on;
    };
    listener.when_room(go_on); // there is some: on the spot
    EXPECT_EQ(went_on, 1);
    int sent = 0;
    while (listener.has_room())
        ASSERT_TRUE(listener.notify("event.happened", {{"sequence", ++sent}}));
    EXPECT_GT(sent, 3);
    EXPECT_FALSE(c.session->is_closing());
    listener.when_room(go_on);
    listener.when_room(go_on);
    EXPECT_EQ(went_on, 1);
    EXPECT_EQ(c.replies().size(), static_cast<std::size_t>(sent));
    EXPECT_EQ(went_on, 3);
    EXPECT_TRUE(listener.has_room());
}

TEST(Limits, WhatWaitsForRoomGoesWithTheConnection) {
    Conversation c{with_little_room()};
    c.hold(1);
    const auto one = c.held.take();
    while (one.call.listener->has_room())
        one.call.listener->notify("event.happened", {{"sequence", 1}});
    auto kept = std::make_shared<int>(1);
    const std::weak_ptr<int> left = kept;
    one.call.listener->when_room([kept = std::move(kept)] { FAIL() << *kept; });
    c.session->hang_up();
    EXPECT_TRUE(left.expired());
}

TEST(Limits, AListenerEndsTheConnectionWithAReason) {
    Conversation c;
    c.hold(1);
    const auto one = c.held.take();
    one.call.listener->close(Error(ErrorKind::conflict, "events_gone", "Too late."));
    EXPECT_EQ(reason_of(c.replies().back()), "events_gone");
    EXPECT_TRUE(c.session->is_finished());
}

TEST(Limits, NotificationsCountAgainstTheSlowReaderToo) {
    Conversation c{with_little_room()};
    c.hold(1);
    const auto one = c.held.take();
    int sent = 0;
    while (one.call.listener->notify("event.happened", {{"sequence", sent}}))
        ASSERT_LT(++sent, 100);
    EXPECT_GT(sent, 5);
    EXPECT_EQ(reason_of(c.replies().back()), "reader_too_slow");
}

TEST(Limits, AReplyTooLongIsReplacedByAnError) {
    Conversation c{with_little_room()};
    c.hold(1);
    c.held.take().done(json::value(std::string(1001, 'x')));
    const auto long_result = c.replies().at(0);
    EXPECT_EQ(reason_of(long_result), "reply_too_long");
    EXPECT_NE(hint_of(long_result).find("this was done"), std::string::npos);
    c.hold(1);
    c.held.take().done(Error(ErrorKind::conflict, "no", std::string(1001, 'x')));
    const auto long_refusal = c.replies().at(0);
    EXPECT_EQ(reason_of(long_refusal), "reply_too_long");
    EXPECT_EQ(hint_of(long_refusal).find("this was done"), std::string::npos);
    c.send(R"([{"jsonrpc":"2.0","id":2,"method":"example.hold"},)"
           R"({"jsonrpc":"2.0","id":3,"method":"example.hold"},)"
           R"({"jsonrpc":"2.0","method":"example.hold"}])");
    c.held.take().done(json::value(std::string(500, 'x')));
    c.held.take().done(json::value(std::string(500, 'x')));
    c.held.take().done(json::value(std::string(5000, 'x'))); // a notification: never sent
    const auto said = c.replies();
    ASSERT_EQ(said.size(), 1U);
    const auto& batch = said[0].as_array();
    ASSERT_EQ(batch.size(), 2U);
    EXPECT_TRUE(batch[0].as_object().contains("result"));
    EXPECT_EQ(reason_of(batch[1]), "reply_too_long");
    EXPECT_FALSE(c.session->is_closing());
}

} // namespace
} // namespace barmkeep::tests
