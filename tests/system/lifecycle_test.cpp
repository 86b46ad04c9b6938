// The process itself: one instance, signals, settings, paths, a store of another age.
#include "sdk/client/client.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/service.hpp"
#include "sdk/contract/stock.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <csignal>
#include <fstream>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>

namespace barmkeep::test {
namespace {

using testing::HasSubstr;
using testing::Not;

class LifecycleTest : public testing::Test {
protected:
    client::Client client() const {
        client::ClientOptions options;
        options.socket = daemon.socket().string();
        return client::Client{options};
    }
    ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
};

TEST_F(LifecycleTest, StartsServesAndStopsClean) {
    daemon.start();
    const auto status = client().call<contract::ServiceStatus>();
    EXPECT_EQ(status.now, parse_instant("2026-03-02T08:00:00Z"));
    EXPECT_EQ(status.socket, daemon.socket());
    EXPECT_EQ(daemon.stop(), 0);
    EXPECT_FALSE(std::filesystem::exists(daemon.socket())) << "the socket goes with the daemon";
    EXPECT_FALSE(std::filesystem::exists(daemon.ledger().string() + "-wal"))
        << "a clean stop leaves one file";
}

TEST_F(LifecycleTest, ASecondDaemonOnTheSameCellarIsRefused) {
    daemon.start();
    const auto second = run({BARMKEEPD_PROGRAM, "--config=/dev/null",
                             "--set=ledger.file=" + daemon.ledger().string(),
                             "--set=socket.path=" + (folder.path() / "other").string()});
    EXPECT_NE(second.exit_code, 0);
    EXPECT_THAT(second.err, HasSubstr("cellar.ledger"));
    EXPECT_THAT(second.err, HasSubstr("Another daemon runs"));
    EXPECT_EQ(daemon.stop(), 0);
}

TEST_F(LifecycleTest, ASecondDaemonOnTheSameSocketIsRefused) {
    daemon.start();
    const auto second = run({BARMKEEPD_PROGRAM, "--config=/dev/null",
                             "--set=ledger.file=" + (folder.path() / "other.ledger").string(),
                             "--set=socket.path=" + daemon.socket().string()});
    EXPECT_NE(second.exit_code, 0);
    EXPECT_THAT(second.err, HasSubstr(daemon.socket().string()));
    EXPECT_NO_THROW((void)client().call<contract::ServiceStatus>()) << "the first one still serves";
}

TEST_F(LifecycleTest, AStaleSocketIsReplaced) {
    daemon.start();
    daemon.kill();
    EXPECT_TRUE(std::filesystem::exists(daemon.socket()));
    daemon.start();
    EXPECT_NO_THROW((void)client().call<contract::ServiceStatus>());
}

TEST_F(LifecycleTest, ATooLongSocketPathIsSaid) {
    const auto refused = run({BARMKEEPD_PROGRAM, "--config=/dev/null",
                              "--set=ledger.file=" + daemon.ledger().string(),
                              "--set=socket.path=/tmp/" + std::string(120, 'x')});
    EXPECT_NE(refused.exit_code, 0);
    EXPECT_THAT(refused.err, HasSubstr("107"));
}

TEST_F(LifecycleTest, AllBadSettingsAreToldAtOnce) {
    const auto refused = run({BARMKEEPD_PROGRAM, "--config=/dev/null", "--set=ledger.readers=0",
                              "--set=log.level=loud", "--set=ledger.fiel=x"});
    EXPECT_EQ(refused.exit_code, 6);
    EXPECT_THAT(refused.err, HasSubstr("ledger.readers"));
    EXPECT_THAT(refused.err, HasSubstr("log.level"));
    EXPECT_THAT(refused.err, HasSubstr("ledger.fiel"));
}

TEST_F(LifecycleTest, BadArgumentsAreToldAtOnce) {
    const auto refused = run({BARMKEEPD_PROGRAM, "--saef", "--clock", "noon"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("Did you mean --safe?"));
    EXPECT_THAT(refused.err, HasSubstr("noon"));
}

TEST_F(LifecycleTest, SettingsArePrintedWithTheirOrigin) {
    const auto printed =
        run({BARMKEEPD_PROGRAM, "--config=/dev/null", "--print-settings", "--set=ledger.readers=3"},
            {{"HOME", "/home/anna"}, {"BARMKEEP_LOG_LEVEL", "debug"}});
    EXPECT_EQ(printed.exit_code, 0);
    EXPECT_THAT(printed.out, testing::ContainsRegex("ledger.readers +3 +option --set"));
    EXPECT_THAT(printed.out,
                testing::ContainsRegex("log.level +\"debug\" +environment BARMKEEP_LOG_LEVEL"));
}

std::string value_of(const contract::ServiceSettings::Result& all, const std::string& name) {
    for (const auto& setting : all.settings)
        if (setting.name == name)
            return setting.value + " from " + setting.from;
    return "not there";
}

TEST_F(LifecycleTest, HangUpReadsTheSettingsAgain) {
    std::ofstream(daemon.config()) << "[log]\nlevel = \"info\"\n";
    daemon.start();
    std::ofstream(daemon.config()) << "[log]\n# louder now\nlevel = \"debug\"\n";
    daemon.reload();
    EXPECT_EQ(value_of(client().call<contract::ServiceSettings>(), "log.level"),
              "\"debug\" from " + daemon.config().string() + " line 3");
}

TEST_F(LifecycleTest, ABadFileAtReloadChangesNothing) {
    daemon.start();
    std::ofstream(daemon.config()) << "[log]\nlevel = \"loud\"\n";
    daemon.reload();
    EXPECT_THAT(daemon.log(), HasSubstr("line 2"));
    EXPECT_EQ(value_of(client().call<contract::ServiceSettings>(), "log.level"),
              "\"info\" from built in");
    EXPECT_EQ(daemon.stop(), 0);
}

TEST_F(LifecycleTest, ANewerLedgerIsRefusedInClearWords) {
    daemon.start();
    EXPECT_EQ(daemon.stop(), 0);
    sqlite3* store = nullptr;
    ASSERT_EQ(sqlite3_open(daemon.ledger().c_str(), &store), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(store, "PRAGMA user_version = 9999", nullptr, nullptr, nullptr),
              SQLITE_OK);
    sqlite3_close(store);
    try {
        daemon.start();
        FAIL() << "opened a ledger of a newer version";
    } catch (const std::runtime_error& error) {
        EXPECT_THAT(error.what(), HasSubstr("newer"));
        EXPECT_THAT(error.what(), HasSubstr("9999"));
    }
}

TEST_F(LifecycleTest, AFolderThatCannotBeWrittenIsNamed) {
    const auto refused =
        run({BARMKEEPD_PROGRAM, "--config=/dev/null", "--set=ledger.file=/proc/no/cellar.ledger",
             "--set=socket.path=" + daemon.socket().string()});
    EXPECT_NE(refused.exit_code, 0);
    EXPECT_THAT(refused.err, HasSubstr("/proc/no"));
}

TEST_F(LifecycleTest, ABackupIsRestored) {
    daemon.start();
    auto connection = client();
    contract::GoodAdd::Params lids;
    lids.name = "lids";
    lids.goods = contract::GoodClass::lids;
    (void)connection.call<contract::GoodAdd>(lids);
    contract::LedgerBackup::Params backup;
    backup.file = (folder.path() / "copy").string();
    EXPECT_EQ(connection.call<contract::LedgerBackup>(backup).file, backup.file);
    lids.name = "wide lids";
    (void)connection.call<contract::GoodAdd>(lids);

    const std::vector<std::string> restore{
        BARMKEEPD_PROGRAM, "--config=/dev/null", "--set=ledger.file=" + daemon.ledger().string(),
        "--set=socket.path=" + daemon.socket().string(), "--restore=" + backup.file};
    const auto in_use = run(restore);
    EXPECT_NE(in_use.exit_code, 0) << "a ledger in use is not replaced";
    EXPECT_EQ(daemon.stop(), 0);
    const auto restored = run(restore);
    EXPECT_EQ(restored.exit_code, 0) << restored.err;
    daemon.start();
    EXPECT_EQ(client().call<contract::GoodList>().all.size(), 1U);
}

TEST_F(LifecycleTest, TakesASocketFromTheServiceManager) {
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
    const int client_handle = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    ASSERT_EQ(::connect(client_handle, reinterpret_cast<const sockaddr*>(&address), sizeof address),
              0);
    const std::string request = "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"service.status\"}\n";
    ASSERT_EQ(::send(client_handle, request.data(), request.size(), 0),
              static_cast<ssize_t>(request.size()));
    const pid_t child = ::fork();
    if (child == 0) {
        ::execl("/bin/sh", "sh", "-c", script.c_str(), BARMKEEPD_PROGRAM, daemon.ledger().c_str(),
                path.c_str(), nullptr);
        ::_exit(127);
    }
    std::string reply(4096, '\0');
    const auto length = ::recv(client_handle, reply.data(), reply.size(), 0);
    ASSERT_GT(length, 0);
    reply.resize(static_cast<std::size_t>(length));
    EXPECT_THAT(reply, HasSubstr("\"result\""));
    ::kill(child, SIGTERM);
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    EXPECT_TRUE(std::filesystem::exists(path))
        << "the service manager's socket is not ours to remove";
    ::close(client_handle);
    ::close(listening);
}

TEST_F(LifecycleTest, APluginThatNeverEndsDoesNotKeepTheDaemon) {
    DaemonUnderTest stuck{folder.path(),
                          "2026-03-02T08:00:00Z",
                          {"plugins.folders=" BARMKEEP_TEST_PLUGINS, "plugins.disabled=dawdling",
                           "plugins.call_seconds_max=1"}};
    stuck.start();
    try {
        (void)client().call("rogue.forever", {}, client::Repeat::never);
        FAIL() << "rogue.forever answered";
    } catch (const Error& error) {
        EXPECT_EQ(error.reason(), "plugin_slow");
    }
    EXPECT_EQ(stuck.stop(), 1);
    EXPECT_THAT(stuck.log(), HasSubstr("leaving without waiting for rogue"));
    EXPECT_FALSE(std::filesystem::exists(stuck.socket()));
    EXPECT_FALSE(std::filesystem::exists(stuck.ledger().string() + "-wal"))
        << "the ledger was closed all the same";
}

TEST_F(LifecycleTest, AClientWithoutADaemonIsToldHowToStartOne) {
    const auto alone = daemon.barm({"stock", "list"});
    EXPECT_EQ(alone.exit_code, 69);
    EXPECT_THAT(alone.err, HasSubstr("barmkeepd"));
}

} // namespace
} // namespace barmkeep::test
