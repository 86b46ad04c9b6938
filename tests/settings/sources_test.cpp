#include "daemon/settings/sources.hpp"

#include <fstream>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::daemon {
namespace {

using testing::HasSubstr;

class SettingsTest : public testing::Test {
protected:
    void SetUp() override { std::filesystem::create_directories(folder); }
    void TearDown() override { std::filesystem::remove_all(folder); }

    std::filesystem::path file(const char* name, const std::string& text) const {
        std::ofstream(folder / name) << text;
        return folder / name;
    }
    SettingsInForce read() {
        sources.environment = [this](std::string_view name) -> std::optional<std::string> {
            const auto found = environment.find(std::string(name));
            return found == environment.end() ? std::nullopt : std::optional{found->second};
        };
        return read_settings(sources);
    }
    std::string origin(const std::string& name) {
        for (const auto& setting : read().origins)
            if (setting.name == name)
                return setting.value + " from " + setting.from;
        return "not there";
    }

    std::filesystem::path folder = std::filesystem::path(testing::TempDir()) /
                                   testing::UnitTest::GetInstance()->current_test_info()->name();
    SettingSources sources;
    std::map<std::string, std::string> environment{{"HOME", "/home/anna"}};
};

TEST_F(SettingsTest, BuiltInPathsAreTheUsersOwn) {
    EXPECT_EQ(read().settings.ledger.file, "/home/anna/.local/state/barmkeep/cellar.ledger");
    EXPECT_EQ(read().settings.socket.path, "/home/anna/.local/state/barmkeep/barmkeep.sock");
    environment["XDG_RUNTIME_DIR"] = "/run/user/1000";
    EXPECT_EQ(read().settings.socket.path, "/run/user/1000/barmkeep/barmkeep.sock");
    environment["STATE_DIRECTORY"] = "/var/lib/private/x:/other";
    EXPECT_EQ(read().settings.ledger.file, "/var/lib/private/x/cellar.ledger");
    sources.is_root = true;
    environment.clear();
    EXPECT_EQ(read().settings.ledger.file, "/var/lib/barmkeep/cellar.ledger");
    EXPECT_EQ(read().settings.socket.path, "/run/barmkeep/barmkeep.sock");
}

TEST_F(SettingsTest, OptionThenEnvironmentThenUserThenSystem) {
    const auto user = file("user.toml", "[ledger]\nreaders = 3\n\n[log]\nlevel = \"debug\"\n");
    const auto system = file("system.toml", "[ledger]\nreaders = 4\nevents_kept = 500\n");
    sources.files = {user, system};
    EXPECT_EQ(origin("ledger.events_kept"), "500 from " + system.string() + " line 3");
    EXPECT_EQ(origin("ledger.readers"), "3 from " + user.string() + " line 2");
    environment["BARMKEEP_LEDGER_READERS"] = "5";
    EXPECT_EQ(origin("ledger.readers"), "5 from environment BARMKEEP_LEDGER_READERS");
    sources.options = {"ledger.readers=6"};
    EXPECT_EQ(origin("ledger.readers"), "6 from option --set");
    EXPECT_EQ(origin("ledger.batch_count_max"), "256 from built in");
}

TEST_F(SettingsTest, AllFaultsAtOnceWithFileAndLine) {
    const auto user =
        file("user.toml", "[ledger]\nreaders = 0\nreadres = 2\n[sokcet]\npath = 'x'\n");
    sources.files = {user};
    sources.options = {"log.level=loud", "nothing=1"};
    try {
        (void)read();
        FAIL() << "accepted";
    } catch (const Error& error) {
        const std::string all = error.what();
        EXPECT_THAT(all, HasSubstr("user.toml line 2: ledger.readers"));
        EXPECT_THAT(all, HasSubstr("user.toml line 3: ledger.readres"));
        EXPECT_THAT(all, HasSubstr("user.toml line 5: section [sokcet]"));
        EXPECT_THAT(all, HasSubstr("option --set: log.level"));
        EXPECT_THAT(all, HasSubstr("--set nothing=1"));
        EXPECT_EQ(error.faults().size(), 5U);
    }
}

TEST_F(SettingsTest, ABrokenFileIsNamedWithItsLine) {
    sources.files = {file("user.toml", "[ledger]\nreaders = = 2\n")};
    try {
        (void)read();
        FAIL() << "accepted";
    } catch (const Error& error) {
        EXPECT_THAT(error.what(), HasSubstr("user.toml line 2"));
    }
}

TEST_F(SettingsTest, PluginSectionsAreHandedOnWhole) {
    sources.files = {file("user.toml", "[plugin.reorder]\nweeks = 6\n")};
    EXPECT_EQ(read().settings.plugin.at("reorder"), (json::object{{"weeks", 6}}));
}

TEST_F(SettingsTest, OfARepeatedOptionTheLastCounts) {
    sources.options = {"ledger.readers=3", "ledger.readers=4"};
    EXPECT_EQ(origin("ledger.readers"), "4 from option --set");
}

TEST_F(SettingsTest, APluginsSettingsAreMergedOneByOne) {
    const auto user = file("user.toml", "[plugin.reorder]\nweeks = 6\n");
    const auto system = file("system.toml", "[plugin.reorder]\nweeks = 2\nspare = 0.1\n"
                                            "[plugin.canning]\naltitude = 300\n");
    sources.files = {user, system};
    sources.options = {"plugin.reorder.goods=light extract", "plugin.reorder.days=[1, 2]",
                       "plugin.cost.round=true", "plugin.canning.altitude=310"};
    const auto plugins = read().settings.plugin;
    EXPECT_EQ(plugins.at("reorder"), (json::object{{"weeks", 6},
                                                   {"spare", 0.1},
                                                   {"goods", "light extract"},
                                                   {"days", json::array{1, 2}}}));
    EXPECT_EQ(plugins.at("cost"), (json::object{{"round", true}}));
    EXPECT_EQ(plugins.at("canning"), (json::object{{"altitude", 310}}));
    EXPECT_EQ(origin("plugin.reorder.weeks"), "6 from " + user.string() + " line 2");
    EXPECT_EQ(origin("plugin.reorder.spare"), "0.1 from " + system.string() + " line 3");
    EXPECT_EQ(origin("plugin.canning.altitude"), "310 from option --set");
}

TEST_F(SettingsTest, APluginsSettingsStandInASectionOfItsOwn) {
    sources.files = {file("user.toml", "[plugin]\nreorder = 6\n")};
    sources.options = {"plugin.reorder=6", "plugin..weeks=6", "plugin.reorder.=6"};
    try {
        (void)read();
        FAIL() << "accepted";
    } catch (const Error& error) {
        const std::string all = error.what();
        EXPECT_THAT(all, HasSubstr("user.toml line 2"));
        EXPECT_THAT(all, HasSubstr("--set plugin.reorder=6"));
        EXPECT_THAT(all, HasSubstr("--set plugin..weeks=6"));
        EXPECT_THAT(all, HasSubstr("--set plugin.reorder.=6"));
        EXPECT_EQ(error.faults().size(), 4U);
    }
}

/// Of a link that leads to itself not even root can say whether its file is there.
TEST_F(SettingsTest, AFileThatCannotBeLookedForIsAFault) {
    const auto circle = folder / "circle.toml";
    std::filesystem::create_symlink(circle, circle);
    sources.files = {circle, folder};
    try {
        (void)read();
        FAIL() << "accepted";
    } catch (const Error& error) {
        EXPECT_THAT(error.what(), HasSubstr(circle.string()));
        EXPECT_THAT(error.what(), HasSubstr(folder.string() + " is a folder"));
        EXPECT_EQ(error.faults().size(), 2U);
    }
}

TEST_F(SettingsTest, WithoutAHomeThePlacesMustBeSet) {
    environment.clear();
    EXPECT_THROW((void)read(), Error);
    sources.options = {"ledger.file=/x/l", "socket.path=/x/s"};
    EXPECT_EQ(read().settings.ledger.file, "/x/l");
}

TEST_F(SettingsTest, TheSampleFileIsValidOnceUncommented) {
    std::string text;
    std::istringstream sample{sample_file()};
    for (std::string line; std::getline(sample, line);) {
        const bool is_value = line.starts_with("# ") && line.find(" = ") != std::string::npos;
        text += (is_value ? line.substr(2) : line) + "\n";
    }
    sources.files = {file("sample.toml", text)};
    EXPECT_EQ(origin("ledger.readers").substr(0, 7), "4 from ");
    EXPECT_THAT(origin("ledger.readers"), HasSubstr("sample.toml"));
}

} // namespace
} // namespace barmkeep::daemon
