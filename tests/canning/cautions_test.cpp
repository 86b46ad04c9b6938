#include "plugins/canning/cautions.hpp"

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
    for (const auto* key : {"before_opening", "throwing_out", "boil_before_use",
                            "boiling_no_remedy", "what_boiling_means", "spoiled_run"})
        EXPECT_THAT(keys(cautions(Moment::opening)), Contains(key));
    for (const auto* key : {"venting", "pressure_drop", "no_forced_cooling", "seal_test",
                            "failed_jar", "temperature_no_proof", "log_complete", "deviation",
                            "never_canned_again", "heat_off_early"})
        EXPECT_THAT(keys(cautions(Moment::running)), Contains(key));
}

bool is_source(const std::string& key) {
    return std::ranges::find(contract::safety_sources, key, &contract::SourceTitle::key) !=
           contract::safety_sources.end();
}

/// The keys that stand in brackets in a text.
std::vector<std::string> keys_in(const std::string& text) {
    std::vector<std::string> all;
    std::string inside;
    bool is_inside = false;
    for (const char letter : text) {
        if (letter == '[')
            is_inside = true;
        else if (letter == ']') {
            std::istringstream words{inside};
            for (std::string word; words >> word;)
                if (word != "house" && word != "rule")
                    all.push_back(word);
            inside.clear();
            is_inside = false;
        } else if (is_inside)
            inside += letter;
    }
    return all;
}

TEST(Cautions, HaveTheirSourcesInBracketsAndEachSourceIsOnTheSafetyPage) {
    const std::string safety = page("docs/safety.md");
    ASSERT_FALSE(safety.empty());
    for (const Caution& caution : all_cautions()) {
        EXPECT_THAT(caution.text, testing::EndsWith("[" + caution.source + "]"));
        for (const auto& key : keys_in(caution.text))
            EXPECT_TRUE(is_source(key)) << caution.key << ": " << key;
    }
    for (const auto& source : contract::safety_sources)
        EXPECT_THAT(safety, HasSubstr("**" + std::string(source.key) + "**"));
}

TEST(Cautions, SayNothingFromMemoryAndNameNobody) {
    for (const Caution& caution : all_cautions())
        for (const auto* word : {"from memory", "USDA", "University", "Extension", "Univ."})
            EXPECT_THAT(caution.text, Not(HasSubstr(word))) << caution.key;
}

TEST(Cautions, NeverCallAnythingSafeAndNameNoProcessTime) {
    for (const Caution& caution : all_cautions()) {
        EXPECT_THAT(caution.text, Not(HasSubstr("makes it safe"))) << caution.key;
        EXPECT_THAT(caution.text, Not(HasSubstr("is safe."))) << caution.key;
    }
}

// Found in trials: sources that serve nothing were listed.
TEST(Sources, ThatServeNothingAreNotListed) {
    for (const auto* key : {"S5", "S7", "S8", "S42", "S43", "S47"})
        EXPECT_FALSE(is_source(key)) << key;
}

} // namespace
} // namespace barmkeep::canning
