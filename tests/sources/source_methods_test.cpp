// Keys of sources (sdk/brewing/sources.hpp, sdk/contract/safety_sources.hpp): each one resolves,
// and each row is used.
#include "daemon/sources/source_methods.hpp"

#include "sdk/brewing/fuel.hpp"
#include "sdk/brewing/growth.hpp"
#include "sdk/brewing/pack.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/slurry.hpp"
#include "sdk/brewing/sources.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "sdk/brewing/viability_models.hpp"

#include <filesystem>
#include <fstream>
#include <gmock/gmock.h>
#include <regex>
#include <set>
#include <sstream>

namespace barmkeep::sources {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

const fs::path root{BARMKEEP_SOURCE_DIR};

std::string text_of(const fs::path& file) {
    std::ifstream stream{file};
    return {std::istreambuf_iterator<char>{stream}, {}};
}

/// The text of all C++ files of a folder, tables of sources left out.
std::string code_in(const std::string& folder) {
    std::string all;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
        const auto name = entry.path().filename().string();
        if ((name.ends_with(".hpp") || name.ends_with(".cpp")) && name != "sources.cpp" &&
            name != "safety_sources.hpp")
            all += text_of(entry.path());
    }
    return all;
}

std::set<std::string> words_of(const std::string& text, const std::string& pattern) {
    const std::regex word{pattern};
    std::set<std::string> words;
    for (std::sregex_iterator at{text.begin(), text.end(), word}, end; at != end; ++at)
        words.insert(at->str());
    return words;
}

std::set<std::string> known_keys() {
    std::set<std::string> keys;
    for (const auto& one : all_sources())
        keys.insert(one.key);
    return keys;
}

/// Every key that an estimate, a rate, a limit or a statement of the science carries.
std::set<std::string> keys_in_the_tables() {
    using namespace brewing;
    std::string all;
    const auto add = [&](std::string_view keys) {
        all += std::string(keys) + " ";
    };
    for (const PitchRate& rate : pitch_rates()) {
        add(rate.key);
        add(rate.source);
    }
    for (const PackFigure& figure : pack_figures()) {
        add(figure.key);
        add(figure.source);
    }
    for (const StepLimit& limit : step_limits()) {
        add(limit.key);
        add(limit.source);
    }
    for (const auto material :
         {YeastMaterial::liquid_pack, YeastMaterial::slurry, YeastMaterial::dry_pack,
          YeastMaterial::home_dried, YeastMaterial::sterile_water})
        for (const ViabilityModel& model : viability_models(material)) {
            add(model.key);
            add(model.source);
        }
    const Wort wort{1.0 * litre, Gravity::sg(1.036)};
    for (const Stirring stirring : {Stirring::unstirred, Stirring::stirred})
        add(new_cells(100.0 * billion_cells, wort, stirring).sources);
    add(cells_in_liquid_packs(1).sources);
    add(cells_in_dry_yeast(1.0 * gram).sources);
    add(cells_in_slurry(1.0 * litre).sources);
    for (const GasBurner burner : {GasBurner::cooktop, GasBurner::outdoor})
        add(efficiency(burner).sources);
    for (const Statement& statement : statements())
        add(statement.source);
    std::istringstream stream{all};
    std::set<std::string> keys;
    for (std::string key; stream >> key;)
        if (key != "from-memory")
            keys.insert(key);
    return keys;
}

TEST(Sources, EachKeyThatTheScienceCarriesResolves) {
    const auto known = known_keys();
    const auto carried = keys_in_the_tables();
    EXPECT_GT(carried.size(), 60U);
    for (const auto& key : carried)
        EXPECT_TRUE(known.contains(key)) << key;
}

// Letters and a number: the form of every key but the few of letters alone, which the tables carry.
TEST(Sources, EachKeyInCodeAndPagesResolves) {
    const auto known = known_keys();
    const std::string text = code_in("sdk/brewing") + code_in("sdk/contract") + code_in("plugins") +
                             text_of(root / "docs/science.md") + text_of(root / "docs/starter.md");
    // Lot codes of examples, and terms of other trades.
    const std::set<std::string> others{"C440", "F0"};
    const auto found = words_of(
        text,
        R"(\b(S|EX|GR|SP|PR|PK|DY|WL|WZ|WYE|WOO|LAL|FER|BYO|BQ|ESC|KAI|STU|JIB)[0-9]+(-[a-z]+)?\b)");
    EXPECT_GT(found.size(), 60U);
    for (const auto& key : found)
        EXPECT_TRUE(known.contains(key) || others.contains(key)) << key;
}

TEST(Sources, EachRowIsUsed) {
    std::string text =
        code_in("sdk/brewing") + code_in("plugins/starter") + code_in("tests/published");
    for (const auto& entry : fs::recursive_directory_iterator(root / "tests/published/data"))
        if (entry.path().extension() == ".csv" && entry.path().filename() != "sources.csv")
            text += text_of(entry.path());
    const auto words = words_of(text, R"([A-Za-z0-9-]+)");
    const auto carried = keys_in_the_tables();
    for (const auto& source : brewing::sources())
        EXPECT_TRUE(words.contains(std::string(source.key)) ||
                    carried.contains(std::string(source.key)))
            << source.key;
}

TEST(Sources, EachKeyStandsForOneThing) {
    std::set<std::string> keys;
    for (const auto& one : all_sources()) {
        EXPECT_TRUE(keys.insert(one.key).second) << one.key;
        EXPECT_FALSE(one.what.empty()) << one.key;
        EXPECT_FALSE(one.used_for.empty()) << one.key;
    }
}

// The page cites each publication in full, and nothing else.
TEST(Sources, ThePageOfTheScienceCitesEachPublication) {
    const std::string page = text_of(root / "docs/science.md");
    const auto at = page.find("\n## Sources\n");
    ASSERT_NE(at, std::string::npos);
    std::set<std::string> cited;
    std::istringstream lines{page.substr(at)};
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with("| ") && !line.starts_with("| key "))
            cited.insert(line.substr(2, line.find(" |", 2) - 2));
    std::set<std::string> known;
    for (const auto& source : brewing::sources())
        known.insert(std::string(source.key));
    EXPECT_EQ(cited, known);
}

TEST(SourceShow, ResolvesAPublicationAStatementAndASafetySource) {
    const auto publication = source_with("WOO4");
    EXPECT_THAT(publication.used_for, HasSubstr("yield"));
    EXPECT_FALSE(publication.from);
    const auto statement = source_with("GR36");
    EXPECT_THAT(statement.what, HasSubstr("0.9 to 2.0"));
    EXPECT_THAT(*statement.from, HasSubstr("SVH"));
    EXPECT_THAT(source_with("S79").used_for, HasSubstr("canning"));
}

TEST(SourceShow, AnUnknownKeyIsRefusedWithTheNearestOne) {
    try {
        (void)source_with("GR37");
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::not_found);
        EXPECT_EQ(error.reason(), "no_such_source");
        EXPECT_THAT(error.hint(), HasSubstr("barm source show GR3"));
    }
    try {
        (void)source_with("nothing like it");
        FAIL();
    } catch (const Error& error) {
        EXPECT_THAT(error.hint(), HasSubstr("barm source list"));
    }
}

TEST(SourceList, IsSortedByLettersAndNumber) {
    ManualClock clock{Instant{}};
    MethodTable table{clock};
    add_source_methods(table);
    const json::value none = json::object{};
    const auto outcome = table.call("source.list", Call{}, &none);
    ASSERT_TRUE(std::holds_alternative<json::value>(outcome));
    const auto list = decode<contract::SourceList::Result>(std::get<json::value>(outcome)).sources;
    EXPECT_EQ(list.size(), all_sources().size());
    const auto place_of = [&](std::string_view key) {
        return std::ranges::find(list, key, &contract::Source::key) - list.begin();
    };
    EXPECT_LT(place_of("S9"), place_of("S10"));
    EXPECT_LT(place_of("PR06"), place_of("PR06-lager"));
}

} // namespace
} // namespace barmkeep::sources
