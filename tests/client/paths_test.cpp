#include "sdk/client/connect_fault.hpp"
#include "sdk/client/connection.hpp"
#include "sdk/client/paths.hpp"
#include "sdk/client/request_key.hpp"
#include "tests/client/fake_daemon.hpp"

#include <cerrno>
#include <fstream>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <set>

namespace barmkeep::client {
namespace {

using testing::HasSubstr;

Environment environment_of(std::map<std::string, std::string, std::less<>> variables) {
    return [variables = std::move(variables)](std::string_view name) -> std::optional<std::string> {
        const auto found = variables.find(name);
        return found == variables.end() ? std::nullopt : std::optional(found->second);
    };
}

const auto nowhere = [](const std::string&) {
    return false;
};
const auto everywhere = [](const std::string&) {
    return true;
};

TEST(Paths, OptionOverVariableOverFileOverUsual) {
    const auto environment =
        environment_of({{"BARMKEEP_SOCKET", "/v"}, {"XDG_RUNTIME_DIR", "/run/user/7"}});
    const auto bare = environment_of({{"XDG_RUNTIME_DIR", "/run/user/7"}});
    const Located file{"/f", "a file"};
    EXPECT_EQ(choose_socket("/o", environment, file, nowhere).value, "/o");
    EXPECT_EQ(choose_socket({}, environment, file, nowhere).value, "/v");
    EXPECT_EQ(choose_socket({}, environment, file, nowhere).from, "environment BARMKEEP_SOCKET");
    EXPECT_EQ(choose_socket({}, bare, file, nowhere).value, "/f");
    EXPECT_EQ(choose_socket({}, bare, {}, nowhere).value, "/run/user/7/barmkeep/barmkeep.sock");
}

TEST(Paths, TakesTheSystemsSocketWhereOnlyThatOneIs) {
    const auto environment = environment_of({{"XDG_RUNTIME_DIR", "/run/user/7"}});
    const auto only_system = [](const std::string& path) {
        return path == system_socket_path;
    };
    EXPECT_EQ(choose_socket({}, environment, {}, only_system).value, system_socket_path);
    EXPECT_EQ(choose_socket({}, environment, {}, everywhere).value,
              "/run/user/7/barmkeep/barmkeep.sock");
}

TEST(Paths, PassesOverEmptyAndRelativeVariables) {
    EXPECT_EQ(usual_socket_path(environment_of({{"XDG_RUNTIME_DIR", "run"}})), system_socket_path);
    EXPECT_EQ(usual_socket_path(environment_of({{"XDG_RUNTIME_DIR", ""}})), system_socket_path);
    EXPECT_EQ(choose_socket({}, environment_of({{"BARMKEEP_SOCKET", ""}}), {}, nowhere).value,
              system_socket_path);
}

TEST(Paths, FindsTheSettingsFileWithAndWithoutHome) {
    EXPECT_EQ(user_config_file(environment_of({{"HOME", "/home/a"}}), "barm.toml"),
              "/home/a/.config/barmkeep/barm.toml");
    EXPECT_EQ(user_config_file(environment_of({{"XDG_CONFIG_HOME", "/c"}, {"HOME", "/home/a"}}),
                               "barm.toml"),
              "/c/barmkeep/barm.toml");
    EXPECT_EQ(user_config_file(environment_of({}), "barm.toml"), std::nullopt);
}

std::string told(const std::string& path) {
    try {
        Connection connection{path, after(std::chrono::milliseconds{500})};
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::unavailable);
        return error.reason() + ": " + error.what() + " " + error.hint();
    }
    return "connected";
}

TEST(Connecting, TellsHowToStartADaemonThatIsNotThere) {
    const auto text = told("/nowhere/barmkeep.sock");
    EXPECT_THAT(text, HasSubstr("no_socket: There is no socket at /nowhere/barmkeep.sock."));
    EXPECT_THAT(text, HasSubstr("systemctl --user start barmkeepd`"));
    EXPECT_THAT(text, HasSubstr("--socket"));
}

TEST(Connecting, TellsASocketThatNobodyListensOn) {
    test::FakeDaemon daemon;
    const std::string left_behind = (daemon.folder() / "stale").string();
    std::filesystem::rename(daemon.socket(), left_behind);
    daemon.stop();
    EXPECT_THAT(told(left_behind), HasSubstr("nobody_listens: There is a socket at"));
}

TEST(Connecting, TellsAPlainFile) {
    const test::FakeDaemon daemon;
    const auto path = (daemon.folder() / "file").string();
    std::ofstream{path} << "x";
    EXPECT_THAT(told(path), HasSubstr("not_a_socket"));
}

TEST(Connecting, TellsAPathThatIsTooLong) {
    EXPECT_THAT(told("/" + std::string(107, 'x')),
                HasSubstr("path_too_long: The socket's path has 108 bytes; a socket's path can "
                          "have 107."));
    EXPECT_THAT(told("/" + std::string(106, 'x')), HasSubstr("no_socket"));
}

TEST(Connecting, TellsPathUidAndModeWhereItMayNot) {
    const test::FakeDaemon daemon;
    std::filesystem::permissions(daemon.socket(), std::filesystem::perms::owner_read);
    const Error error = connect_fault(daemon.socket(), EACCES);
    EXPECT_EQ(error.reason(), "no_permission");
    EXPECT_THAT(error.what(), HasSubstr(daemon.socket() + " has mode 0400, owner uid "));
    EXPECT_THAT(error.what(), HasSubstr("You (uid "));
}

TEST(RequestKeys, AreLongLegibleAndNeverTheSame) {
    std::set<std::string> keys;
    for (int i = 0; i < 1000; ++i)
        keys.insert(new_request_key());
    EXPECT_EQ(keys.size(), 1000U);
    for (const auto& key : keys)
        EXPECT_THAT(key, testing::MatchesRegex("[a-z2-7]{26}"));
}

} // namespace
} // namespace barmkeep::client
