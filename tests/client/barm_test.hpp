// Whole runs of barm against a fake daemon, without a process.
#pragma once

#include "tests/client/barm_run.hpp"
#include "tests/client/fake_cellar.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::test {

using Words = std::vector<std::string>;

class BarmTest : public testing::Test {
protected:
    BarmTest() {
        add_fake_cellar(daemon.table());
        world.environment["BARMKEEP_SOCKET"] = daemon.socket();
        world.environment["BARM_TIME_OUT"] = "20 s";
    }
    Ran run(Words words) { return run_barm(world, std::move(words)); }

    FakeDaemon daemon;
    World world;
};

} // namespace barmkeep::test
