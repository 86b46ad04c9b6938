#include "daemon/host/flight.hpp"

#include <gmock/gmock.h>

namespace barmkeep::host::test {
namespace {

using namespace std::chrono_literals;

TEST(Flight, WhatAPluginAnswersBecauseItWasGivenUpComesTooLate) {
    std::vector<Outcome> outcomes;
    Flight flight{"rogue.slow", Call{}, [&](Outcome told) {
                      outcomes.push_back(std::move(told));
                  }};
    bool landed = true;
    const std::stop_callback at_once{flight.call().cancelled, [&] {
                                         landed = flight.land(json::value("at last"));
                                     }};
    flight.give_up(true, 1s);
    EXPECT_FALSE(landed);
    ASSERT_EQ(outcomes.size(), 1u);
    ASSERT_TRUE(std::holds_alternative<Error>(outcomes[0]));
    EXPECT_EQ(std::get<Error>(outcomes[0]).reason(), "plugin_slow");
}

TEST(Flight, OneThatHasLandedIsNotGivenUp) {
    int answers = 0;
    Flight flight{"rogue.slow", Call{}, [&](const Outcome& told) {
                      ++answers;
                      EXPECT_TRUE(std::holds_alternative<json::value>(told));
                  }};
    EXPECT_TRUE(flight.land(json::value("in time")));
    flight.give_up(true, 1s);
    EXPECT_EQ(answers, 1);
}

} // namespace
} // namespace barmkeep::host::test
