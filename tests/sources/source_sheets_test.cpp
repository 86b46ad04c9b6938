// What a person reads of a source.
#include "daemon/sources/source_sheets.hpp"

#include "daemon/sources/source_methods.hpp"
#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::sources {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

TEST(SourceSheets, AFigureLeadsToItsPublications) {
    const auto made = show_sheet({"GR36"}, source_with("GR36"));
    EXPECT_THAT(sheet::check(made), IsEmpty());
    const std::string text = sheet::write_text(made, {});
    EXPECT_THAT(text, HasSubstr("[GR36]"));
    EXPECT_THAT(text, HasSubstr("source.show key=SVH"));
}

TEST(SourceSheets, TheListHasARowForEach) {
    const contract::SourceList::Result all{all_sources()};
    const auto made = list_sheet({}, all);
    EXPECT_THAT(sheet::check(made), IsEmpty());
    const std::string text = sheet::write_text(made, {});
    EXPECT_THAT(text, HasSubstr("of all figures and safety texts"));
    for (const auto& source : all.sources)
        EXPECT_THAT(text, HasSubstr(source.key));
}

} // namespace
} // namespace barmkeep::sources
