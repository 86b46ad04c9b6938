// A start that fails changes nothing and says by its exit code whether to try again.
#include "sdk/contract/service.hpp"
#include "tests/system/process_test.hpp"

#include <sqlite3.h>
#include <sys/stat.h>

namespace barmkeep::test {
namespace {

constexpr int permission = 4;
constexpr int setting = 6;
constexpr int not_ours = 150;

class StartTest : public ProcessTest {
protected:
    /// A cellar that has been used and closed.
    std::filesystem::path used_ledger() {
        DaemonUnderTest before{
            folder.path(), "2026-03-01T08:00:00Z", {"ledger.file=" + used().string()}};
        before.start();
        EXPECT_EQ(before.stop(), 0);
        return used();
    }
    std::filesystem::path used() const { return folder.path() / "used.ledger"; }
};

TEST_F(StartTest, ATooLongSocketPathIsASettingToMendAndChangesNothing) {
    const auto ledger = used_ledger();
    const auto before = bytes_of(ledger);
    const std::filesystem::path path = "/tmp/" + std::string(120, 'x');
    const auto refused = other(ledger, path, {"--clock=2026-05-05T08:00:00Z"});
    EXPECT_EQ(refused.exit_code, setting);
    EXPECT_THAT(refused.err, HasSubstr("107"));
    EXPECT_TRUE(before == bytes_of(ledger)) << "the ledger has changed";

    const auto fresh = folder.path() / "fresh";
    EXPECT_EQ(other(fresh / "cellar.ledger", path).exit_code, setting);
    EXPECT_FALSE(std::filesystem::exists(fresh));
}

TEST_F(StartTest, ASecondDaemonOnTheSameSocketChangesNoLedger) {
    const auto ledger = used_ledger();
    const auto before = bytes_of(ledger);
    daemon.start();
    const auto second = other(ledger, daemon.socket(), {"--clock=2026-05-05T08:00:00Z"});
    EXPECT_EQ(second.exit_code, not_ours);
    EXPECT_THAT(second.err, HasSubstr(daemon.socket().string()));
    EXPECT_TRUE(before == bytes_of(ledger)) << "the ledger has changed";

    const auto fresh = folder.path() / "fresh.ledger";
    EXPECT_EQ(other(fresh, daemon.socket()).exit_code, not_ours);
    EXPECT_FALSE(std::filesystem::exists(fresh));
    EXPECT_NO_THROW((void)client().call<contract::ServiceStatus>()) << "the first one still serves";
}

TEST_F(StartTest, ASecondDaemonOnTheSameCellarChangesNothing) {
    daemon.start();
    const auto before = bytes_of(daemon.ledger());
    const auto socket = folder.path() / "other";
    const auto second = other(daemon.ledger(), socket, {"--clock=2026-05-05T08:00:00Z"});
    EXPECT_EQ(second.exit_code, not_ours);
    EXPECT_THAT(second.err, HasSubstr("Another daemon uses"));
    EXPECT_TRUE(before == bytes_of(daemon.ledger())) << "the ledger has changed";
    EXPECT_FALSE(std::filesystem::exists(socket));
}

TEST_F(StartTest, ALedgerOfANewerVersionIsNotTriedAgain) {
    const auto ledger = used_ledger();
    sqlite3* store = nullptr;
    ASSERT_EQ(sqlite3_open(ledger.c_str(), &store), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(store, "PRAGMA user_version = 9999", nullptr, nullptr, nullptr),
              SQLITE_OK);
    sqlite3_close(store);
    const auto before = bytes_of(ledger);
    const auto refused = other(ledger, daemon.socket());
    EXPECT_EQ(refused.exit_code, not_ours);
    EXPECT_THAT(refused.err, HasSubstr("9999"));
    EXPECT_THAT(refused.err, HasSubstr("newer"));
    EXPECT_TRUE(before == bytes_of(ledger)) << "the ledger has changed";
    EXPECT_FALSE(std::filesystem::exists(daemon.socket()));
}

TEST_F(StartTest, TheUnitsDoNotTryAgainWhatARestartDoesNotMend) {
    for (const char* name : {"barmkeepd.service", "barmkeepd-user.service"}) {
        std::ifstream in(std::filesystem::path(BARMKEEP_SOURCE) / "config/systemd" / name);
        std::ostringstream unit;
        unit << in.rdbuf();
        EXPECT_THAT(unit.str(), HasSubstr("\nRestartPreventExitStatus=2 4 6 150\n")) << name;
    }
}

TEST_F(StartTest, AWrongSocketModeIsASettingToMend) {
    const auto refused = other(daemon.ledger(), daemon.socket(), {"--set=socket.mode=rw-"});
    EXPECT_EQ(refused.exit_code, setting);
    EXPECT_THAT(refused.err, HasSubstr("socket.mode"));
    EXPECT_FALSE(std::filesystem::exists(daemon.ledger()));
}

TEST_F(StartTest, AnUnknownSocketGroupIsASettingToMend) {
    const auto refused = other(daemon.ledger(), daemon.socket(), {"--set=socket.group=no such"});
    EXPECT_EQ(refused.exit_code, setting);
    EXPECT_THAT(refused.err, HasSubstr("socket.group"));
}

TEST_F(StartTest, AnUnknownNameAmongTheRightsIsASettingToMend) {
    const auto refused = other(daemon.ledger(), daemon.socket(), {"--set=access.keep=@no such"});
    EXPECT_EQ(refused.exit_code, setting);
    EXPECT_THAT(refused.err, HasSubstr("access.keep"));
    EXPECT_FALSE(std::filesystem::exists(daemon.ledger()));
}

TEST_F(StartTest, AFolderThatItMayNotWriteIsAMatterOfPermission) {
    const auto closed = folder.path() / "closed";
    ASSERT_TRUE(std::filesystem::create_directory(closed));
    ASSERT_EQ(::chmod(closed.c_str(), 0500), 0);
    const auto refused = [&](const std::filesystem::path& ledger,
                             const std::filesystem::path& socket) {
        return run(bound_by_modes({BARMKEEPD_PROGRAM, "--config=/dev/null",
                                   "--set=ledger.file=" + ledger.string(),
                                   "--set=socket.path=" + socket.string()}));
    };
    const auto there = refused(closed / "cellar.ledger", daemon.socket());
    EXPECT_EQ(there.exit_code, permission);
    EXPECT_THAT(there.err, HasSubstr(closed.string()));
    const auto below = refused(closed / "deeper" / "cellar.ledger", daemon.socket());
    EXPECT_EQ(below.exit_code, permission);
    EXPECT_THAT(below.err, HasSubstr(closed.string()));
    const auto socket = refused(daemon.ledger(), closed / "sock");
    EXPECT_EQ(socket.exit_code, permission);
    EXPECT_THAT(socket.err, HasSubstr(closed.string()));
}

mode_t mode_of(const std::filesystem::path& file) {
    struct stat found {};
    EXPECT_EQ(::stat(file.c_str(), &found), 0) << file;
    return found.st_mode & 07777U;
}

TEST_F(StartTest, TheSocketsFolderLetsThroughWhomTheSocketLetsIn) {
    const auto served = [&](const std::string& mode, const std::string& group) {
        const auto outer = folder.path() / ("for-" + mode);
        DaemonUnderTest made{folder.path(),
                             "2026-03-02T08:00:00Z",
                             {"socket.path=" + (outer / "inner" / "sock").string(),
                              "socket.mode=" + mode, "socket.group=" + group}};
        made.start();
        EXPECT_EQ(mode_of(outer / "inner" / "sock"), std::stoul(mode, nullptr, 8));
        EXPECT_EQ(made.stop(), 0);
        EXPECT_EQ(mode_of(outer), mode_of(outer / "inner"));
        return outer / "inner";
    };
    EXPECT_EQ(mode_of(served("0600", "")), 0700U);
    EXPECT_EQ(mode_of(served("0666", "")), 0755U);
    const gid_t group = ::geteuid() == 0 ? 54321 : ::getegid();
    const auto shared = served("0660", std::to_string(group));
    EXPECT_EQ(mode_of(shared), 0750U);
    struct stat found {};
    ASSERT_EQ(::stat(shared.c_str(), &found), 0);
    EXPECT_EQ(found.st_gid, group);

    // A folder that exists already is its owner's affair; the log has a warning.
    EXPECT_EQ(mode_of(folder.path()), 0700U);
    DaemonUnderTest kept{folder.path(), "2026-03-02T08:00:00Z", {"socket.mode=0660"}};
    kept.start();
    EXPECT_EQ(mode_of(folder.path()), 0700U);
    EXPECT_THAT(kept.log(), HasSubstr("the socket has mode 0660, but its folder"));
}

TEST_F(StartTest, ASafeStartShowsThePluginsAndCanAddThem) {
    daemon.set_arguments({"--safe"});
    daemon.start();
    auto connection = client();
    const auto listed = connection.call("plugin.list", {}, client::Repeat::freely).result;
    const auto& plugins = listed.at("plugins").as_array();
    EXPECT_EQ(plugins.size(), 4U);
    for (const auto& plugin : plugins) {
        EXPECT_EQ(plugin.at("state"), "disabled") << plugin;
        EXPECT_THAT(std::string(plugin.at("fault").as_string()),
                    HasSubstr("started without plugins"));
    }
    const auto added =
        connection.call("plugin.add", {{"name", "reorder"}}, client::Repeat::never).result;
    EXPECT_EQ(added.at("state"), "running") << added;
}

/// A start as a person does it, with nothing set but the home folder.
TEST_F(StartTest, WithOnlyAHomeItKeepsItsThingsThere) {
    std::vector<std::string> command{"/usr/bin/env", "-i", "HOME=" + folder.path().string(),
                                     "NOTIFY_SOCKET=" + daemon.notice_path().string(),
                                     BARMKEEPD_PROGRAM};
    if (::geteuid() == 0) {
        // Root has the machine's paths; in a user namespace it is somebody.
        const std::vector<std::string> as_somebody{"/usr/bin/unshare", "--user", "--map-user=1000",
                                                   "--map-group=1000"};
        auto probe = as_somebody;
        probe.emplace_back("/bin/true");
        if (run(probe).exit_code != 0)
            GTEST_SKIP() << "root, and no user namespace to be somebody else in";
        command.insert(command.begin(), as_somebody.begin(), as_somebody.end());
    }
    daemon.start(command);
    const auto state = folder.path() / ".local/state/barmkeep";
    client::ClientOptions options;
    options.socket = (state / "barmkeep.sock").string();
    const auto status = client::Client{options}.call<contract::ServiceStatus>();
    EXPECT_EQ(status.store, state / "cellar.ledger");
    EXPECT_EQ(status.socket, options.socket);
    EXPECT_EQ(mode_of(state), 0700U);
    EXPECT_EQ(daemon.stop(), 0) << daemon.log();
    EXPECT_TRUE(std::filesystem::exists(state / "cellar.ledger"));
}

} // namespace
} // namespace barmkeep::test
