#include "plugins/starter/cautions.hpp"

#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::starter {
namespace {

using testing::Contains;
using testing::HasSubstr;

std::string safety_page() {
    std::ifstream file(BARMKEEP_SOURCE_DIR "/docs/safety.md");
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

/// What stands in brackets at the end of a caution; empty if nothing does.
std::string sources_of(const std::string& caution) {
    const auto begin = caution.rfind('[');
    if (begin == std::string::npos || !caution.ends_with("]"))
        return "";
    return caution.substr(begin + 1, caution.size() - begin - 2);
}

// Found in review: most of them named no source.
TEST(Cautions, EachTellsItsSourcesOrThatItHasNone) {
    const std::string page = safety_page();
    for (const std::string& caution : cautions()) {
        const std::string sources = sources_of(caution);
        ASSERT_FALSE(sources.empty()) << caution;
        if (sources == "common practice, no source" || sources == "house rule")
            continue;
        std::istringstream keys(sources);
        for (std::string key; keys >> key;)
            EXPECT_THAT(page, HasSubstr("- **" + key + "** ")) << caution;
    }
}

TEST(Cautions, SayWhatExtensionServicesSayOfUntestedJars) {
    EXPECT_THAT(cautions(),
                Contains(HasSubstr("without a tested recipe as unsafe, sealed or not")));
}

} // namespace
} // namespace barmkeep::starter
