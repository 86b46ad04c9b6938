// What is not loaded, and how that is reported.
#include "tests/host/fixture.hpp"

#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace barmkeep::host::test {
namespace {

using contract::PluginState;
using testing::AllOf;
using testing::HasSubstr;
namespace fs = std::filesystem;

using Checking = HostTest;

TEST_F(Checking, ASoundFileIsLoaded) {
    put("tally");
    start();
    const auto tally = info("tally");
    EXPECT_EQ(tally.state, PluginState::running);
    EXPECT_EQ(tally.version, "1.2.3");
    EXPECT_THAT(tally.methods, testing::Contains("tally.count"));
    EXPECT_FALSE(tally.fault);
}

TEST_F(Checking, AFileThatOthersMayWriteIsRefusedWithItsModeAndOwner) {
    fs::permissions(put("tally"), static_cast<fs::perms>(0646));
    start();
    EXPECT_THAT(fault("tally"), AllOf(HasSubstr("mode 0646"), HasSubstr("tally.so"),
                                      HasSubstr("uid " + std::to_string(::geteuid()))));
    EXPECT_THAT(log(), HasSubstr("chmod go-w"));
}

TEST_F(Checking, AFolderThatOthersMayWriteIsRefusedEvenIfSticky) {
    put("tally");
    fs::permissions(folder_, static_cast<fs::perms>(01777));
    start();
    EXPECT_THAT(fault("tally"), HasSubstr("mode 1777"));
}

TEST_F(Checking, AFolderFurtherUpIsCheckedToo) {
    const fs::path inner = folder_ / "inner";
    fs::create_directory(inner);
    fs::permissions(inner, static_cast<fs::perms>(0755));
    fs::rename(put("tally"), inner / "tally.so");
    fs::permissions(folder_, static_cast<fs::perms>(0775));
    options_.folders = {inner};
    start();
    EXPECT_THAT(fault("tally"), AllOf(HasSubstr("mode 0775"), HasSubstr(folder_.string())));
}

TEST_F(Checking, EachFolderOnTheWayIsChecked) {
    const fs::path inner = folder_ / "inner";
    fs::create_directory(inner);
    fs::rename(put("tally"), inner / "tally.so");
    fs::permissions(inner, static_cast<fs::perms>(0775));
    options_.folders = {inner};
    start();
    EXPECT_THAT(fault("tally"), AllOf(HasSubstr("mode 0775"), HasSubstr(inner.string())));
}

TEST_F(Checking, TheUsualTrustBeginsAtTheRoot) {
    const Trust trust = Trust::usual();
    EXPECT_EQ(trust.checked_from, "/");
    EXPECT_EQ(trust.owners, (std::set<uid_t>{0, ::geteuid()}));
}

TEST_F(Checking, AFileOfSomebodyElseIsRefusedWithItsOwner) {
    put("tally");
    options_.trust.owners = {::geteuid() + 1};
    start();
    EXPECT_THAT(fault("tally"), HasSubstr("belongs to uid " + std::to_string(::geteuid())));
}

TEST_F(Checking, ASymbolicLinkIsRefused) {
    fs::create_symlink(put("tally", "real"), folder_ / "tally.so");
    options_.disabled = {"real"};
    start();
    EXPECT_THAT(fault("tally"), HasSubstr("symbolic link"));
}

TEST_F(Checking, ASymbolicLinkAmongTheFoldersIsRefused) {
    const fs::path inner = folder_ / "inner";
    fs::create_directory(inner);
    fs::permissions(inner, static_cast<fs::perms>(0755));
    fs::rename(put("tally"), inner / "tally.so");
    fs::create_directory_symlink(inner, folder_ / "link");
    options_.folders = {folder_ / "link"};
    start();
    EXPECT_THAT(fault("tally"), HasSubstr("symbolic link"));
}

TEST_F(Checking, AFileWithASecondNameIsRefused) {
    fs::create_hard_link(put("tally"), folder_ / "spare.copy");
    start();
    EXPECT_THAT(fault("tally"), HasSubstr("has 2 names"));
}

TEST_F(Checking, APipeIsRefusedWithoutWaitingForIt) {
    ASSERT_EQ(::mkfifo((folder_ / "pipe.so").c_str(), 0600), 0);
    start();
    EXPECT_THAT(fault("pipe"), HasSubstr("not a regular file"));
}

TEST_F(Checking, ARelativeOrWindingPathIsRefused) {
    put("tally");
    EXPECT_THROW((CheckedFile{"tally.so", options_.trust}), Error);
    EXPECT_THROW((CheckedFile{folder_ / ".." / folder_.filename() / "tally.so", options_.trust}),
                 Error);
    for (const auto& odd : {folder_ / "." / "tally.so", folder_ / "inner" / ".." / "tally.so"}) {
        try {
            (void)CheckedFile{odd, options_.trust};
            ADD_FAILURE() << odd << " is opened";
        } catch (const Error& error) {
            EXPECT_EQ(error.reason(), "bad_path") << odd;
        }
    }
    EXPECT_NO_THROW((CheckedFile{folder_ / "tally.so", options_.trust}));
}

TEST_F(Checking, ATextIsNoSharedObject) {
    std::ofstream{folder_ / "poem.so"} << "Barm, barm, barm.\n";
    fs::permissions(folder_ / "poem.so", static_cast<fs::perms>(0644));
    start();
    EXPECT_THAT(fault("poem"), AllOf(HasSubstr("poem.so"), HasSubstr("cannot be loaded"),
                                     testing::Not(HasSubstr("/proc/"))));
}

TEST_F(Checking, ASharedObjectWithoutTheEntryIsRefused) {
    put("missing");
    start();
    EXPECT_THAT(fault("missing"), HasSubstr("barmkeep_plugin_entry"));
}

TEST_F(Checking, OfTwoVersionsTheOneToUpdateIsTold) {
    for (const auto* name : {"minor", "newer", "older"})
        put(name);
    start();
    EXPECT_THAT(fault("minor"), HasSubstr("is built for version 1.2"));
    EXPECT_THAT(fault("newer"), HasSubstr("is built for version 2.1"));
    EXPECT_THAT(fault("older"), HasSubstr("is built for version 0.1"));
    const std::string told = log();
    const auto line_of = [&](const std::string& name) {
        const auto at = told.find("plugin " + name + ":");
        return told.substr(at, told.find('\n', at) - at);
    };
    EXPECT_THAT(line_of("minor"), HasSubstr("Update Barmkeep."));
    EXPECT_THAT(line_of("newer"), HasSubstr("Update Barmkeep."));
    EXPECT_THAT(line_of("older"), HasSubstr("Update the plugin."));
}

TEST_F(Checking, ADescriptorThatIsNoneIsRefused) {
    for (const auto* name : {"magic", "small", "nothing", "lacking"})
        put(name);
    start();
    EXPECT_THAT(fault("magic"), HasSubstr("magic"));
    EXPECT_THAT(fault("small"), HasSubstr("bytes"));
    EXPECT_THAT(fault("nothing"), HasSubstr("returns nothing"));
    EXPECT_THAT(fault("lacking"), HasSubstr("function is missing"));
}

TEST_F(Checking, ADescriptionThatIsNoneIsRefused) {
    put("babbling");
    put("schemaless");
    start();
    EXPECT_THAT(fault("babbling"), HasSubstr("not JSON"));
    EXPECT_THAT(fault("schemaless"), AllOf(HasSubstr("/methods/0"), HasSubstr("schemaless.go")));
}

TEST_F(Checking, AStartThatFailsIsToldInThePluginsWords) {
    put("refusing");
    put("mute");
    start();
    EXPECT_EQ(fault("refusing"), "Not today.");
    EXPECT_THAT(log(), HasSubstr("Come back tomorrow."));
    EXPECT_THAT(fault("mute"), HasSubstr("did not say why"));
}

TEST_F(Checking, AFileUnderAnotherNameThanThePluginsIsRefused) {
    put("tally", "tallyho");
    start();
    EXPECT_THAT(fault("tallyho"), HasSubstr("calls itself tally"));
    EXPECT_THAT(log(), HasSubstr("Name the file tally.so"));
}

TEST_F(Checking, AFileNameThatIsNoPluginsNameIsRefusedUnread) {
    put("tally", "Tally-2");
    put("tally", "core");
    start();
    EXPECT_THAT(fault("Tally-2"), HasSubstr("not a valid file name of a plugin"));
    EXPECT_THAT(fault("core"), HasSubstr("not a valid file name of a plugin"));
}

TEST_F(Checking, AMethodThatIsTakenFailsThePluginAndLeavesNoneOfItsMethods) {
    put("greedy");
    start();
    EXPECT_THAT(fault("greedy"), HasSubstr("test.gate"));
    EXPECT_EQ(methods_.find("greedy.go"), nullptr);
    EXPECT_EQ(methods_.find("test.gate")->provider, "core");
}

TEST_F(Checking, OneBadPluginDoesNotHinderTheNext) {
    put("magic");
    put("tally");
    start();
    EXPECT_EQ(info("magic").state, PluginState::failed);
    EXPECT_EQ(info("tally").state, PluginState::running);
}

TEST_F(Checking, WrongSettingsFailThePluginWithEveryFault) {
    put("tally");
    options_.settings["tally"] = {{"frist", 3}, {"greeting", ""}};
    start();
    EXPECT_THAT(fault("tally"), AllOf(HasSubstr("'frist'"), HasSubstr("must not be empty")));
    EXPECT_THAT(log(), HasSubstr("Did you mean 'first'?"));
}

TEST_F(Checking, SettingsOfAPluginThatIsNotThereAreNoted) {
    options_.settings["talley"] = {};
    start();
    EXPECT_THAT(log(), HasSubstr("no talley.so"));
}

TEST_F(Checking, AFolderThatIsNotThereIsNoted) {
    options_.folders.push_back(folder_ / "gone");
    start();
    EXPECT_THAT(log(), HasSubstr("gone: No such file"));
}

} // namespace
} // namespace barmkeep::host::test
