// The generated pages are those of this program.
#include "tests/system/daemon_under_test.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

namespace barmkeep::test {
namespace {

std::string page(const char* name) {
    std::ifstream in(std::filesystem::path(BARMKEEP_SOURCE) / name);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

constexpr const char* how = "run config/make-docs BUILD-FOLDER";

TEST(Generated, TheMethodManualIsUpToDate) {
    const ScratchFolder folder;
    DaemonUnderTest daemon{folder.path(), ""}; // the system's clock: without clock.set
    daemon.start();
    const auto manual = daemon.barm({"manual"});
    EXPECT_EQ(manual.exit_code, 0) << manual.err;
    EXPECT_FALSE(manual.out.empty());
    EXPECT_TRUE(manual.out == page("docs/methods.md")) << how;
    const auto man = daemon.barm({"manual", "--man"});
    EXPECT_FALSE(man.out.empty()) << man.err;
    EXPECT_TRUE(man.out == page("docs/barm.1")) << how;
}

TEST(Generated, TheDaemonsManPageIsUpToDate) {
    const auto man = run({BARMKEEPD_PROGRAM, "--manual"});
    EXPECT_EQ(man.exit_code, 0);
    EXPECT_FALSE(man.out.empty());
    EXPECT_TRUE(man.out == page("docs/barmkeepd.8")) << how;
}

TEST(Generated, TheSampleSettingsAreUpToDate) {
    const auto sample = run({BARMKEEPD_PROGRAM, "--sample-settings"});
    EXPECT_EQ(sample.exit_code, 0);
    EXPECT_FALSE(sample.out.empty());
    EXPECT_TRUE(sample.out == page("config/barmkeepd.toml")) << how;
}

} // namespace
} // namespace barmkeep::test
