#include "plugins/canning/cautions.hpp"
#include "plugins/canning/sources.hpp"

#include <algorithm>
#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::canning {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::string page(const std::string& name) {
    std::ifstream file{std::string(BARMKEEP_SOURCE_DIR) + "/" + name};
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<std::string> keys(const std::vector<Caution>& all) {
    std::vector<std::string> names;
    for (const Caution& caution : all)
        names.push_back(caution.key);
    return names;
}

TEST(Cautions, OfEveryMomentSayThatNoProcessIsTestedAndNoBathWillDo) {
    for (const auto& word : enum_names(Moment{})) {
        const auto names = keys(cautions(word.value));
        EXPECT_THAT(names, Contains("low_acid")) << word.text;
        EXPECT_THAT(names, Contains("no_tested_process")) << word.text;
        EXPECT_THAT(names, Contains("untested_jars")) << word.text;
    }
}

TEST(Cautions, OfOpeningSayNeverTasteAndOfRunningSayNoForcedCooling) {
    EXPECT_THAT(keys(cautions(Moment::opening)), Contains("before_opening"));
    EXPECT_THAT(keys(cautions(Moment::opening)), Contains("throwing_out"));
    for (const auto* key : {"venting", "pressure_drop", "no_forced_cooling", "seal_test",
                            "failed_jar", "temperature_no_proof", "log_complete"})
        EXPECT_THAT(keys(cautions(Moment::running)), Contains(key));
}

TEST(Cautions, NameTheirSourcesAndEachSourceIsOnTheSafetyPage) {
    const std::string safety = page("docs/safety.md");
    ASSERT_FALSE(safety.empty());
    for (const Caution& caution : all_cautions()) {
        EXPECT_FALSE(caution.source.empty()) << caution.key;
        EXPECT_TRUE(resolved(caution.source).find("[S") != std::string::npos ||
                    caution.source == "house rule")
            << caution.key << ": " << caution.source;
    }
    for (const Source& source : sources())
        EXPECT_THAT(safety, HasSubstr("**" + std::string(source.key) + "**"));
}

TEST(Cautions, NeverCallAnythingSafeAndNameNoProcessTime) {
    for (const Caution& caution : all_cautions()) {
        EXPECT_THAT(caution.text, Not(HasSubstr("makes it safe"))) << caution.key;
        EXPECT_THAT(caution.text, Not(HasSubstr("is safe.")));
    }
}

TEST(Sources, ResolveKeysAndKeepOtherWords) {
    EXPECT_THAT(resolved("S14 S15"), HasSubstr("[S14]; Michigan"));
    EXPECT_EQ(resolved("house rule"), "house rule");
    EXPECT_EQ(resolved(""), "");
}

} // namespace
} // namespace barmkeep::canning
