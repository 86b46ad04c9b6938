#include "sdk/client/events.hpp"

#include "tests/client/fake_cellar.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::client {
namespace {

using test::FakeDaemon;
using namespace std::chrono_literals;

ClientOptions options_for(const FakeDaemon& daemon) {
    return {.socket = daemon.socket(),
            .connect_time_out = 5s,
            .time_out = 20s,
            .attempts_max = 3,
            .pause_first = 1ms,
            .pause_max = 2ms};
}

TEST(Events, BeginWithTheStateAndGoOnWithWhatHappens) {
    FakeDaemon daemon;
    daemon.post_event("good.changed");
    EventStream events{options_for(daemon)};
    ASSERT_TRUE(events.state().has_value());
    EXPECT_EQ(to_text(events.state()->today), "2026-03-14");
    EXPECT_EQ(events.last(), 1);
    daemon.post_event("lot.changed", {{"code", "J14X"}});
    const auto event = events.next();
    ASSERT_TRUE(event.has_value());
    EXPECT_EQ(event->sequence, 2);
    EXPECT_EQ(event->topic, "lot.changed");
    EXPECT_EQ(event->about.at("code"), "J14X");
}

TEST(Events, GoOnAfterANumberThatIsGiven) {
    FakeDaemon daemon;
    for (int i = 0; i < 3; ++i)
        daemon.post_event("entry.posted");
    EventStream events{options_for(daemon), 1};
    EXPECT_FALSE(events.state().has_value());
    EXPECT_EQ(events.next()->sequence, 2);
    EXPECT_EQ(events.next()->sequence, 3);
}

TEST(Events, MissNoneWhenTheConnectionIsLost) {
    FakeDaemon daemon;
    EventStream events{options_for(daemon)};
    daemon.post_event("entry.posted");
    EXPECT_EQ(events.next()->sequence, 1);
    daemon.drop_watchers();
    daemon.post_event("entry.posted");
    daemon.post_event("day.begun");
    EXPECT_EQ(events.next()->sequence, 2);
    EXPECT_EQ(events.next()->topic, "day.begun");
    const auto watches = daemon.requests("event.watch");
    ASSERT_EQ(watches.size(), 2U);
    EXPECT_EQ(watches.back().at("params").at("after"), 1);
}

TEST(Events, OutliveARestart) {
    FakeDaemon daemon;
    EventStream events{options_for(daemon)};
    daemon.post_event("entry.posted");
    daemon.stop();
    daemon.start();
    daemon.post_event("entry.posted");
    EXPECT_EQ(events.next()->sequence, 1);
    EXPECT_EQ(events.next()->sequence, 2);
}

TEST(Events, GiveUpWhenTheDaemonStaysAway) {
    FakeDaemon daemon;
    EventStream events{options_for(daemon)};
    daemon.stop();
    try {
        (void)events.next();
        FAIL() << "no error was thrown";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::unavailable);
    }
}

TEST(Events, TellANumberThatWasLeftOut) {
    FakeDaemon daemon;
    EventStream events{options_for(daemon)};
    daemon.post_event_with_gap();
    try {
        (void)events.next();
        FAIL() << "no error was thrown";
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "event_gap");
        EXPECT_THAT(error.hint(), testing::HasSubstr("--after 0"));
    }
}

TEST(Events, EndWhenInterrupted) {
    FakeDaemon daemon;
    StopButton button;
    EventStream events{options_for(daemon), std::nullopt, &button};
    daemon.post_event("entry.posted");
    std::vector<std::int64_t> seen;
    for (const auto& event : events) {
        seen.push_back(event.sequence);
        button.press();
    }
    EXPECT_EQ(seen, std::vector<std::int64_t>{1});
}

TEST(StopButtons, AreTakenOnceForEachPress) {
    StopButton button;
    EXPECT_FALSE(button.take());
    button.press();
    button.press();
    EXPECT_TRUE(button.take());
    EXPECT_TRUE(button.take());
    EXPECT_FALSE(button.take());
}

} // namespace
} // namespace barmkeep::client
