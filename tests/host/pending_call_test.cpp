#include "daemon/host/pending_call.hpp"

#include <gmock/gmock.h>

namespace barmkeep::host::test {
namespace {

using namespace std::chrono_literals;

TEST(PendingCall, WhatAPluginAnswersBecauseItWasGivenUpComesTooLate) {
    std::vector<Outcome> outcomes;
    PendingCall pending{"rogue.slow", Call{}, [&](Outcome told) {
                            outcomes.push_back(std::move(told));
                        }};
    bool answered = true;
    const std::stop_callback at_once{pending.call().cancelled, [&] {
                                         answered = pending.answer(json::value("at last"));
                                     }};
    pending.give_up(true, 1s);
    EXPECT_FALSE(answered);
    ASSERT_EQ(outcomes.size(), 1u);
    ASSERT_TRUE(std::holds_alternative<Error>(outcomes[0]));
    EXPECT_EQ(std::get<Error>(outcomes[0]).reason(), "plugin_slow");
}

TEST(PendingCall, OneThatIsAnsweredIsNotGivenUp) {
    int answers = 0;
    PendingCall pending{"rogue.slow", Call{}, [&](const Outcome& told) {
                            ++answers;
                            EXPECT_TRUE(std::holds_alternative<json::value>(told));
                        }};
    EXPECT_TRUE(pending.answer(json::value("in time")));
    pending.give_up(true, 1s);
    EXPECT_EQ(answers, 1);
}

} // namespace
} // namespace barmkeep::host::test
