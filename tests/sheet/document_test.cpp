// The document itself: what a builder makes, and what travels.
#include "sdk/sheet/builder.hpp"

#include <gmock/gmock.h>

namespace barmkeep::sheet {
namespace {

using namespace brewing;
using testing::IsEmpty;
using testing::SizeIs;

constexpr Date day{std::chrono::year{2026}, std::chrono::month{10}, std::chrono::day{18}};

Sheet whole_sheet() {
    const Instant instant = parse_instant("2026-10-18T17:00:00Z");
    const Estimate<Cells> cells{18 * billion_cells, 72 * billion_cells, 75 * billion_cells, "GR1"};
    return SheetBuilder("Starter for ", "Dunkel")
        .lead("Open ", count(3, "jar"), " of ", LotCode{'J', 10}, ": ", share(0.78), " sure.")
        .step({text("Add ", 0.61 * litre, " of water."), day, StepState::now,
               Action{.label = "make it", .method = "starter.make", .params = {{"brew", 12}}}})
        .step({text("Wait ", Seconds{3600}, "."), instant})
        .facts({{"cells", cells}, {"cost", Money{7'740'000}}, {"nothing", Text{}}})
        .table({{column("lot"), column("left", Align::right, 2)},
                {row(LotCode{'J', 10}, pieces(3)), row("a gift", Text{})},
                "Shelf"})
        .chart({"Cells",
                XKind::days,
                "",
                QuantityKind::cells,
                "",
                {{"likely", SeriesKind::line, {{x_of(day), 72, {}, {}, ""}}}}})
        .clock_to("step is due", instant)
        .warning("old_pack", "The pack is ", number(0.5, 1), " of ", amount_of(4 * ounce), ".")
        .alarm("heat_off", "Heat went off.")
        .caution("boil", text("Boil it. ", sources("S83 S84")), true)
        .note("See ", command("lot.show", {{"lot", "J10N"}}), ".")
        .line("one")
        .line("two")
        .more("How", SheetBuilder().note("by ", altitude(1200 * metre)))
        .action({.label = "make it", .method = "starter.make", .letter = "m", .usual = true})
        .topic("lot.");
}

TEST(Document, TravelsAndComesBackTheSame) {
    const Sheet sheet = whole_sheet();
    const json::value written = to_json(sheet);
    EXPECT_EQ(read_as<Sheet>(written), sheet);
    EXPECT_EQ(decode<Sheet>(parse_json(write_json(written))), sheet);
}

TEST(Document, StepsAndLinesThatFollowEachOtherMakeOneBlock) {
    const Sheet sheet = whole_sheet();
    EXPECT_THAT(std::get<Steps>(sheet.blocks.at(0).content).steps, SizeIs(2));
    EXPECT_THAT(std::get<Facts>(sheet.blocks.at(1).content).facts, SizeIs(2));
    EXPECT_THAT(std::get<Lines>(sheet.blocks.at(9).content).lines, SizeIs(2));
}

TEST(Document, EmptyBlocksAreLeftOut) {
    const Sheet sheet = SheetBuilder("Nothing").facts({}).note("").table({}).lines({});
    EXPECT_THAT(sheet.blocks, IsEmpty());
}

} // namespace
} // namespace barmkeep::sheet
