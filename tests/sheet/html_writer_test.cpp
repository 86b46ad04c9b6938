// Sheets as pages: well-formed, self-contained, escaped, readable.
#include "sdk/sheet/html_writer.hpp"

#include "sdk/sheet/html_text.hpp"
#include "tests/sheet/examples.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gmock/gmock.h>
#include <regex>
#include <unistd.h>

namespace barmkeep::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string page(const Sheet& sheet) {
    return write_html(sheet, examples::reader());
}

/// What python's XML reader says of it; empty if nothing.
std::string xml_fault(const std::string& html) {
    const std::filesystem::path path = std::filesystem::temp_directory_path() /
                                       ("barmkeep_sheet_" + std::to_string(getpid()) + ".html");
    std::ofstream{path} << html;
    const std::string command = std::string(BARMKEEP_PYTHON) +
                                " -c 'import sys, xml.dom.minidom; "
                                "xml.dom.minidom.parse(sys.argv[1]); print(\"fine\")' " +
                                path.string() + " 2>&1";
    std::FILE* pipe = popen(command.c_str(), "r"); // NOLINT
    std::string said;
    char buffer[256];
    while (pipe != nullptr && std::fgets(buffer, sizeof buffer, pipe) != nullptr)
        said += buffer;
    if (pipe != nullptr)
        pclose(pipe);
    std::filesystem::remove(path);
    return said == "fine\n" ? "" : "not well-formed: " + said;
}

std::size_t times(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

/// The variables of one rule of the style: from its first brace to the next.
std::map<std::string, std::string> colours_after(const std::string& style, std::string_view begin) {
    const std::size_t from = style.find(begin);
    const std::string rule = style.substr(from, style.find('}', from) - from);
    std::map<std::string, std::string> colours;
    const std::regex pattern{"--([a-z-]+): (#[0-9a-f]{6})"};
    for (std::sregex_iterator one{rule.begin(), rule.end(), pattern}; one != std::sregex_iterator{};
         ++one)
        colours[(*one)[1]] = (*one)[2];
    return colours;
}

/// Relative luminance and contrast by WCAG 2.1.
double luminance(const std::string& colour) {
    const auto channel = [&](std::size_t at) {
        const double value = std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
        return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}
double contrast(const std::string& a, const std::string& b) {
    const double one = luminance(a);
    const double other = luminance(b);
    return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

TEST(HtmlWriter, EveryExampleIsOneWellFormedPage) {
    for (const Sheet& sheet :
         {examples::starter(), examples::shelf(), examples::load(), examples::charts()}) {
        const std::string html = page(sheet);
        EXPECT_EQ(xml_fault(html), "");
        EXPECT_EQ(times(html, "<html"), 1U);
        EXPECT_EQ(times(html, "<h1>"), 1U);
        for (const char* outside :
             {"<script", "<link", "<img", "@import", "url(", "http:", "https:"})
            EXPECT_THAT(html, Not(HasSubstr(outside)));
    }
}

TEST(HtmlWriter, ABrokenPageIsNoticed) {
    EXPECT_NE(xml_fault("<html><p></html>"), "");
}

TEST(HtmlWriter, HoldsWhatTheSheetSays) {
    const std::string html = page(examples::starter());
    EXPECT_THAT(html, HasSubstr("<title>Starter for Dunkel</title>"));
    EXPECT_THAT(html, HasSubstr("<p class=\"lead\">Open 3\u00a0jars in two steps from <time "
                                "datetime=\"2026-10-18\">Sun\u00a018\u00a0Oct</time>: "
                                "78\u00a0% sure to reach 383\u00a0B.</p>"));
    EXPECT_THAT(html, HasSubstr("<li class=\"now\"><span class=\"state\">now</span>"));
    EXPECT_THAT(html, HasSubstr("610\u00a0mL"));
    EXPECT_THAT(html, HasSubstr("<li class=\"usual\">make it <code>barm starter make 12</code>"));
    EXPECT_THAT(html, HasSubstr("<summary>14 cautions</summary>"));
    EXPECT_THAT(html, HasSubstr("<strong>Caution:</strong> Boil the wort"));
    EXPECT_THAT(html, Not(HasSubstr("today")));
}

TEST(HtmlWriter, WhatIsFoldedOnTheScreenIsInFullOnPaperOnce) {
    const std::string html = page(examples::starter());
    EXPECT_EQ(times(html, "<dt>largest growth</dt>"), 2U);
    EXPECT_EQ(times(html, "<details class=\"screen\">"), 2U);
    EXPECT_EQ(times(html, "<section class=\"paper\">"), 2U);
    const Sheet nested =
        SheetBuilder("a").more("b", SheetBuilder().more("c", SheetBuilder().note("within")));
    EXPECT_EQ(times(page(nested), "within"), 2U);
}

TEST(HtmlWriter, AlarmsComeBeforeTheTitleAndClocksShowTheirInstant) {
    const std::string html = page(examples::load());
    EXPECT_LT(html.find("Heat went off"), html.find("<h1>"));
    EXPECT_EQ(times(html, "Heat went off"), 1U);
    EXPECT_THAT(html, HasSubstr("<p class=\"clock\">heat off <time "
                                "datetime=\"2026-10-18T17:46:12Z\">until\u00a0Sun\u00a018\u00a0Oct"
                                "\u00a019:46</time></p>"));
}

TEST(HtmlWriter, TablesLeaveNothingOutButEmptyColumns) {
    const std::string html = page(examples::shelf());
    EXPECT_THAT(html, HasSubstr("load 1, wort of the Dunkel"));
    EXPECT_THAT(html, HasSubstr("<th scope=\"col\" class=\"right\">jars</th>"));
    EXPECT_THAT(html, Not(HasSubstr("never filled")));
}

TEST(HtmlWriter, ChartsAreDrawings) {
    const std::string html = page(examples::charts());
    EXPECT_EQ(times(html, "<svg class=\"chart\""), 2U);
    EXPECT_THAT(html, HasSubstr("aria-label=\"Cells in the flask, in B\""));
    EXPECT_EQ(times(html, "<rect class=\"bar\""), 7U); // six bars and one in the legend
    EXPECT_THAT(html, HasSubstr("<polygon class=\"band\""));
    EXPECT_THAT(html, HasSubstr("<polyline class=\"line\""));
    EXPECT_THAT(html, HasSubstr(">second step</text>"));
    EXPECT_THAT(html, HasSubstr(">18 Oct</text>"));
    EXPECT_THAT(html, Not(HasSubstr("nan")));
}

TEST(HtmlWriter, EverythingIsEscapedAndNoControlCharacterIsLeft) {
    const std::string hostile = "<b a=\"x\" c='y'>&amp;\x1b[31m\u009b\u202e\xff\ufffe</b>";
    Action action;
    action.label = hostile;
    action.method = hostile;
    action.params = {{hostile, hostile}};
    Step step{hostile, hostile};
    step.action = action;
    Row one = row(hostile);
    one.action = action;
    Chart chart{hostile, XKind::numbers, hostile, QuantityKind::number, hostile, {}};
    chart.series.push_back({hostile, SeriesKind::markers, {{1, 1, {}, {}, hostile}}});
    Sheet sheet = SheetBuilder(hostile)
                      .lead(count(2, hostile, hostile), source(hostile), command(hostile),
                            money(Money{1}, hostile), UnknownValue{{{"x", hostile}}})
                      .facts({{hostile, hostile}}, hostile)
                      .table({{column(hostile)}, {one}, hostile})
                      .step(step)
                      .lines({hostile}, hostile)
                      .chart(chart)
                      .clock_to(hostile, Instant{})
                      .alarm(hostile, hostile)
                      .warning(hostile, hostile)
                      .caution(hostile, hostile, true)
                      .caution("other", hostile)
                      .note(hostile)
                      .more(hostile, SheetBuilder().note(hostile))
                      .action(action);
    Reader reader;
    reader.currency = hostile;
    const std::string html = write_html(sheet, reader);
    EXPECT_EQ(xml_fault(html), "");
    for (const char* part : {"<b ", "\x1b", "\u009b", "\u202e", "\xff", "\ufffe"})
        EXPECT_THAT(html, Not(HasSubstr(part)));
}

TEST(HtmlStyle, EveryTextStandsOutFromItsGround) {
    const std::string style{html_style()};
    for (const char* begin : {":root {", "dark) { :root {", "print { :root {"}) {
        const auto colour = colours_after(style, begin);
        ASSERT_EQ(colour.size(), 13U) << begin;
        for (const char* text : {"text", "quiet", "accent", "second", "third", "fourth"})
            EXPECT_GE(contrast(colour.at(text), colour.at("ground")), 4.5) << begin << text;
        for (const char* text : {"text", "quiet"})
            EXPECT_GE(contrast(colour.at(text), colour.at("code-ground")), 4.5) << begin << text;
        EXPECT_GE(contrast(colour.at("alarm-text"), colour.at("alarm-ground")), 4.5) << begin;
        EXPECT_GE(contrast(colour.at("warn-text"), colour.at("warn-ground")), 4.5) << begin;
    }
    EXPECT_EQ(style.find_first_of("<&"), std::string::npos);
}

} // namespace
} // namespace barmkeep::sheet
