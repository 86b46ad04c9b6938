// Limits that only a real connection has, and how it ends.
#include "tests/socket/cellar_socket.hpp"

#include <gtest/gtest.h>

namespace barmkeep::tests {
namespace {

TEST(ServerLimits, AClientStillWritingItsEndlessLineReadsWhy) {
    protocol::Limits limits;
    limits.line_bytes_max = 1000;
    CellarSocket cellar{limits};
    PlainClient client{cellar.path()};
    // Far more than the buffers between us hold: whoever closes at once breaks this send.
    EXPECT_TRUE(client.send(std::string(4 << 20, 'x')));
    EXPECT_EQ(reason_of(client.reply()), "line_too_long");
    EXPECT_EQ(reason_of(client.reply()), "line_too_long");
    EXPECT_EQ(client.line(), std::nullopt);
}

TEST(ServerLimits, AClientThatKeepsWritingIsGivenUpAfterTheFarewell) {
    protocol::Limits limits;
    limits.line_bytes_max = 1000;
    auto options = CellarSocket::own();
    options.farewell = std::chrono::milliseconds{20};
    CellarSocket cellar{limits, options};
    PlainClient client{cellar.path()};
    while (client.send(std::string(1 << 16, 'x'))) {
    }
    SUCCEED(); // the sending ended because the connection did
}

TEST(ServerLimits, ALineNotEndedInTimeIsToldSo) {
    auto options = CellarSocket::own();
    options.partial_line = std::chrono::milliseconds{20};
    CellarSocket cellar{{}, options};
    PlainClient client{cellar.path()};
    EXPECT_EQ(client.ask(request(1, "example.get_data")).at("id"), 1);
    client.send("{\"jsonrpc\"");
    EXPECT_EQ(reason_of(client.reply()), "line_unfinished");
    EXPECT_EQ(client.line(), std::nullopt);
}

TEST(ServerLimits, AnIdleClientMayStay) {
    auto options = CellarSocket::own();
    options.partial_line = std::chrono::milliseconds{1};
    options.farewell = std::chrono::milliseconds{1};
    CellarSocket cellar{{}, options};
    PlainClient idle{cellar.path()};
    EXPECT_EQ(idle.ask(request(1, "example.get_data")).at("id"), 1);
    {
        // By the time another client was timed out and closed, this one's turn would have come.
        PlainClient late{cellar.path()};
        late.send("{");
        EXPECT_EQ(reason_of(late.reply()), "line_unfinished");
        EXPECT_EQ(late.line(), std::nullopt);
    }
    EXPECT_EQ(idle.ask(request(2, "example.get_data")).at("id"), 2);
}

TEST(ServerLimits, AClientThatDoesNotReadIsNoLongerReadFrom) {
    protocol::Limits limits;
    limits.reply_bytes_max = 64 << 10;
    CellarSocket cellar{limits};
    PlainClient client{cellar.path()};
    std::string flood;
    for (int id = 0; id < 20'000; ++id)
        flood += request(id, "example.get_data") + '\n';
    const std::size_t taken = client.send_until_stuck(flood, flood.size());
    EXPECT_LT(taken, flood.size());
    // Nothing was lost, and no one was thrown out: it only has to read.
    std::jthread rest{[&] {
        client.send(std::string_view(flood).substr(taken));
    }};
    for (int id = 0; id < 20'000; ++id)
        ASSERT_EQ(client.reply().at("id"), id);
}

TEST(ServerLimits, AReaderTooSlowForItsNotificationsIsToldSo) {
    protocol::Limits limits;
    limits.reply_bytes_max = 64 << 10;
    CellarSocket cellar{limits};
    PlainClient client{cellar.path()};
    client.send(request(1, "example.hold") + '\n');
    const auto one = cellar.held.take();
    int sent = 0;
    while (one.call.listener->notify("event.happened", {{"sequence", sent}}))
        ++sent;
    int read = 0;
    json::value said = client.reply();
    for (; said.at("method") == "event.happened"; said = client.reply())
        EXPECT_EQ(said.at("params").at("sequence"), read++); // in order, without a gap
    EXPECT_EQ(reason_of(said), "reader_too_slow");
    // The notification that found no room was not taken, and the sender got the reason.
    EXPECT_GE(sent, read);
    EXPECT_LE(sent - read, 1);
    EXPECT_EQ(client.line(), std::nullopt);
    EXPECT_TRUE(one.call.cancelled.stop_requested());
}

TEST(ServerLimits, AClientThatNeverReadsIsGivenUp) {
    protocol::Limits limits;
    limits.reply_bytes_max = 64 << 10;
    auto options = CellarSocket::own();
    options.write = std::chrono::milliseconds{20};
    CellarSocket cellar{limits, options};
    PlainClient client{cellar.path()};
    std::string flood;
    for (int id = 0; id < 20'000; ++id)
        flood += request(id, "example.get_data") + '\n';
    EXPECT_FALSE(client.send(flood)); // ends because the connection does
}

TEST(Drain, AnswersWhatIsInFlightRefusesWhatIsNewAndThenCallsBack) {
    CellarSocket cellar;
    PlainClient busy{cellar.path()};
    PlainClient idle{cellar.path()};
    (void)idle.ask(request(1, "example.get_data"));
    busy.send(request(1, "example.hold") + '\n');
    const auto one = cellar.held.take();
    std::promise<void> drained;
    cellar.server->drain([&] { drained.set_value(); });
    EXPECT_EQ(reason_of(idle.reply()), "stopping");
    EXPECT_EQ(idle.line(), std::nullopt);
    EXPECT_FALSE(std::filesystem::exists(cellar.path()));
    EXPECT_THROW(PlainClient{cellar.path()}, std::runtime_error);
    auto refused = busy.ask(request(2, "example.get_data"));
    while (refused.as_object().contains("result")) // read before the connection heard of the end
        refused = busy.ask(request(2, "example.get_data"));
    EXPECT_EQ(reason_of(refused), "stopping");
    one.done(json::value("done"));
    EXPECT_EQ(busy.reply().at("result"), "done");
    EXPECT_EQ(reason_of(busy.reply()), "stopping");
    EXPECT_EQ(busy.line(), std::nullopt);
    drained.get_future().get();
    EXPECT_EQ(cellar.server->connections(), 0U);
}

TEST(Drain, WithoutClientsIsDoneAtOnce) {
    CellarSocket cellar;
    std::promise<void> drained;
    cellar.server->drain([&] { drained.set_value(); });
    drained.get_future().get();
}

TEST(Drain, DoesNotWaitForAClientThatIsBeingSeenOff) {
    protocol::Limits limits;
    limits.line_bytes_max = 1000;
    auto options = CellarSocket::own();
    options.farewell = std::chrono::hours{1};
    CellarSocket cellar{limits, options};
    PlainClient client{cellar.path()};
    client.send(std::string(2000, 'x'));
    EXPECT_EQ(reason_of(client.reply()), "line_too_long");
    EXPECT_EQ(reason_of(client.reply()), "line_too_long");
    std::promise<void> drained;
    cellar.server->drain([&] { drained.set_value(); });
    drained.get_future().get(); // the client is still there
}

TEST(Loop, RunsWorkTicksAndSignals) {
    socket::Loop loop;
    int ticks = 0;
    loop.every(std::chrono::milliseconds{1}, [&] {
        if (++ticks == 2)
            ::raise(SIGUSR1);
    });
    int signals = 0;
    loop.on_signals({SIGUSR1}, [&](int signal) {
        EXPECT_EQ(signal, SIGUSR1);
        if (++signals == 2)
            return loop.stop();
        ::raise(SIGUSR1);
    });
    bool posted = false;
    loop.post([&] { posted = true; });
    loop.run();
    EXPECT_TRUE(posted);
    EXPECT_EQ(signals, 2);
    EXPECT_GE(ticks, 2);
}

TEST(Loop, LetsAFaultOfAnyThreadOut) {
    socket::Loop loop;
    loop.post([] { throw std::runtime_error("ours"); });
    EXPECT_THROW(loop.run(3), std::runtime_error);
}

} // namespace
} // namespace barmkeep::tests
