#include "daemon/ledger/events.hpp"
#include "tests/ledger/cellar.hpp"

#include <condition_variable>
#include <thread>

namespace barmkeep::ledger {
namespace {

/// Keeps what it is sent; may read slowly.
class Ear final : public Listener {
public:
    bool notify(std::string_view method, json::object params) override {
        const std::lock_guard lock{mutex_};
        EXPECT_EQ(method, contract::event_notification);
        if (is_deaf_)
            return false;
        EXPECT_GT(room_, 0);
        --room_;
        heard_.push_back(params.at("sequence").as_int64());
        topics_.push_back(text(params, "topic"));
        changed_.notify_all();
        return true;
    }
    bool has_room() const override {
        const std::lock_guard lock{mutex_};
        return room_ > 0;
    }
    void when_room(std::function<void()> go_on) override {
        {
            const std::lock_guard lock{mutex_};
            if (room_ == 0) {
                for_room_ = std::move(go_on);
                changed_.notify_all();
                return;
            }
        }
        go_on();
    }
    void close(const Error& reason) override {
        const std::lock_guard lock{mutex_};
        closed_for_ = reason.reason();
        changed_.notify_all();
    }
    /// Takes no more than that many from now on.
    void has_room_for(int events) {
        std::function<void()> go_on;
        {
            const std::lock_guard lock{mutex_};
            room_ = events;
            if (room_ > 0)
                go_on.swap(for_room_);
        }
        if (go_on)
            go_on();
    }
    /// Waits until somebody waits for room.
    void wait_until_full() {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return static_cast<bool>(for_room_); });
    }
    /// Waits for the end, and answers the reason's word.
    std::string closed_for() {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return !closed_for_.empty(); });
        return closed_for_;
    }
    void go_deaf() {
        const std::lock_guard lock{mutex_};
        is_deaf_ = true;
    }
    /// Waits until the event of that number was heard.
    std::vector<std::int64_t> heard_until(std::int64_t sequence) {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return !heard_.empty() && heard_.back() >= sequence; });
        return heard_;
    }
    std::vector<std::int64_t> heard() {
        const std::lock_guard lock{mutex_};
        return heard_;
    }
    std::vector<std::string> topics() {
        const std::lock_guard lock{mutex_};
        return topics_;
    }

private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    int room_ = 1'000'000;
    std::function<void()> for_room_;
    std::string closed_for_;
    std::vector<std::int64_t> heard_;
    std::vector<std::string> topics_;
    bool is_deaf_ = false;
};

class EventsTest : public CellarTest {
protected:
    Call with(const std::shared_ptr<Ear>& ear) {
        Call call = cellar.anna;
        call.listener = ear;
        return call;
    }
    std::int64_t last() { return cellar.does("cellar.glance").at("sequence").as_int64(); }
    std::shared_ptr<Ear> ear = std::make_shared<Ear>();
};

TEST_F(EventsTest, AWatchAnswersTheStateAndThenSendsWhatHappens) {
    const auto answer = cellar.does(with(ear), "event.watch");
    EXPECT_EQ(answer.at("sequence"), 5);
    EXPECT_EQ(answer.at("state").at("sequence"), 5);
    buy("lids", 1, "1");
    plan();
    EXPECT_EQ(ear->heard_until(7), (std::vector<std::int64_t>{6, 7}));
    EXPECT_EQ(ear->topics(), (std::vector<std::string>{"entry.posted", "brew.changed"}));
}

TEST_F(EventsTest, ComingBackWithTheLastNumberMissesNothing) {
    const auto answer = cellar.does(with(ear), "event.watch", {{"after", 2}});
    EXPECT_EQ(answer.at("sequence"), 2);
    EXPECT_FALSE(answer.contains("state"));
    plan();
    EXPECT_EQ(ear->heard_until(6), (std::vector<std::int64_t>{3, 4, 5, 6}));
}

TEST_F(EventsTest, TheEventAtWhichAWatchBeginsIsNotSentAgain) {
    const auto answer = cellar.does(with(ear), "event.watch", {{"after", last()}});
    EXPECT_EQ(answer.at("sequence"), 5);
    plan();
    EXPECT_EQ(ear->heard_until(6), (std::vector<std::int64_t>{6}));
}

TEST_F(EventsTest, WhatWasMissedIsSentByTheTimeOfTheAnswer) {
    cellar.does(with(ear), "event.watch", {{"after", 2}});
    EXPECT_EQ(ear->heard(), (std::vector<std::int64_t>{3, 4, 5}));
}

TEST_F(EventsTest, AMissedYearComesInPagesWithoutAGap) {
    json::array steps;
    for (int i = 0; i < 100; ++i)
        steps.push_back(json::object{{"method", "brew.plan"},
                                     {"params", {{"day", "2026-04-01"}, {"name", "ale"}}}});
    for (int i = 0; i < 13; ++i) // more than two pages, and a part of a third
        cellar.does("ledger.batch", {{"steps", steps}});
    cellar.does(with(ear), "event.watch", {{"after", 3}});
    const auto heard = ear->heard_until(1305);
    ASSERT_EQ(heard.size(), 1302U);
    for (std::size_t i = 0; i < heard.size(); ++i)
        ASSERT_EQ(heard[i], static_cast<std::int64_t>(i) + 4);
    plan();
    EXPECT_EQ(ear->heard_until(1306).size(), 1303U);
}

TEST_F(EventsTest, AReaderFarBehindIsSentNoMoreThanItHasRoomFor) {
    ear->has_room_for(2);
    cellar.does(with(ear), "event.watch", {{"after", 0}});
    ear->wait_until_full();
    EXPECT_EQ(ear->heard(), (std::vector<std::int64_t>{1, 2}));
    plan(); // what happens meanwhile has its place behind them
    ear->has_room_for(3);
    ear->wait_until_full();
    EXPECT_EQ(ear->heard(), (std::vector<std::int64_t>{1, 2, 3, 4, 5}));
    ear->has_room_for(100);
    EXPECT_EQ(ear->heard_until(6), (std::vector<std::int64_t>{1, 2, 3, 4, 5, 6}));
}

TEST_F(EventsTest, ASlowReaderFallsBehindAndIsSentTheRestFromTheLedger) {
    cellar.does(with(ear), "event.watch");
    plan();
    EXPECT_EQ(ear->heard_until(6), (std::vector<std::int64_t>{6}));
    ear->has_room_for(1);
    for (int i = 0; i < 4; ++i)
        plan();
    ear->wait_until_full();
    EXPECT_EQ(ear->heard(), (std::vector<std::int64_t>{6, 7}));
    ear->has_room_for(100);
    EXPECT_EQ(ear->heard_until(10), (std::vector<std::int64_t>{6, 7, 8, 9, 10}));
    plan();
    EXPECT_EQ(ear->heard_until(11).size(), 6U);
}

TEST_F(EventsTest, AReaderSoSlowThatItsEventsAreGoneIsToldSo) {
    Folder other;
    Cellar small{Ledger::Options{.file = other.file("cellar.db"), .events_kept = 3}};
    ear->has_room_for(0);
    small.does(with(ear), "event.watch");
    for (int i = 0; i < 5; ++i)
        small.does("brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}});
    ear->wait_until_full();
    ear->has_room_for(100);
    EXPECT_EQ(ear->closed_for(), "events_gone");
    EXPECT_TRUE(ear->heard().empty());
}

TEST_F(EventsTest, MissedEventsAreReadNoMoreThanAPageAtATime) {
    Store store{{folder.file("cellar.db"), true, {}, 0}};
    const auto page = events_after(View{store, Instant{}}, 1, 3);
    ASSERT_EQ(page.size(), 3U);
    EXPECT_EQ(page.front().sequence, 2);
    EXPECT_EQ(events_after(View{store, Instant{}}, 4, 3).size(), 1U);
}

TEST_F(EventsTest, NoneIsLostOrDoubledWhileOthersWrite) {
    std::vector<std::thread> writers;
    constexpr int each = 40;
    for (int w = 0; w < 3; ++w)
        writers.emplace_back([&] {
            for (int i = 0; i < each; ++i)
                plan();
        });
    std::vector<std::shared_ptr<Ear>> ears;
    for (int i = 0; i < 10; ++i) {
        ears.push_back(std::make_shared<Ear>());
        cellar.does(with(ears.back()), "event.watch", {{"after", 0}});
    }
    for (auto& writer : writers)
        writer.join();
    std::vector<std::int64_t> all(5 + 3 * each);
    for (std::size_t i = 0; i < all.size(); ++i)
        all[i] = static_cast<std::int64_t>(i) + 1;
    for (const auto& one : ears)
        EXPECT_EQ(one->heard_until(all.back()), all);
}

TEST_F(EventsTest, NumbersThatAreGoneOrNeverWereAreRefused) {
    EXPECT_EQ(cellar.refusal(with(ear), "event.watch", {{"after", 6}}).reason(), "events_ahead");
    Folder other;
    Cellar small{Ledger::Options{.file = other.file("cellar.db"), .events_kept = 3}};
    for (int i = 0; i < 5; ++i)
        small.does("brew.plan", {{"day", "2026-04-01"}, {"name", "ale"}});
    EXPECT_EQ(small.refusal(with(ear), "event.watch", {{"after", 1}}).reason(), "events_gone");
    small.does(with(ear), "event.watch", {{"after", 2}});
    EXPECT_EQ(ear->heard_until(5), (std::vector<std::int64_t>{3, 4, 5}));
}

TEST_F(EventsTest, AWatchEndsWhenStoppedWhenDeafAndWhenGone) {
    cellar.does(with(ear), "event.watch");
    cellar.does(with(ear), "event.stop");
    plan();
    EXPECT_TRUE(ear->heard().empty());
    cellar.does(with(ear), "event.watch", {{"after", last()}});
    ear->go_deaf();
    plan();
    plan();
    EXPECT_TRUE(ear->heard().empty());
    auto gone = std::make_shared<Ear>();
    const std::weak_ptr<Ear> left = gone;
    cellar.does(with(gone), "event.watch");
    plan(); // by its answer the watch has begun and the reader has let go of the call
    cellar.does("event.stop");
    cellar.ledger.stop();
    gone.reset();
    EXPECT_TRUE(left.expired()); // the watch held it weakly
}

TEST_F(EventsTest, ASecondWatchOfOneConnectionReplacesTheFirst) {
    cellar.does(with(ear), "event.watch");
    cellar.does(with(ear), "event.watch");
    plan();
    EXPECT_EQ(ear->heard_until(6), (std::vector<std::int64_t>{6}));
}

TEST_F(EventsTest, OneWithoutAConnectionCannotWatch) {
    EXPECT_EQ(cellar.refusal("event.watch").reason(), "no_listener");
}

TEST_F(EventsTest, TheListenerHearsEachEventInOrderBeforeTheAnswer) {
    std::vector<std::int64_t> heard;
    cellar.ledger.on_event([&](const contract::Event& event) { heard.push_back(event.sequence); });
    plan();
    buy("lids", 1, "1");
    EXPECT_EQ(heard, (std::vector<std::int64_t>{6, 7}));
}

TEST_F(EventsTest, ADayBeginsOnceAndByTheCellarsClock) {
    std::vector<std::string> days;
    cellar.ledger.on_event([&](const contract::Event& event) {
        if (event.topic == "day.begun")
            days.push_back(text(event.about, "day"));
    });
    cellar.ledger.note_time();
    cellar.ledger.note_time();
    cellar.clock.set(parse_instant("2026-03-15T00:00:00Z"));
    cellar.ledger.note_time();
    plan(); // goes behind them
    EXPECT_EQ(days, (std::vector<std::string>{"2026-03-14", "2026-03-15"}));
}

TEST_F(EventsTest, APluginPostsOnlyUnderItsName) {
    const Call plugin = caller("canning for anna", Access::keep, "canning");
    cellar.does(plugin, "event.post",
                {{"topic", "canning.drop"}, {"about", json::object{{"run", 1}}}});
    EXPECT_EQ(cellar.refusal(plugin, "event.post", {{"topic", "starter.ready"}}).reason(),
              "bad_topic");
    EXPECT_EQ(cellar.refusal("event.post", {{"topic", "canning.drop"}}).reason(), "not_a_plugin");
    EXPECT_EQ(cellar
                  .refusal(plugin, "event.post",
                           {{"topic", "canning.drop"},
                            {"about", json::object{{"text", std::string(17000, 'x')}}}})
                  .reason(),
              "too_large");
}

} // namespace
} // namespace barmkeep::ledger
