// The examples of docs/sheets.md, word for word: what the guide shows compiles and prints so.
#include "sdk/sheet/builder.hpp"
#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"
#include "tests/sheet/examples.hpp"

#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::sheet {
namespace {

// ---- guide: the method
struct Planned {
    std::string beer;
    std::int64_t jars = 0;
    LotCode first;
    brewing::Volume water;
    Seconds boil{};
    Date start{};
    double assurance = 0;
    Range<brewing::Cells> cells;
    Seconds pack_age{};
    std::int64_t brew = 0;
};

Sheet sheet_of(const Planned& result) {
    return SheetBuilder("Starter for ", result.beer)
        .lead("Open ", count(result.jars, "jar"), " on ", result.start, ": ",
              share(result.assurance), " sure.")
        .step({text("Take ", result.first, " and ", result.water, " of water."), result.start,
               StepState::next})
        .step({text("Boil for ", result.boil, ", cool, pitch.")})
        .warning("old_pack", "The pack is ", result.pack_age, " old by then.")
        .more("How this was computed", SheetBuilder().facts({{"cells now", result.cells}}))
        .usual_action(offer("make it", "starter.make", {{"brew", result.brew}}, "m"))
        .topic("lot.");
}
// ---- guide: end

Planned example() {
    Planned result;
    result.beer = "Dunkel";
    result.jars = 2;
    result.first = LotCode{'J', 10};
    result.water = 0.61 * brewing::litre;
    result.boil = Seconds{14 * 60};
    result.start = Date{std::chrono::year{2026}, std::chrono::month{10}, std::chrono::day{19}};
    result.assurance = 0.78;
    result.pack_age = Seconds{181 * 86400};
    result.brew = 12;
    return result;
}

std::string file_text(const std::string& path) {
    std::ifstream file{path};
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// A text as the guide shows it: each line indented by four blanks.
std::string indented(const std::string& text) {
    std::istringstream stream{text};
    std::string out;
    for (std::string line; std::getline(stream, line);)
        out += line.empty() ? "\n" : "    " + line + "\n";
    return out;
}

TEST(Guide, ItsExampleIsTheOneCompiledHere) {
    const std::string source = file_text(BARMKEEP_TESTS "/guide_test.cpp");
    const std::size_t begin = source.find("// ---- guide: the method\n") + 26;
    const std::string example = source.substr(begin, source.find("// ---- guide: end") - begin);
    EXPECT_THAT(file_text(BARMKEEP_GUIDE), testing::HasSubstr(indented(example)));
}

TEST(Guide, ItsExamplePrintsAsItSays) {
    const std::string text = write_text(sheet_of(example()), examples::reader());
    EXPECT_THAT(file_text(BARMKEEP_GUIDE), testing::HasSubstr(indented(text)));
    EXPECT_THAT(check(sheet_of(example())), testing::IsEmpty());
}

TEST(Guide, ItsJsonIsASheet) {
    const std::string guide = file_text(BARMKEEP_GUIDE);
    const std::size_t begin = guide.find("    {\"title\"");
    ASSERT_NE(begin, std::string::npos);
    const DecodedSheet decoded =
        decode_sheet(guide.substr(begin, guide.find("\n\n", begin) - begin));
    EXPECT_THAT(decoded.faults, testing::IsEmpty());
    ASSERT_TRUE(decoded.sheet.has_value());
    for (const Block& block : decoded.sheet->blocks)
        EXPECT_NE(kind_of(block), "");
    // Checked as a request is: every member of the example is one that the guide names rightly.
    EXPECT_EQ(read_as<Sheet>(to_json(*decoded.sheet)), *decoded.sheet);
}

TEST(Guide, NamesEveryKindOfBlockAndValue) {
    const std::string guide = file_text(BARMKEEP_GUIDE);
    for (const char* kind : {"facts", "table", "steps", "chart", "clock", "warning", "caution",
                             "note", "lines", "more"})
        EXPECT_THAT(guide, testing::HasSubstr("| `" + std::string(kind) + "` |"));
    for (const auto& kind : enum_names(QuantityKind{}))
        EXPECT_THAT(guide, testing::HasSubstr("`" + std::string(kind.text) + "`"));
}

} // namespace
} // namespace barmkeep::sheet
