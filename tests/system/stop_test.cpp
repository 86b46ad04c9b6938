// Ends: asked for, asked for twice, and forced by the disk.
#include "sdk/contract/good.hpp"
#include "tests/socket/plain_client.hpp"
#include "tests/system/process_test.hpp"

#include <csignal>
#include <sys/resource.h>

namespace barmkeep::test {
namespace {

using tests::PlainClient;

class StopTest : public ProcessTest {
protected:
    /// With a plugin whose calls last as the test wants.
    void start_with_rogue() {
        rogue.start();
        EXPECT_THAT(rogue.barm({"plugin", "list"}).out, HasSubstr("rogue")) << rogue.log();
    }
    /// A call that has begun by the time this returns.
    void begin(PlainClient& connection, const std::string& method) {
        connection.send(R"({"jsonrpc":"2.0","id":1,"method":")" + method + "\"}\n");
        EXPECT_EQ(connection.ask(R"({"jsonrpc":"2.0","id":2,"method":"service.status"})").at("id"),
                  2);
    }
    void expect_left_at_once() {
        EXPECT_EQ(rogue.wait(), 1) << rogue.log();
        EXPECT_THAT(rogue.log(), HasSubstr("second signal"));
        EXPECT_FALSE(std::filesystem::exists(rogue.socket()));
    }
    DaemonUnderTest rogue{folder.path(),
                          "2026-03-02T08:00:00Z",
                          {"plugins.folders=" BARMKEEP_TEST_PLUGINS,
                           "plugins.disabled=dawdling,musing,halting,asleep",
                           "plugins.call_seconds_max=3600"}};
};

TEST_F(StopTest, ACallInFlightIsAnsweredBeforeTheEnd) {
    start_with_rogue();
    PlainClient connection{rogue.socket()};
    begin(connection, "rogue.slow");
    rogue.send_signal(SIGTERM);
    rogue.wait_for_notice("STOPPING=1");
    // rogue.slow goes on until it is unwanted; to say so is still allowed.
    connection.send(R"({"jsonrpc":"2.0","id":3,"method":"call.cancel","params":{"id":1}})"
                    "\n");
    std::map<std::int64_t, json::value> answers;
    for (int i = 0; i < 2; ++i) {
        const auto reply = connection.reply();
        answers[reply.at("id").as_int64()] = reply;
    }
    EXPECT_EQ(answers.at(1).at("result"), "at last");
    EXPECT_EQ(connection.reply().at("params").at("reason"), "stopping");
    EXPECT_EQ(connection.line(), std::nullopt);
    EXPECT_EQ(rogue.wait(), 0) << rogue.log();
}

TEST_F(StopTest, AnInterruptEndsItToo) {
    daemon.start();
    daemon.send_signal(SIGINT);
    EXPECT_EQ(daemon.wait(), 0) << daemon.log();
    EXPECT_FALSE(std::filesystem::exists(daemon.socket()));
}

TEST_F(StopTest, ASecondSignalLeavesAtOnceWhileACallIsAwaited) {
    start_with_rogue();
    PlainClient connection{rogue.socket()};
    begin(connection, "rogue.forever");
    rogue.send_signal(SIGTERM);
    rogue.wait_for_notice("STOPPING=1");
    rogue.send_signal(SIGTERM);
    expect_left_at_once();
}

TEST_F(StopTest, ASecondSignalLeavesAtOnceWhileAPluginIsAwaited) {
    start_with_rogue();
    {
        PlainClient connection{rogue.socket()};
        begin(connection, "rogue.forever");
    } // gone, so that nobody's answer is waited for; but the plugin works on
    rogue.send_signal(SIGTERM);
    rogue.wait_for_notice("STATUS=stopping the plugins");
    rogue.send_signal(SIGINT);
    expect_left_at_once();
}

/// A commit that fails for want of nothing but permission to make the file longer: its outcome is
/// open, so the ledger gives up, and the caller gets the error before the daemon leaves.
TEST_F(StopTest, AnOpenOutcomeIsToldBeforeTheDaemonLeaves) {
    daemon.start();
    PlainClient connection{daemon.socket()};
    const auto log = std::filesystem::file_size(daemon.ledger().string() + "-wal");
    ASSERT_GT(log, std::filesystem::file_size(folder.path() / "log")) << "this limit binds it too";
    const rlimit limit{log, log};
    ASSERT_EQ(::prlimit(daemon.process(), RLIMIT_FSIZE, &limit, nullptr), 0);
    const auto reply = connection.ask(
        R"({"jsonrpc":"2.0","id":1,"method":"good.add","params":{"name":"lids","category":"lids"}})");
    EXPECT_EQ(reply.at("error").at("code"), code_of(ErrorKind::unknown_outcome)) << reply;
    EXPECT_EQ(connection.reply().at("params").at("reason"), "stopping");
    EXPECT_EQ(daemon.wait(), 1) << daemon.log();
    EXPECT_FALSE(std::filesystem::exists(daemon.socket()));
}

} // namespace
} // namespace barmkeep::test
