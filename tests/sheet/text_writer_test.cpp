// Sheets as text: whole ones against kept files, and what holds for every width.
//
// A kept file is named by its sheet, units, letters and width.  After a change that is meant, write
// them again with BARMKEEP_WRITE_GOLDEN=1 and read the difference.
#include "sdk/sheet/text_writer.hpp"

#include "sdk/sheet/columns.hpp"
#include "tests/sheet/examples.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::sheet {
namespace {

using examples::reader;
using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

struct Golden {
    std::string sheet;
    brewing::System units;
    bool unicode;
    int width;

    [[nodiscard]] std::string name() const {
        return sheet + (units == brewing::System::us ? "_us" : "_metric") +
               (unicode ? "_unicode_" : "_ascii_") + std::to_string(width);
    }
};

Sheet sheet_of(const std::string& name) {
    if (name == "starter")
        return examples::starter();
    if (name == "shelf")
        return examples::shelf();
    return name == "load" ? examples::load() : examples::charts();
}

std::vector<Golden> all_golden() {
    std::vector<Golden> all;
    for (const char* sheet : {"starter", "shelf", "load", "charts"})
        for (const int width : {20, 40, 80, 100})
            for (const bool unicode : {true, false})
                for (const auto units : {brewing::System::metric, brewing::System::us})
                    all.push_back({sheet, units, unicode, width});
    return all;
}

std::string file_text(const std::string& path) {
    std::ifstream file{path};
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream{text};
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

class GoldenText : public testing::TestWithParam<Golden> {};

TEST_P(GoldenText, IsAsKept) {
    Reader to = reader(GetParam().units, GetParam().width);
    to.unicode = GetParam().unicode;
    const std::string text = write_text(sheet_of(GetParam().sheet), to);
    const std::string path = BARMKEEP_GOLDEN "/" + GetParam().name() + ".txt";
    if (std::getenv("BARMKEEP_WRITE_GOLDEN") != nullptr) // NOLINT(concurrency-mt-unsafe)
        std::ofstream{path} << text;
    EXPECT_EQ(text, file_text(path));
}

INSTANTIATE_TEST_SUITE_P(All, GoldenText, testing::ValuesIn(all_golden()),
                         [](const auto& given) { return given.param.name(); });

TEST(TextWriter, NoLineIsWiderThanTheScreenAndAsciiIsAscii) {
    for (const char* name : {"starter", "shelf", "load", "charts"})
        for (int width = 20; width <= 200; width += width < 60 ? 1 : 20)
            for (const bool full : {false, true}) {
                Reader to = reader(brewing::System::us, width);
                to.unicode = false;
                to.full = full;
                for (const auto& line : lines_of(write_text(sheet_of(name), to))) {
                    EXPECT_LE(line.size(), static_cast<std::size_t>(width)) << name << line;
                    for (const char c : line)
                        EXPECT_TRUE(c >= ' ' && c <= '~') << name << width << line;
                }
            }
}

TEST(TextWriter, AWidthOutsideIsBroughtInside) {
    const Sheet sheet = examples::starter();
    EXPECT_EQ(write_text(sheet, reader(brewing::System::us, 1)),
              write_text(sheet, reader(brewing::System::us, 20)));
    EXPECT_EQ(write_text(sheet, reader(brewing::System::us, 9999)),
              write_text(sheet, reader(brewing::System::us, 200)));
}

TEST(TextWriter, AlarmsStandBeforeTheTitleAlsoFromWithinMore) {
    const Sheet sheet = SheetBuilder("Load")
                            .lead("All is well.")
                            .more("More", SheetBuilder().alarm("heat_off", "Heat is off."));
    EXPECT_THAT(write_text(sheet, Reader{}), StartsWith("!! Heat is off.\nLoad\nAll is well.\n"));
}

TEST(TextWriter, ColourMarksWhatMattersAndLeavesTheTextAlone) {
    Reader to = reader();
    to.colour = true;
    std::string text = write_text(examples::load(), to);
    EXPECT_THAT(text, StartsWith("\x1b[1;31m!! Heat went off"));
    EXPECT_THAT(text, HasSubstr("\x1b[1;32m>2"));
    for (std::size_t at = text.find('\x1b'); at != std::string::npos; at = text.find('\x1b'))
        text.erase(at, text.find('m', at) - at + 1);
    EXPECT_EQ(text, write_text(examples::load(), reader()));
}

TEST(TextWriter, FullHasEveryCautionAndWhatIsFolded) {
    Reader to = reader();
    EXPECT_THAT(write_text(examples::starter(), to), Not(HasSubstr("largest growth")));
    EXPECT_THAT(write_text(examples::starter(), to), HasSubstr("14 cautions: add --full"));
    to.full = true;
    const std::string text = write_text(examples::starter(), to);
    EXPECT_THAT(text, HasSubstr("How this was computed\n  cells now       72 B (18 to 75) [GR1]"));
    EXPECT_THAT(text, HasSubstr("\nCautions\n- Can wort only in a pressure canner"));
    EXPECT_THAT(text, Not(HasSubstr("--full")));
}

TEST(TextWriter, FullLeavesNoColumnOut) {
    Reader to = reader(brewing::System::metric, 40);
    EXPECT_THAT(write_text(examples::shelf(), to), Not(HasSubstr("load 1")));
    to.full = true;
    const std::string text = write_text(examples::shelf(), to);
    EXPECT_THAT(text, HasSubstr("from     load 1, wort of the Dunkel"));
    EXPECT_THAT(text, Not(HasSubstr("never filled")));
}

TEST(TextWriter, TheLastTextOfATableIsWrapped) {
    const Sheet sheet = SheetBuilder("Shelf").table(
        {{column("lot"), column("note"), column("left", Align::right)},
         {row(LotCode{'J', 10}, "lost some liquid, so use it first", pieces(12))},
         {}});
    EXPECT_EQ(write_text(sheet, reader(brewing::System::metric, 30)),
              "Shelf\n"
              "\n"
              "lot   note                left\n"
              "J10N  lost some liquid,     12\n"
              "      so use it first\n");
}

TEST(TextWriter, ATableWithoutRoomBecomesLabelledLines) {
    const Sheet sheet = SheetBuilder("Shelf").table(
        {{column("lot of jars"), column("best used by")},
         {row(LotCode{'J', 10}, "spring"), row(LotCode{'J', 16}, "summer")},
         {}});
    EXPECT_EQ(write_text(sheet, reader(brewing::System::metric, 20)), "Shelf\n"
                                                                      "\n"
                                                                      "lot of jars\n"
                                                                      "  J10N\n"
                                                                      "best used by\n"
                                                                      "  spring\n"
                                                                      "\n"
                                                                      "lot of jars\n"
                                                                      "  J16B\n"
                                                                      "best used by\n"
                                                                      "  summer\n");
}

TEST(TextWriter, KeysStandInPlaceOfCommandsWhileFollowed) {
    Reader to = reader();
    to.keys = true;
    EXPECT_THAT(write_text(examples::starter(), to), EndsWith("\nm make it | o see other plans\n"));
    EXPECT_THAT(write_text(examples::starter(), to), Not(HasSubstr("barm")));
}

TEST(TextWriter, RowsShowTheirKeysOrCommands) {
    Row one = row("late");
    one.action = offer("looked at all", "lot.check", {{"load", 3}}, "l");
    const Sheet sheet = SheetBuilder("Reminders").table({{column("when")}, {one}, {}});
    Reader to = reader();
    EXPECT_EQ(write_text(sheet, to), "Reminders\n\nwhen\nlate\n    barm lot check 3\n");
    to.keys = true;
    EXPECT_EQ(write_text(sheet, to), "Reminders\n\nwhen\nlate\n    l looked at all\n");
}

TEST(TextWriter, WithoutAWriterOfCommandsTheMethodIsWritten) {
    Reader to = reader();
    to.command = nullptr;
    Action action;
    action.label = "make it";
    action.method = "starter.make";
    action.params = {{"brew", 12}, {"note", "two words"}};
    action.ask = {"flask"};
    EXPECT_EQ(write_text(SheetBuilder("Starter").action(action), to),
              "Starter\n\nmake it  starter.make brew=12 note=\"two words\" flask=...\n");
}

TEST(TextWriter, NothingFromOutsideSteersTheTerminal) {
    const std::string hostile = "red\x1b[31m\x9b\xc2\x9b bell\a \u202eturned\ttab\nline\x7f";
    Action action;
    action.label = hostile;
    action.method = hostile;
    action.params = {{hostile, "x"}};
    action.letter = hostile;
    Step step{hostile, hostile};
    step.action = action;
    Row one = row(hostile);
    one.action = action;
    Chart chart{hostile, XKind::numbers, hostile, QuantityKind::number, hostile, {}};
    chart.series.push_back({hostile, SeriesKind::markers, {{1, 1, {}, {}, hostile}}});
    const Sheet sheet = SheetBuilder(hostile)
                            .lead(count(2, hostile, hostile), source(hostile), command(hostile),
                                  money(Money{1}, hostile), UnknownValue{{{"x", hostile}}})
                            .facts({{hostile, hostile}}, hostile)
                            .table({{column(hostile)}, {one}, hostile})
                            .step(step)
                            .chart(chart)
                            .clock_to(hostile, Instant{})
                            .alarm(hostile, hostile)
                            .warning(hostile, hostile)
                            .caution(hostile, hostile, true)
                            .more(hostile, SheetBuilder().note(hostile))
                            .action(action);
    for (const bool unicode : {true, false})
        for (const bool keys : {true, false}) {
            Reader to;
            to.unicode = unicode;
            to.keys = keys;
            to.full_hint = hostile;
            const std::string text = write_text(sheet, to);
            EXPECT_EQ(harmless(text).size(), text.size());
            EXPECT_THAT(text, Not(HasSubstr("\x1b")));
            EXPECT_THAT(text, Not(HasSubstr("\a")));
            EXPECT_THAT(text, Not(HasSubstr("\u202e")));
            EXPECT_THAT(text, Not(HasSubstr("\xc2\x9b")));
            EXPECT_THAT(text, Not(HasSubstr("\x7f")));
        }
}

TEST(TextWriter, ChartsTakeAtMostSixteenRows) {
    for (const int width : {20, 40, 80, 200}) {
        std::size_t rows = 0;
        for (const auto& line : lines_of(write_text(examples::charts(), reader({}, width)))) {
            rows = line.empty() ? 0 : rows + 1;
            EXPECT_LE(rows, 16U);
        }
    }
}

TEST(TextWriter, BandsLieBehindLinesInWhateverOrderTheyCome) {
    Sheet sheet = examples::charts();
    const std::string kept = write_text(sheet, reader());
    auto& series = std::get<Chart>(sheet.blocks.front().content).series;
    std::swap(series.at(0), series.at(1));
    const std::string swapped = write_text(sheet, reader());
    EXPECT_EQ(swapped.substr(0, swapped.find("18 Oct")), kept.substr(0, kept.find("18 Oct")));
}

TEST(TextWriter, ChartsTakeWhatNobodyShouldSend) {
    const double nan = std::nan("");
    for (const auto measure : {QuantityKind::mass, QuantityKind::altitude, QuantityKind::duration})
        for (const auto kind :
             {SeriesKind::line, SeriesKind::band, SeriesKind::bars, SeriesKind::markers})
            for (const auto x : {XKind::days, XKind::instants, XKind::numbers})
                for (const std::vector<double>& numbers :
                     std::vector<std::vector<double>>{{},
                                                      {0},
                                                      {nan},
                                                      {5, 5},
                                                      {1e300, -1e300},
                                                      {-3, 4},
                                                      {1e14, 1e-14},
                                                      {1e9, nan, 2}}) {
                    Series series{"s", kind, {}};
                    for (const double one : numbers)
                        series.points.push_back({one, one, one, one, "m"});
                    const Sheet sheet =
                        SheetBuilder("C").chart({"c", x, "", measure, "", {series}});
                    EXPECT_THAT(write_text(sheet, reader({}, 20)), StartsWith("C\n"));
                }
}

} // namespace
} // namespace barmkeep::sheet
