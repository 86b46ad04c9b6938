// Adding, retiring, stopping; events; all of it at once.
#include "tests/host/fixture.hpp"

namespace barmkeep::host::test {
namespace {

using namespace std::chrono_literals;
using contract::PluginState;
using testing::HasSubstr;
namespace fs = std::filesystem;

using Living = HostTest;

std::string reason_of(const std::function<void()>& work) {
    try {
        work();
    } catch (const Error& error) {
        return error.reason();
    }
    return "none";
}

TEST_F(Living, ADisabledPluginIsNeitherLoadedNorAdded) {
    put("tally");
    options_.disabled = {"tally"};
    start();
    EXPECT_EQ(info("tally").state, PluginState::disabled);
    EXPECT_EQ(methods_.find("tally.count"), nullptr);
    EXPECT_EQ(reason_of([&] { host_->add("tally"); }), "plugin_disabled");
}

TEST_F(Living, ASafeStartLoadsNoneButOneCanBeAdded) {
    put("tally");
    put("musing"); // which would not end, were it loaded
    options_.safe_start = true;
    options_.settings["tally"] = {{"first", 40}};
    start();
    for (const auto* name : {"tally", "musing"}) {
        EXPECT_EQ(info(name).state, PluginState::disabled);
        EXPECT_EQ(info(name).fault,
                  std::string("The daemon was started without plugins. `barm plugin add ") + name +
                      "` loads this one.");
    }
    EXPECT_EQ(methods_.find("tally.count"), nullptr);
    EXPECT_EQ(host_->add("tally").state, PluginState::running);
    EXPECT_FALSE(info("tally").fault);
    EXPECT_EQ(result("tally.count").at("count"), 41);
    EXPECT_EQ(info("musing").state, PluginState::disabled);
    EXPECT_TRUE(host_->stop().empty());
}

TEST_F(Living, ASafeStartDoesNotHideThatThePluginIsDisabledAnyway) {
    put("tally");
    options_.safe_start = true;
    options_.disabled = {"tally"};
    start();
    EXPECT_THAT(info("tally").fault.value_or(""), HasSubstr("plugins.disabled"));
    EXPECT_EQ(reason_of([&] { host_->add("tally"); }), "plugin_disabled");
}

TEST_F(Living, OfTwoPluginsWithOneNameTheFirstFoldersIsTaken) {
    const fs::path second = folder_ / "second";
    fs::create_directory(second);
    fs::permissions(second, static_cast<fs::perms>(0755));
    fs::rename(put("tally"), second / "tally.so");
    put("tally");
    options_.folders.push_back(second);
    start();
    EXPECT_EQ(info("tally").file, (folder_ / "tally.so").string());
    EXPECT_EQ(host_->list().size(), 1u);
    EXPECT_THAT(log(), HasSubstr("is ignored"));
}

TEST_F(Living, APluginIsAddedWhileRunning) {
    start();
    put("tally");
    EXPECT_EQ(host_->add("tally").state, PluginState::running);
    EXPECT_EQ(result("tally.count").at("count"), 1);
    EXPECT_EQ(reason_of([&] { host_->add("tally"); }), "plugin_in_use");
}

TEST_F(Living, AnUnknownPluginIsRefusedWithTheNearestName) {
    put("tally");
    start();
    for (const auto& work : {std::function<void()>{[&] {
                                 host_->add("taly");
                             }},
                             std::function<void()>{[&] {
                                 host_->retire("taly");
                             }}})
        try {
            work();
            FAIL() << "it is known";
        } catch (const Error& error) {
            EXPECT_EQ(error.kind(), ErrorKind::not_found);
            EXPECT_EQ(error.hint(), "Did you mean 'tally'?");
        }
}

TEST_F(Living, ARetiredPluginIsGoneAndCanBeginAnew) {
    put("tally");
    start();
    (void)result("tally.count", {{"by", 5}});
    EXPECT_EQ(host_->retire("tally").state, PluginState::retired);
    EXPECT_EQ(error("tally.count").kind(), ErrorKind::method_unknown);
    EXPECT_EQ(reason_of([&] { host_->retire("tally"); }), "not_running");
    EXPECT_EQ(host_->add("tally").state, PluginState::running);
    EXPECT_EQ(result("tally.count").at("count"), 1) << "the state is a new one";
}

TEST_F(Living, NewCodeTakesARestart) {
    const fs::path file = put("tally");
    start();
    host_->retire("tally");
    fs::rename(put("tally", "new"), file);
    EXPECT_EQ(reason_of([&] { host_->add("tally"); }), "needs_restart");
    EXPECT_EQ(info("tally").state, PluginState::failed);
}

TEST_F(Living, RetiringWaitsForTheCallsUnderWay) {
    put("rogue");
    start();
    auto call_under_way = std::async(std::launch::async, [&] { return call("rogue.gate"); });
    gate_.wait_for(1);
    auto retiring = std::async(std::launch::async, [&] { return host_->retire("rogue"); });
    while (methods_.find("rogue.gate") != nullptr) // the first thing that retiring does
        std::this_thread::yield();
    EXPECT_EQ(retiring.wait_for(0s), std::future_status::timeout);
    gate_.open();
    EXPECT_TRUE(std::holds_alternative<json::value>(call_under_way.get()));
    EXPECT_EQ(retiring.get().state, PluginState::retired);
    end();
    EXPECT_THAT(log(), HasSubstr("rogue has stopped"));
}

TEST_F(Living, APluginWhoseCallsDoNotEndIsNotStoppedUnderThem) {
    options_.call_time_max = 1ms; // how long retiring waits for the call, which stands at the gate
    put("rogue");
    start();
    auto stuck = error_to_come("rogue.gate");
    gate_.wait_for(1);
    deadlines_->expire();
    EXPECT_EQ(stuck.get().reason(), "plugin_slow");
    EXPECT_EQ(reason_of([&] { host_->retire("rogue"); }), "plugin_slow");
    EXPECT_EQ(info("rogue").state, PluginState::failed);
    EXPECT_EQ(reason_of([&] { host_->add("rogue"); }), "plugin_in_use");
    EXPECT_EQ(host_->stop(), std::vector<std::string>{"rogue"});
    EXPECT_THAT(log(), testing::Not(HasSubstr("rogue has stopped")));
    gate_.open();
    end(); // waits for the call, and then does stop it
    EXPECT_THAT(log(), HasSubstr("rogue has stopped"));
}

TEST_F(Living, AStartThatDoesNotEndDoesNotHoldUpTheDaemon) {
    put("dawdling");
    put("tally");
    auto starting = std::async(std::launch::async, [&] { start(); });
    gate_.wait_for(1);
    deadlines_->expire();
    starting.get();
    EXPECT_THAT(fault("dawdling"), HasSubstr("did not end in time"));
    EXPECT_EQ(info("tally").state, PluginState::running);
    EXPECT_EQ(reason_of([&] { host_->add("dawdling"); }), "plugin_stuck");
    gate_.open();
}

TEST_F(Living, PluginsAreStoppedInTheReverseOrderOfTheirStart) {
    put("rogue");
    put("tally");
    start();
    EXPECT_TRUE(host_->stop().empty());
    logger_->flush();
    EXPECT_LT(log().find("plugin tally: retired"), log().find("plugin rogue: retired"));
    EXPECT_EQ(reason_of([&] { host_->add("tally"); }), "stopping");
}

TEST_F(Living, TheMethodsListAddAndRetire) {
    put("tally");
    Host& host = start();
    host.add_methods(methods_);
    EXPECT_EQ(result("plugin.list").at("plugins").at(0).at("state"), "running");
    EXPECT_EQ(result("plugin.retire", {{"name", "tally"}}).at("state"), "retired");
    EXPECT_EQ(result("plugin.add", {{"name", "tally"}}).at("state"), "running");
    EXPECT_EQ(error("plugin.add", {{"name", "nobody"}}).reason(), "plugin_unknown");
    EXPECT_EQ(error("plugin.add").reason(), "missing");
    Call mine = circumstances();
    mine.caller.access = Access::keep;
    const json::value params = {{"name", "tally"}};
    EXPECT_EQ(std::get<Error>(methods_.call("plugin.retire", mine, &params)).kind(),
              ErrorKind::refused);
}

TEST_F(Living, EventsComeOneAtATimeAndInOrder) {
    put("rogue");
    Host& host = start();
    for (int i = 1; i <= 200; ++i)
        host.deliver(event(i, i % 10 == 0 ? "day.begun" : "lot.changed"));
    gate_.wait_for_heard(180);
    std::int64_t last = 0;
    for (const auto& heard : gate_.heard()) {
        EXPECT_GT(heard.at("sequence").as_int64(), last);
        last = heard.at("sequence").as_int64();
        EXPECT_EQ(heard.at("topic"), "lot.changed");
    }
    EXPECT_EQ(gate_.most_hearing(), 1);
}

TEST_F(Living, APluginThatMissedEventsIsToldHowMany) {
    put("rogue");
    threads_ = 1;
    Host& host = start();
    auto busy = std::async(std::launch::async, [&] { return call("rogue.gate"); });
    gate_.wait_for(1); // the one worker stands still, so that all events wait
    const int bound = static_cast<int>(PluginSlot::events_waiting_max);
    for (int i = 1; i <= bound + 3; ++i)
        host.deliver(event(i));
    gate_.open();
    gate_.wait_for_heard(PluginSlot::events_waiting_max);
    const auto heard = gate_.heard();
    EXPECT_EQ(heard[PluginSlot::events_waiting_max - 2].at("sequence"), bound - 1);
    EXPECT_EQ(heard.back().at("topic"), "event.missed");
    EXPECT_EQ(heard.back().at("sequence"), bound + 3);
    EXPECT_EQ(heard.back().at("about").at("count"), 4);
    busy.get();

    gate_.close(); // the next notice counts only what was missed since this one
    busy = std::async(std::launch::async, [&] { return call("rogue.gate"); });
    gate_.wait_for(2);
    for (int i = 1; i <= bound + 1; ++i)
        host.deliver(event(bound + 3 + i));
    gate_.open();
    gate_.wait_for_heard(2 * PluginSlot::events_waiting_max);
    EXPECT_EQ(gate_.heard().back().at("about").at("count"), 2);
    busy.get();
}

TEST_F(Living, CallsEventsAddingAndRetiringAtOnceDoNotUpsetEachOther) {
    put("rogue");
    put("tally");
    gate_.open();
    Host& host = start();
    std::atomic<bool> over = false;
    const auto caller = [&](std::string_view method) {
        while (!over) {
            const Outcome outcome = call(method);
            const auto* told = std::get_if<Error>(&outcome);
            EXPECT_TRUE(told == nullptr || told->kind() == ErrorKind::method_unknown ||
                        told->reason() == "plugin_retired")
                << told->what();
        }
    };
    auto one = std::async(std::launch::async, caller, "tally.count");
    auto other = std::async(std::launch::async, caller, "rogue.count");
    auto events = std::async(std::launch::async, [&] {
        for (int i = 1; !over; ++i) {
            host.deliver(event(i));
            std::this_thread::yield();
        }
    });
    for (int i = 0; i < 20; ++i) {
        host.retire("tally");
        host.add("tally");
        (void)host.list();
    }
    over = true;
    one.get();
    other.get();
    events.get();
    EXPECT_TRUE(host.stop().empty());
}

} // namespace
} // namespace barmkeep::host::test
