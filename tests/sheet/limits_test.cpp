// What of a sheet from outside is refused, and what of a newer program is passed over.
#include "sdk/sheet/limits.hpp"

#include "sdk/sheet/actions.hpp"
#include "sdk/sheet/columns.hpp"
#include "sdk/sheet/html_writer.hpp"
#include "sdk/sheet/text_writer.hpp"
#include "tests/sheet/examples.hpp"

#include <gmock/gmock.h>
#include <random>
#include <sstream>

namespace barmkeep::sheet {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Sheet deep(int depth) {
    SheetBuilder inner;
    inner.note("inside");
    for (int i = 1; i < depth; ++i)
        inner = SheetBuilder().more("more", inner);
    return SheetBuilder("Deep").more("more", inner);
}

TEST(Limits, WhatTheExamplesAreIsFineAndComesBack) {
    for (const Sheet& sheet :
         {examples::starter(), examples::shelf(), examples::load(), examples::charts()}) {
        EXPECT_THAT(check(sheet), IsEmpty());
        const DecodedSheet decoded = decode_sheet(write_json(to_json(sheet)));
        EXPECT_THAT(decoded.faults, IsEmpty());
        ASSERT_TRUE(decoded.sheet.has_value());
        EXPECT_EQ(write_text(*decoded.sheet, Reader{}), write_text(sheet, Reader{}));
    }
}

TEST(Limits, DepthRowsAndBytes) {
    EXPECT_THAT(check(deep(5)), IsEmpty());
    EXPECT_THAT(check(deep(6)), ElementsAre("Blocks stand 7 deep in each other; at most 6 may."));
    EXPECT_THAT(check(deep(100)), SizeIs(1));
    std::vector<Text> lines(2000, Text("line"));
    EXPECT_THAT(check(SheetBuilder("Long").lines(lines)), IsEmpty());
    EXPECT_THAT(check(SheetBuilder("Long").lines(lines).note("one more")),
                ElementsAre(HasSubstr("2001 rows")));
    lines.assign(100, Text(std::string(3000, 'x')));
    const Sheet large = SheetBuilder("Large").lines(lines);
    EXPECT_THAT(check(large), ElementsAre(HasSubstr("at most 262144 are taken")));
    const DecodedSheet decoded = decode_sheet(write_json(to_json(large)));
    EXPECT_FALSE(decoded.sheet.has_value());
    EXPECT_THAT(decoded.faults, ElementsAre(HasSubstr("at most 262144 are taken")));
}

TEST(Limits, ControlCharactersAreRefusedEverywhere) {
    const char* fault = "A text holds a control character.";
    EXPECT_THAT(check(SheetBuilder("a\x1b[1m")), ElementsAre(fault));
    EXPECT_THAT(check(SheetBuilder("a").lead(count(1, "jar\u009b"))), ElementsAre(fault));
    for (const char* text : {R"({"title":"a\u001b"})", R"({"title":"a","blocks":[{"\u0007":1}]})",
                             R"({"title":"a","actions":[{"label":"b","method":"c","params":
                                {"d":["\u007f"]}}]})"}) {
        const DecodedSheet decoded = decode_sheet(text);
        EXPECT_FALSE(decoded.sheet.has_value());
        EXPECT_THAT(decoded.faults, ElementsAre(fault));
    }
}

TEST(Limits, NumbersRangesAndActions) {
    EXPECT_THAT(check(SheetBuilder("a").lead(share(std::nan("")))),
                ElementsAre("A number is not finite."));
    EXPECT_THAT(check(SheetBuilder("a").lead(range(QuantityKind::cells, 3, 2, 4))),
                ElementsAre("The ends of a range are out of order."));
    const QuantityRange crossed = range(QuantityKind::cells, 3, std::nullopt, 2);
    for (const Sheet& sheet :
         {Sheet(SheetBuilder("a").facts({{"b", crossed}})),
          Sheet(SheetBuilder("a").table({{column("b")}, {row(crossed)}, {}})),
          Sheet(SheetBuilder("a").step({"b", crossed})), Sheet(SheetBuilder("a").line(crossed)),
          Sheet(SheetBuilder("a").more("b", SheetBuilder().note(crossed))),
          Sheet(SheetBuilder("a").warning("b", crossed)),
          Sheet(SheetBuilder("a").caution("b", crossed)),
          Sheet(SheetBuilder("a").chart({"b",
                                         XKind::numbers,
                                         "",
                                         QuantityKind::cells,
                                         "",
                                         {{"c", SeriesKind::band, {{1, 0, 3, 2, ""}}}}}))})
        EXPECT_THAT(check(sheet), ElementsAre("The ends of a range are out of order."));
    EXPECT_THAT(check(SheetBuilder("")), ElementsAre("The title is empty."));
    // The params are the method's own, whatever it means by low and high.
    Action action = offer("go", "a.b", {{"low", 3}, {"high", 2}}, "g");
    action.usual = true;
    EXPECT_THAT(check(SheetBuilder("a").action(action)), IsEmpty());
    EXPECT_THAT(check(SheetBuilder("a").action(action).action(action)),
                ElementsAre("2 actions are the usual one; one can be."));
    Step step{"b"};
    step.action = offer("go", "a.c", {}, "g");
    EXPECT_THAT(check(SheetBuilder("a").action(action).step(step)),
                ElementsAre("Two actions have the key g."));
    step.action = action; // the same call
    EXPECT_THAT(check(SheetBuilder("a").action(action).step(step)), IsEmpty());
    action.letter = "G";
    action.method = "";
    EXPECT_THAT(check(SheetBuilder("a").action(action)),
                ElementsAre("An action has no label or no method.",
                            "The key 'G' is not one letter from a to z."));
}

TEST(Actions, AreFoundAndTakenOutWhereverTheyStand) {
    Row one = row("b");
    one.action = offer("go", "row.go");
    Step step{"b"};
    step.action = offer("go", "step.go");
    Warning warning{"b"};
    warning.action = offer("go", "warning.go");
    Sheet sheet = SheetBuilder("a")
                      .table({{column("b")}, {one}, {}})
                      .more("b", SheetBuilder().step(step).add(warning))
                      .action(offer("go", "sheet.go"))
                      .action(offer("look", "sheet.look"));
    const auto methods = [&] {
        std::vector<std::string> names;
        for (const Action* action : actions_of(sheet))
            names.push_back(action->method);
        return names;
    };
    EXPECT_THAT(methods(),
                ElementsAre("sheet.go", "sheet.look", "row.go", "step.go", "warning.go"));
    keep_actions(sheet, [](const Action& action) { return action.method.ends_with(".look"); });
    EXPECT_THAT(methods(), ElementsAre("sheet.look"));
}

TEST(Limits, RubbishIsToldAndNeverThrown) {
    for (const char* text : {"", "{", "7", "[]", "{}", R"({"title":7e999})", R"({"blocks":[]})",
                             R"({"title":"a)", "\xff"}) {
        const DecodedSheet decoded = decode_sheet(text);
        EXPECT_FALSE(decoded.sheet.has_value()) << text;
        EXPECT_FALSE(decoded.faults.empty()) << text;
    }
}

TEST(Limits, ASpoiledSheetIsReadOrRefusedAndNeverWrittenWider) {
    std::mt19937 random{20261018}; // the same spoilt texts each time
    std::size_t read = 0;
    for (const Sheet& sheet :
         {examples::starter(), examples::shelf(), examples::load(), examples::charts()}) {
        const std::string whole = write_json(to_json(sheet));
        for (int i = 0; i < 100; ++i) {
            std::string spoilt = whole;
            for (int change = 0; change < 3; ++change) {
                static constexpr std::string_view bytes = "0123456789-e\"{}[],:klnu";
                spoilt[random() % spoilt.size()] = bytes[random() % bytes.size()];
            }
            const DecodedSheet decoded = decode_sheet(spoilt);
            EXPECT_NE(decoded.sheet.has_value(), !decoded.faults.empty());
            if (!decoded.sheet)
                continue;
            ++read;
            std::istringstream lines{write_text(*decoded.sheet, examples::reader({}, 40))};
            for (std::string line; std::getline(lines, line);)
                EXPECT_LE(width_of(line), 40U) << line;
            EXPECT_FALSE(write_html(*decoded.sheet, examples::reader()).empty());
        }
    }
    EXPECT_GT(read, 50U); // most spoilt texts are no JSON any more
}

TEST(Tolerance, UnknownBlocksValuesAndMembersArePassedOver) {
    const DecodedSheet decoded = decode_sheet(R"({
        "title": ["Mood ", {"mood": "good"}, {"mass": "heavy"}, 7, {"a": 1, "b": 2}],
        "lead": ["Take ", {"volume": 0.5}],
        "new_member": true,
        "blocks": [
            {"kind": "hologram", "points": [1, 2]},
            {"kind": "note", "text": "known", "size": 3},
            {"kind": "table", "columns": 3},
            "text",
            {"kind": "steps", "steps": [{"text": "do it", "state": "paused"}]}],
        "actions": [{"label": "go", "method": "a.b", "haste": 1}]})");
    ASSERT_THAT(decoded.faults, IsEmpty());
    ASSERT_TRUE(decoded.sheet.has_value());
    EXPECT_THAT(decoded.sheet->blocks, SizeIs(5));
    EXPECT_EQ(write_text(*decoded.sheet, Reader{}), "Mood goodheavy7\nTake 500 mL\n\nknown\n"
                                                    " 1  do it\n\ngo  a.b\n");
    EXPECT_THAT(write_html(*decoded.sheet, Reader{}), HasSubstr("known"));
}

TEST(Tolerance, WhatIsUnknownIsSentOnAsItCame) {
    const json::value came = parse_json(
        R"({"title":[{"mood":"good"}],"lead":"","blocks":[{"kind":"hologram","points":[1]}],)"
        R"("actions":[],"topics":[]})");
    EXPECT_EQ(to_json(decode<Sheet>(came)), came);
}

TEST(Schema, KnowsEveryKindAndHasAnEnd) {
    const std::string schema = write_json(Codec<Sheet>::schema(Direction::sent));
    for (const char* kind : {"facts", "table", "steps", "chart", "clock", "warning", "caution",
                             "note", "lines", "more"})
        EXPECT_THAT(schema, HasSubstr(R"("enum":[")" + std::string(kind) + R"("])"));
    for (const auto& kind : enum_names(QuantityKind{}))
        EXPECT_THAT(schema, HasSubstr("\"" + std::string(kind.text) + "\":{\"anyOf\""));
}

} // namespace
} // namespace barmkeep::sheet
