#include "tests/executor/by_hand.hpp"

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <future>
#include <gmock/gmock.h>
#include <spdlog/sinks/ostream_sink.h>
#include <sstream>
#include <system_error>

namespace barmkeep::executor::test {
namespace {

using namespace std::chrono_literals;
using testing::ElementsAre;
using testing::HasSubstr;

class ExecutorTest : public testing::Test {
protected:
    ~ExecutorTest() override {
        gate.open();
        executor.reset();
    }

    Executor& with(std::size_t threads, std::size_t waiting_max = 100) {
        Executor::Options options;
        options.threads = threads;
        options.waiting_max = waiting_max;
        options.deadlines = deadlines;
        options.log = log;
        options.begin = begin;
        return executor.emplace(options);
    }
    /// A task that stands at the gate.
    Task standing(Lane lane = Lane::look) {
        Task task;
        task.lane = lane;
        task.work = [this] {
            gate.pass();
        };
        return task;
    }
    /// A task that notes its name.
    Task noting(const std::string& name, Lane lane = Lane::look, TaskCaller caller = {}) {
        Task task;
        task.lane = lane;
        task.caller = caller;
        task.work = [this, name] {
            const std::scoped_lock lock{mutex};
            done.push_back(name);
        };
        return task;
    }
    /// Submits a task and waits for its end.
    void run(Lane lane = Lane::look, const std::string& group = {}) {
        const auto ended = std::make_shared<std::promise<void>>();
        Task task;
        task.lane = lane;
        task.group = group;
        task.work = [ended] {
            ended->set_value();
        };
        executor->submit(std::move(task));
        ended->get_future().get();
    }
    std::string refusal(Task task) {
        try {
            executor->submit(std::move(task));
        } catch (const Error& error) {
            return error.reason();
        }
        return "none";
    }

    EndsInTime ends_in_time;
    Gate gate;
    std::ostringstream lines;
    std::shared_ptr<spdlog::logger> log = std::make_shared<spdlog::logger>(
        "test", std::make_shared<spdlog::sinks::ostream_sink_mt>(lines));
    std::shared_ptr<HandDeadlines> deadlines = std::make_shared<HandDeadlines>();
    Executor::BeginThread begin;
    std::mutex mutex; ///< guards what was done
    std::vector<std::string> done;
    std::optional<Executor> executor;
};

TEST_F(ExecutorTest, TheLogGoesFirstThenWhatWritesThenWhatLooks) {
    with(1).submit(standing());
    gate.wait_for(1);
    for (const Lane lane : {Lane::look, Lane::write, Lane::log})
        executor->submit(noting(std::string(to_string(lane)), lane));
    EXPECT_EQ(executor->counters(Lane::look).waiting, 1u);
    gate.open();
    executor->stop();
    EXPECT_THAT(done, ElementsAre("log", "write", "look"));
    EXPECT_EQ(executor->counters(Lane::look).done, 2u);
    EXPECT_EQ(executor->counters(Lane::log).done, 1u);
}

TEST_F(ExecutorTest, CallersTakeTurnsHoweverMuchOneAsks) {
    with(1).submit(standing());
    gate.wait_for(1);
    for (const auto* name : {"anna 1", "anna 2", "anna 3"})
        executor->submit(noting(name, Lane::look, 1));
    executor->submit(noting("ben 1", Lane::look, 2));
    executor->submit(noting("ben 2", Lane::look, 2));
    gate.open();
    executor->stop();
    EXPECT_THAT(done, ElementsAre("anna 1", "ben 1", "anna 2", "ben 2", "anna 3"));
}

TEST_F(ExecutorTest, OneThreadIsKeptForTheLog) {
    with(2).submit(standing());
    executor->submit(standing(Lane::write));
    gate.wait_for(1);
    run(Lane::log);
    EXPECT_EQ(gate.came(), 1) << "the other waits, for the second thread is not for it";
}

TEST_F(ExecutorTest, OnePluginHasAtMostHalfOfTheThreads) {
    with(5); // four of them not for the log
    for (int i = 0; i < 3; ++i) {
        Task task = standing();
        task.group = "canning";
        executor->submit(std::move(task));
    }
    gate.wait_for(2);
    run(Lane::look, "starter");
    run(Lane::look);
    run(Lane::log, "canning"); // what it logs is not counted
    EXPECT_EQ(executor->counters(Lane::look).waiting, 1u);
    gate.open();
    executor->stop();
    EXPECT_EQ(gate.most_at_once(), 2);
    EXPECT_EQ(gate.came(), 3);
}

TEST_F(ExecutorTest, OneCallerHasAtMostHalfOfTheThreads) {
    with(5);
    for (int i = 0; i < 3; ++i) {
        Task task = standing();
        task.caller = 7;
        executor->submit(std::move(task));
    }
    gate.wait_for(2);
    run();
    EXPECT_EQ(executor->counters(Lane::look).waiting, 1u);
    gate.open();
    executor->stop();
    EXPECT_EQ(gate.most_at_once(), 2);
}

TEST_F(ExecutorTest, OneUserHasAtMostHalfOfTheThreadsHoweverManyTheConnections) {
    with(5);
    for (std::uint64_t connection = 1; connection <= 3; ++connection) {
        Task task = standing();
        task.caller = {connection, 1001};
        executor->submit(std::move(task));
    }
    gate.wait_for(2);
    std::promise<void> other;
    Task task;
    task.caller = {4, 1002};
    task.work = [&] {
        other.set_value();
    };
    executor->submit(std::move(task));
    other.get_future().get();
    EXPECT_EQ(executor->counters(Lane::look).waiting, 1u);
    EXPECT_GE(executor->counters(Lane::look).running, 2u); // the other one may still be counted
    gate.open();
    executor->stop();
    EXPECT_EQ(gate.most_at_once(), 2);
    EXPECT_EQ(gate.came(), 3);
}

TEST_F(ExecutorTest, AUserMayHaveHalfOfWhatCanWait) {
    with(1, 8).submit(standing());
    gate.wait_for(1);
    const auto of = [&](std::uint64_t connection, std::uint64_t user) {
        Task task = noting("x");
        task.caller = {connection, user};
        return refusal(std::move(task));
    };
    EXPECT_EQ(of(1, 1001), "none");
    EXPECT_EQ(of(1, 1001), "none");
    EXPECT_EQ(of(1, 1001), "queue_full") << "a connection's quarter";
    EXPECT_EQ(of(2, 1001), "none");
    EXPECT_EQ(of(3, 1001), "none");
    EXPECT_EQ(of(4, 1001), "queue_full") << "a user's half";
    EXPECT_EQ(of(5, 1002), "none");
    EXPECT_EQ(of(6, 0), "none") << "of no user, as a plugin is";
    EXPECT_EQ(executor->counters(Lane::look).refused, 2u);
    gate.open();
    while (executor->counters(Lane::look).done < 7)
        std::this_thread::yield();
    EXPECT_EQ(of(4, 1001), "none") << "what was done makes room again";
}

TEST_F(ExecutorTest, AGroupCanHaveALowerCap) {
    with(8);
    for (int i = 0; i < 2; ++i) {
        Task task = standing();
        task.group = "long";
        task.group_max = 1;
        executor->submit(std::move(task));
    }
    gate.wait_for(1);
    run();
    gate.open();
    executor->stop();
    EXPECT_EQ(gate.most_at_once(), 1);
}

TEST_F(ExecutorTest, WhatIsCancelledBeforeItsTurnIsDropped) {
    with(1).submit(standing());
    gate.wait_for(1);
    std::stop_source source;
    Task task = noting("done");
    task.cancelled = source.get_token();
    task.dropped = noting("dropped").work;
    executor->submit(std::move(task));
    source.request_stop();
    gate.open();
    executor->stop();
    EXPECT_THAT(done, ElementsAre("dropped"));
    EXPECT_EQ(executor->counters(Lane::look).dropped, 1u);
}

TEST_F(ExecutorTest, WhatFindsNoThreadInTimeIsNotBegunAnyMore) {
    with(1).submit(standing());
    gate.wait_for(1);
    std::vector<bool> begun;
    Task task = noting("done");
    task.time_max = 1s;
    task.late = [&](bool had) {
        begun.push_back(had);
    };
    executor->submit(std::move(task));
    deadlines->expire();
    EXPECT_THAT(begun, ElementsAre(false));
    gate.open();
    executor->stop();
    EXPECT_TRUE(done.empty());
    EXPECT_EQ(executor->counters(Lane::look).late, 1u);
}

TEST_F(ExecutorTest, AStuckThreadIsReplacedAndItsReplacementUsedAgain) {
    int threads = 0;
    begin = [&](std::function<void()> work) {
        ++threads;
        return std::thread{std::move(work)};
    };
    with(1);
    for (int i = 1; i <= 3; ++i) {
        Gate own;
        std::promise<bool> late;
        Task task;
        task.work = [&] {
            own.pass();
        };
        task.time_max = 1s;
        task.late = [&](bool begun) {
            late.set_value(begun);
        };
        executor->submit(std::move(task));
        own.wait_for(1);
        deadlines->expire();
        EXPECT_TRUE(late.get_future().get());
        run(); // on the other thread
        own.open();
        while (executor->counters(Lane::look).done < 2u * i)
            std::this_thread::yield();
    }
    EXPECT_EQ(threads, 2);
}

TEST_F(ExecutorTest, WhereNoThreadCanBeBegunTheStuckOneGoesOnWhenItEnds) {
    int threads = 0;
    begin = [&](std::function<void()> work) {
        if (++threads > 1) // as the system does when it has no more
            throw std::system_error(EAGAIN, std::generic_category());
        return std::thread{std::move(work)};
    };
    Task stuck = standing();
    stuck.time_max = 1s;
    with(1).submit(std::move(stuck));
    gate.wait_for(1);
    EXPECT_NO_THROW(deadlines->expire());
    EXPECT_EQ(threads, 2);
    executor->submit(noting("next"));
    gate.open();
    executor->stop();
    EXPECT_THAT(done, ElementsAre("next"));
    EXPECT_THAT(lines.str(), HasSubstr("no thread can be begun"));
}

TEST_F(ExecutorTest, TheTimeLimitOfWhatHasEndedIsTakenBack) {
    with(1);
    Task task = noting("done");
    task.time_max = 1s;
    executor->submit(std::move(task));
    executor->stop();
    EXPECT_EQ(deadlines->running(), 0u);
}

TEST_F(ExecutorTest, NoLockIsHeldWhileATaskRuns) {
    with(1);
    Task outer;
    outer.work = [this] {
        executor->submit(noting("inner"));
        (void)executor->counters(Lane::look);
        noting("outer").work();
    };
    executor->submit(std::move(outer));
    while (executor->counters(Lane::look).done < 2)
        std::this_thread::yield();
    EXPECT_THAT(done, ElementsAre("outer", "inner"));
}

TEST_F(ExecutorTest, ACallerMayHaveAQuarterOfWhatCanWait) {
    with(1, 8).submit(standing());
    gate.wait_for(1);
    EXPECT_EQ(refusal(noting("1", Lane::look, 1)), "none");
    EXPECT_EQ(refusal(noting("2", Lane::look, 1)), "none");
    EXPECT_EQ(refusal(noting("3", Lane::look, 1)), "queue_full");
    EXPECT_EQ(refusal(noting("in another lane", Lane::write, 1)), "none");
    for (std::uint64_t other = 2; other < 8; ++other)
        EXPECT_EQ(refusal(noting("another's", Lane::look, other)), "none");
    EXPECT_EQ(refusal(noting("too many", Lane::look, 9)), "queue_full");
    EXPECT_EQ(refusal(noting("the daemon's own", Lane::look)), "none");
}

TEST_F(ExecutorTest, TheStopDoesWhatWaitsAndTakesNoMore) {
    with(1);
    for (int i = 0; i < 20; ++i)
        executor->submit(noting("x"));
    executor->stop();
    EXPECT_EQ(done.size(), 20u);
    EXPECT_EQ(refusal(noting("y")), "stopping");
    EXPECT_EQ(executor->counters(Lane::look).refused, 1u);
    executor->stop(); // again
}

TEST(Deadlines, ComeInTheirOrderUnlessTakenBack) {
    const EndsInTime ends_in_time;
    boost::asio::io_context loop;
    auto open = boost::asio::make_work_guard(loop);
    TimedDeadlines deadlines{loop};
    std::jthread thread{[&] {
        loop.run();
    }};
    std::promise<void> second;
    std::vector<int> done;
    deadlines.add(40ms, [&] {
        done.push_back(2);
        second.set_value();
    });
    const auto taken_back = deadlines.add(1h, [&] { done.push_back(0); });
    deadlines.add(10ms, [&] { done.push_back(1); });
    deadlines.remove(taken_back);
    second.get_future().get();
    loop.stop();
    thread.join();
    EXPECT_THAT(done, ElementsAre(1, 2));
}

TEST(Deadlines, ThatAreNotYetDueEndWithTheirOwner) {
    boost::asio::io_context loop;
    const auto held = std::make_shared<int>();
    {
        TimedDeadlines deadlines{loop};
        deadlines.add(1h, [held] {});
        EXPECT_EQ(held.use_count(), 2);
    }
    EXPECT_EQ(held.use_count(), 1);
    loop.run(); // the handlers find nothing to do
}

class Silent final : public Listener {
    bool notify(std::string_view, json::object) override { return false; }
};

TEST(Turns, AreThoseOfAConnectionOrElseOfAName) {
    Call anna;
    anna.caller.name = "anna";
    Call other = anna;
    EXPECT_EQ(turn_of(anna).connection, turn_of(other).connection);
    other.listener = std::make_shared<Silent>();
    EXPECT_NE(turn_of(anna).connection, turn_of(other).connection);
    EXPECT_EQ(turn_of(anna).user, turn_of(other).user) << "of all connections of one user";
    other.caller.name = "bert";
    EXPECT_NE(turn_of(anna).user, turn_of(other).user);
}

} // namespace
} // namespace barmkeep::executor::test
