// What passes between the daemon and its service manager: sockets, notices, the log.
#include "sdk/contract/service.hpp"
#include "tests/socket/plain_client.hpp"
#include "tests/system/process_test.hpp"

#include <csignal>
#include <sys/stat.h>

namespace barmkeep::test {
namespace {

using tests::PlainClient;

class ServiceManagerTest : public ProcessTest {};

TEST_F(ServiceManagerTest, TakesASocketFromTheServiceManager) {
    // What a socket unit does: the descriptor is 3, and the environment says so to that process.
    const auto path = folder.path() / "activated";
    const int listening = ::socket(AF_UNIX, SOCK_STREAM, 0);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    path.string().copy(address.sun_path, sizeof address.sun_path - 1);
    ASSERT_EQ(::bind(listening, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    ASSERT_EQ(::listen(listening, 16), 0);
    // The shell keeps its process id through exec, so LISTEN_PID is right.
    const std::string script = "LISTEN_FDS=1 LISTEN_PID=$$ exec \"$0\" --config=/dev/null --safe "
                               "--set=ledger.file=\"$1\" --set=socket.path=\"$2\" 3<&" +
                               std::to_string(listening);
    // A request sent before the daemon runs waits in the queue of the socket and is answered.
    PlainClient early{path};
    early.send(R"({"jsonrpc":"2.0","id":1,"method":"service.status"})"
               "\n");
    daemon.start({"/bin/sh", "-c", script, BARMKEEPD_PROGRAM, daemon.ledger().string(),
                  daemon.socket().string()});
    // All of them name the one it serves, whatever the settings say.
    EXPECT_EQ(early.reply().at("result").at("socket"), json::value(path.string()));
    const auto document = early.ask(R"({"jsonrpc":"2.0","id":2,"method":"rpc.discover"})");
    EXPECT_EQ(document.at("result").at("servers").at(0).at("url"),
              json::value("unix://" + path.string()));
    daemon.send_signal(SIGHUP);
    daemon.wait_for_notice("STATUS=serving " + path.string());
    EXPECT_THAT(daemon.log(), HasSubstr("on " + path.string()));
    EXPECT_FALSE(std::filesystem::exists(daemon.socket()));
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_TRUE(std::filesystem::exists(path))
        << "the service manager's socket is not ours to remove";
    ::close(listening);
}

TEST_F(ServiceManagerTest, SomethingElseThanASocketIsASettingToMend) {
    const auto refused = run({"/bin/sh", "-c",
                              "LISTEN_FDS=1 LISTEN_PID=$$ exec \"$0\" --config=/dev/null "
                              "--set=ledger.file=\"$1\" 3</dev/null",
                              BARMKEEPD_PROGRAM, daemon.ledger().string()});
    EXPECT_EQ(refused.exit_code, 6);
    EXPECT_THAT(refused.err, HasSubstr("ListenStream="));
    EXPECT_FALSE(std::filesystem::exists(daemon.ledger()));
}

TEST_F(ServiceManagerTest, SaysThatItLivesAsLongAsItAnswers) {
    daemon.set_environment({{"WATCHDOG_USEC", "20000"}});
    daemon.start();
    for (int i = 0; i < 3; ++i)
        daemon.wait_for_notice("WATCHDOG=1");
    EXPECT_EQ(daemon.stop(), 0);
}

TEST_F(ServiceManagerTest, SaysWhenItReloadsAndWhenItStops) {
    daemon.start();
    daemon.send_signal(SIGHUP);
    daemon.wait_for_notice("RELOADING=1");
    daemon.wait_for_notice("READY=1");
    daemon.send_signal(SIGTERM);
    daemon.wait_for_notice("STOPPING=1");
    EXPECT_EQ(daemon.wait(), 0);
}

/// The journal names the stream that it gave by device and inode; the daemon's log is a file here.
std::string stream_of(const std::filesystem::path& file) {
    std::ofstream{file, std::ios::app}.flush();
    struct stat found {};
    EXPECT_EQ(::stat(file.c_str(), &found), 0);
    return std::to_string(found.st_dev) + ":" + std::to_string(found.st_ino);
}

TEST_F(ServiceManagerTest, LogsToTheJournalWhereStandardErrorEndsThere) {
    const auto log = folder.path() / "log";
    constexpr const char* line = "info barmkeepd";
    daemon.set_environment({{"JOURNAL_STREAM", stream_of(log)}});
    daemon.start();
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_THAT(daemon.log(), Not(HasSubstr(line))) << "the journal has it, not standard error";
    daemon.set_environment({{"JOURNAL_STREAM", stream_of(folder.path() / "another")}});
    daemon.start();
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_THAT(daemon.log(), HasSubstr(line));
}

TEST_F(ServiceManagerTest, TheSettingSaysWhereTheLogGoes) {
    constexpr const char* line = "info barmkeepd";
    daemon.set_arguments({"--set=log.to=journal"});
    daemon.start();
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_THAT(daemon.log(), Not(HasSubstr(line)));
    daemon.set_arguments({"--set=log.to=stderr"});
    daemon.set_environment({{"JOURNAL_STREAM", stream_of(folder.path() / "log")}});
    daemon.start();
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_THAT(daemon.log(), HasSubstr(line));
}

} // namespace
} // namespace barmkeep::test
