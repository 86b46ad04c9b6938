// The process itself: settings, reload, copies, a plugin that never ends.
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/service.hpp"
#include "sdk/contract/stock.hpp"
#include "tests/system/process_test.hpp"

namespace barmkeep::test {
namespace {

class LifecycleTest : public ProcessTest {};

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

TEST_F(LifecycleTest, TheStatusShowsTheLoadOfEachLane) {
    daemon.start();
    auto connected = client();
    (void)connected.call<contract::StockList>();
    const auto status = connected.call<contract::ServiceStatus>();
    ASSERT_EQ(status.lanes.size(), 3U);
    EXPECT_EQ(status.lanes[0].lane, Lane::log);
    EXPECT_EQ(status.lanes[2].lane, Lane::look);
    // The thread counts its work as done after the answer was sent.
    EXPECT_GE(status.lanes[2].done + status.lanes[2].running, 1);
    EXPECT_EQ(status.lanes[2].refused, 0);
}

TEST_F(LifecycleTest, AStaleSocketIsReplaced) {
    daemon.start();
    daemon.kill();
    EXPECT_TRUE(std::filesystem::exists(daemon.socket()));
    daemon.start();
    EXPECT_NO_THROW((void)client().call<contract::ServiceStatus>());
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

/// Of a link that leads to itself not even root can say whether its file is there.
TEST_F(LifecycleTest, AFileThatCannotBeLookedForAtReloadChangesNothing) {
    daemon.start();
    std::filesystem::remove(daemon.config());
    std::filesystem::create_symlink(daemon.config(), daemon.config());
    daemon.reload();
    EXPECT_THAT(daemon.log(), HasSubstr("settings stay as they were"));
    EXPECT_THAT(daemon.log(), HasSubstr(daemon.config().string()));
    EXPECT_NO_THROW((void)client().call<contract::ServiceStatus>());
    EXPECT_EQ(daemon.stop(), 0);
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
    lids.category = contract::Category::lids;
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
