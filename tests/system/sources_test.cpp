// A key of a source is resolved over the real socket.
#include "sdk/client/client.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <gtest/gtest.h>

namespace barmkeep::test {
namespace {

TEST(Sources, AKeyIsResolvedByTheDaemon) {
    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
    daemon.start();
    client::ClientOptions options;
    options.socket = daemon.socket().string();
    client::Client client{options};
    const auto shown =
        client.call("source.show", {{"key", "GR36"}}, client::Repeat::freely, {}).result;
    EXPECT_EQ(shown.at("key"), "GR36");
    EXPECT_EQ(shown.at("from"), "SVH BQ2 SUI");
    const auto all = client.call("source.list", {}, client::Repeat::freely, {}).result;
    EXPECT_GT(all.at("sources").as_array().size(), 150U);
}

} // namespace
} // namespace barmkeep::test
