#include "plugins/canning/cautions.hpp"
#include "plugins/canning/process/check.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gmock/gmock.h>
#include <regex>
#include <set>
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

/// The keys in the brackets of every text in a source file; comments do not count.
void add_keys_of_texts(const std::filesystem::path& file, std::set<std::string>& keys) {
    std::ifstream source{file};
    std::string code;
    for (std::string line; std::getline(source, line);)
        code += line.substr(0, line.find("// ")) + "\n";
    code = std::regex_replace(code, std::regex{"\"\\s+\""}, ""); // literals over several lines
    const std::regex bracket{"\\[((S[0-9]+ ?)+)\\]"};
    for (auto at = std::sregex_iterator(code.begin(), code.end(), bracket);
         at != std::sregex_iterator(); ++at)
        for (const auto& key : keys_in(at->str()))
            keys.insert(key);
}

/// Every key in a safety text: the cautions, the texts of the plugins, the pressure bands.
std::set<std::string> keys_of_all_texts() {
    std::set<std::string> keys;
    for (const auto* folder : {"plugins/canning", "plugins/starter"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(
                 std::filesystem::path(BARMKEEP_SOURCE_DIR) / folder))
            if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp")
                add_keys_of_texts(entry.path(), keys);
    for (const Caution& caution : all_cautions())
        for (const auto& key : keys_in(caution.text))
            keys.insert(key);
    for (const auto gauge : {contract::Gauge::dial, contract::Gauge::weighted})
        for (int feet = 0; feet <= 10'000; feet += 1000) {
            const auto known =
                at_altitude(gauge, 15 * brewing::psi_gauge, double(feet) * brewing::foot);
            for (const auto& key : keys_in(known.band_source))
                keys.insert(key);
        }
    return keys;
}

TEST(Sources, OfEverySafetyTextResolve) {
    const auto keys = keys_of_all_texts();
    EXPECT_GT(keys.size(), 30U);
    for (const auto& key : keys)
        EXPECT_TRUE(is_source(key)) << key;
}

// Found in trials: sources that serve nothing were listed.
TEST(Sources, ThatServeNothingAreNotListed) {
    const auto keys = keys_of_all_texts();
    for (const auto& source : contract::safety_sources)
        EXPECT_TRUE(keys.contains(std::string(source.key))) << source.key;
}

/// Every key of a page, as in "S14" or "S14, S15".
std::set<std::string> keys_of_page(const std::string& text) {
    std::set<std::string> keys;
    const std::regex key{"\\bS[0-9]+\\b"};
    for (auto at = std::sregex_iterator(text.begin(), text.end(), key);
         at != std::sregex_iterator(); ++at)
        keys.insert(at->str());
    return keys;
}

TEST(Sources, OfThePagesForBrewersAreListedOnTheSafetyPageAndEachIsCited) {
    const std::string safety = page("docs/safety.md");
    const auto list_at = safety.find("## Sources");
    ASSERT_NE(list_at, std::string::npos);
    const auto listed = keys_of_page(safety.substr(list_at));
    auto cited = keys_of_page(safety.substr(0, list_at));
    for (const auto& key : keys_of_page(page("docs/canning.md")))
        cited.insert(key);
    for (const auto& key : cited)
        EXPECT_TRUE(listed.contains(key)) << key;
    for (const auto& key : keys_of_all_texts())
        cited.insert(key);
    for (const auto& key : listed)
        EXPECT_TRUE(cited.contains(key)) << key;
}

} // namespace
} // namespace barmkeep::canning
