// Plugins that do not end before they have begun: in an initialiser, the entry or `describe`.
#include "tests/host/fixture.hpp"

namespace barmkeep::host::test {
namespace {

using contract::PluginState;
using testing::ElementsAre;
using testing::HasSubstr;

class Loading : public HostTest {
protected:
    std::string reason_of_adding(const std::string& name) {
        try {
            host_->add(name);
        } catch (const Error& error) {
            return error.reason();
        }
        return "none";
    }
    /// Adds a plugin as soon as what stands in its way has ended, which it is about to.
    std::string reason_of_adding_at_last(const std::string& name) {
        for (;;) {
            const std::string reason = reason_of_adding(name);
            if (reason != "plugin_stuck" && reason != "load_stuck")
                return reason;
            std::this_thread::yield();
        }
    }
    /// Starts all, and ends the time limit when one stands at the gate.
    void start_with_one_stuck() {
        auto starting = std::async(std::launch::async, [&] { start(); });
        gate_.wait_for(1);
        deadlines_->expire();
        starting.get();
    }
};

class LoadingWithout : public Loading, public testing::WithParamInterface<std::string> {};
INSTANTIATE_TEST_SUITE_P(End, LoadingWithout, testing::Values("musing", "halting", "asleep"),
                         [](const auto& plugin) { return plugin.param; });

TEST_P(LoadingWithout, DoesNotHoldUpTheStartAndEndsInTheEnd) {
    put(GetParam());
    start_with_one_stuck();
    EXPECT_THAT(fault(GetParam()), HasSubstr("load of " + GetParam() + " did not end in time"));
    EXPECT_EQ(reason_of_adding(GetParam()), "plugin_stuck");
    gate_.open();
    EXPECT_EQ(reason_of_adding_at_last(GetParam()), "none");
    EXPECT_EQ(info(GetParam()).state, PluginState::running);
    EXPECT_TRUE(host_->stop().empty());
}

TEST_P(LoadingWithout, IsNamedByTheStop) {
    put(GetParam());
    start_with_one_stuck();
    EXPECT_THAT(host_->stop(), ElementsAre(GetParam()));
}

TEST_P(LoadingWithout, WhileItIsAddedDoesNotHoldUpTheStop) {
    start().add_methods(methods_);
    put(GetParam());
    auto adding = std::async(std::launch::async, [&] {
        return error("plugin.add", {{"name", GetParam()}});
    });
    gate_.wait_for(1);
    auto stopping = std::async(std::launch::async, [&] { return host_->stop(); });
    deadlines_->expire();
    EXPECT_EQ(adding.get().reason(), "plugin_slow");
    EXPECT_THAT(stopping.get(), ElementsAre(GetParam()));
}

TEST_F(Loading, TheNextPluginIsLoadedBesideOneThatIsStuckInItsDescription) {
    put("musing");
    put("tally");
    start_with_one_stuck();
    EXPECT_EQ(info("tally").state, PluginState::running);
}

TEST_F(Loading, NoneCanBeLoadedBesideOneThatIsStuckInItsInitialisers) {
    // The linker holds its lock while these run; whoever asked it for more would be stuck as well.
    put("asleep");
    put("tally");
    start_with_one_stuck();
    EXPECT_THAT(fault("tally"), HasSubstr("asleep.so is still being loaded"));
    gate_.open();
    EXPECT_EQ(reason_of_adding_at_last("tally"), "none");
}

TEST_F(Loading, AStartThatEndsTooLateIsStoppedAndCanBeginAnew) {
    put("dawdling");
    start_with_one_stuck();
    EXPECT_THAT(host_->list().at(0).fault.value_or(""), HasSubstr("start of dawdling"));
    gate_.open();
    EXPECT_EQ(reason_of_adding_at_last("dawdling"), "none");
    EXPECT_TRUE(host_->stop().empty());
}

TEST_F(Loading, AStartThatDoesNotEndIsNamedByTheStop) {
    put("dawdling");
    start_with_one_stuck();
    EXPECT_THAT(host_->stop(), ElementsAre("dawdling"));
}

} // namespace
} // namespace barmkeep::host::test
