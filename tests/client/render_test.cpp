#include "daemon/client/render.hpp"
#include "daemon/client/table.hpp"
#include "daemon/client/value_text.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/price.hpp"
#include "tests/client/fake_cellar.hpp"

#include <gtest/gtest.h>

namespace barmkeep::barm {
namespace {

Style style_of(int width = 80) {
    Style style;
    style.width = width;
    style.currency = "EUR";
    return style;
}
Style plain() {
    Style style = style_of(100'000);
    style.is_plain = true;
    return style;
}

template <class T>
Rendered shown(const T& result, const Style& style) {
    return render(to_json(result), Codec<T>::schema(Direction::sent), style);
}

std::string money_text(const Money& sum, const Style& style) {
    return value_text(to_json(sum), Codec<Money>::schema(Direction::sent), style);
}

json::object unit(std::string_view name) {
    return {{"type", "number"}, {"x-unit", name}};
}

contract::Entry sample_entry() {
    contract::Entry entry;
    entry.number = 12;
    entry.at = parse_instant("2026-03-14T08:30:00.250Z");
    entry.day = parse_date("2026-03-14");
    entry.who = "anna";
    entry.kind = contract::EntryKind::used;
    entry.lines = {{LotCode('E', 12), "light dry extract", amount_of(-200 * brewing::gram),
                    parse_money("-1.48")},
                   {LotCode('L', 3), "lids", pieces(-7), parse_money("-1.05")}};
    return entry;
}

TEST(Values, AreShownInThePersonsUnits) {
    Style us = style_of();
    us.system = brewing::System::us;
    const Style metric = style_of();
    EXPECT_EQ(value_text(453.59237, unit("g"), us), "1 lb");
    EXPECT_EQ(value_text(453.59237, unit("g"), metric), "453.6 g");
    EXPECT_EQ(value_text(20, unit("L"), us), "5.283 gal");
    EXPECT_EQ(value_text(20.0, unit("C"), us), "68 °F");
    EXPECT_EQ(value_text(5.0, unit("K"), us), "9 °F");
    EXPECT_EQ(value_text(103.421, unit("kPa"), us), "15 psi");
    json::object absolute = unit("kPa");
    absolute["x-kind"] = "absolute_pressure";
    EXPECT_EQ(value_text(101.325, absolute, us), "14.7 psia");
    EXPECT_EQ(value_text(520.0, unit("m"), us), "1706 ft");
    EXPECT_EQ(value_text(3600.0, unit("kJ"), metric), "3.6 MJ");
    EXPECT_EQ(value_text(250.0, unit("B"), metric), "250 B");
    EXPECT_EQ(value_text(1.048, unit("SG"), metric), "1.048");
    EXPECT_EQ(value_text(5400, unit("s"), metric), "1 h 30 min");
    EXPECT_EQ(value_text(2.5, unit("IBU"), metric), "2.5 IBU");
}

TEST(Values, LoseTheirSignsWhereTheLocaleHasNone) {
    Style ascii = style_of();
    ascii.has_utf8 = false;
    EXPECT_EQ(value_text(20.0, unit("C"), ascii), "20 C");
    EXPECT_EQ(value_text(0.00005, unit("L"), ascii), "50 uL");
}

TEST(Values, OfEveryOtherKind) {
    const Style style = style_of();
    EXPECT_EQ(value_text(to_json(pieces(7)), Codec<Amount>::schema(Direction::sent), style), "7");
    EXPECT_EQ(money_text(parse_money("18.50"), style), "18.50 EUR");
    EXPECT_EQ(money_text(parse_money("18.50"), Style{}), "18.50");
    EXPECT_EQ(value_text("2026-03-14T08:30:00.250Z", {{"type", "string"}, {"format", "date-time"}},
                         style),
              "2026-03-14 08:30:00 UTC");
    EXPECT_EQ(value_text(true, {}, style), "yes");
    EXPECT_EQ(value_text(nullptr, {}, style), "");
    EXPECT_EQ(value_text(json::array{"a", "b"}, {}, style), "a, b");
    Range<brewing::Cells> range;
    range.low = 200 * brewing::billion_cells;
    range.likely = 250 * brewing::billion_cells;
    range.high = 300 * brewing::billion_cells;
    EXPECT_EQ(
        value_text(to_json(range), Codec<Range<brewing::Cells>>::schema(Direction::sent), style),
        "250 B (200 B to 300 B)");
}

TEST(Values, OfTimeAreOnTheCellarsClock) {
    const json::object instant{{"type", "string"}, {"format", "date-time"}};
    Style vienna = style_of();
    vienna.time_zone = "Europe/Vienna";
    // One hour ahead of UTC in winter, two in summer: the zone database.
    EXPECT_EQ(value_text("2026-03-14T08:30:00Z", instant, vienna), "2026-03-14 09:30:00 CET");
    EXPECT_EQ(value_text("2026-07-14T08:30:00Z", instant, vienna), "2026-07-14 10:30:00 CEST");
    vienna.is_plain = true;
    EXPECT_EQ(value_text("2026-07-14T08:30:00Z", instant, vienna), "2026-07-14 08:30:00 UTC");
    Style nowhere = style_of();
    nowhere.time_zone = "Europe/Nowhere";
    EXPECT_EQ(value_text("2026-07-14T08:30:00Z", instant, nowhere), "2026-07-14 08:30:00 UTC");
    EXPECT_EQ(value_text("soon", instant, vienna), "soon");
}

TEST(Rendering, SentencesStandUnderEachOther) {
    const json::value result{{"jars", 9}, {"concerns", {"The lids are old.", "Extract is short."}}};
    const json::object schema{
        {"type", "object"},
        {"properties",
         {{"jars", {{"type", "integer"}}},
          {"concerns", {{"type", "array"}, {"items", {{"type", "string"}}}}}}}};
    EXPECT_EQ(render(result, schema, style_of()).out, "jars      9\n"
                                                      "concerns  The lids are old.\n"
                                                      "          Extract is short.\n");
    EXPECT_EQ(render(result, schema, plain()).out,
              "jars\t9\nconcerns\tThe lids are old. Extract is short.\n");
}

TEST(Values, OfMoneyAreRoundedForPeopleOnly) {
    EXPECT_EQ(money_text(parse_money("7.916662"), style_of()), "7.92 EUR");
    EXPECT_EQ(money_text(parse_money("-7.915"), style_of()), "-7.92 EUR");
    EXPECT_EQ(money_text(parse_money("0.006125"), style_of()), "0.006125 EUR");
    EXPECT_EQ(money_text(parse_money("7.916662"), plain()), "7.916662 EUR");
    EXPECT_EQ(value_text("much", {{"type", "string"}, {"x-kind", "money"}}, style_of()),
              "much EUR");
}

TEST(Values, CannotSteerATerminal) {
    EXPECT_EQ(value_text("a\x1b[31mb\nc", {}, style_of()), "a?[31mb c");
    EXPECT_EQ(printable("x\xC2\x9By"), "x?y");
    EXPECT_EQ(printable("Märzen"), "Märzen");
}

TEST(Rendering, ARecordHasItsListsBelow) {
    EXPECT_EQ(shown(sample_entry(), style_of()).out,
              "number  12\n"
              "at      2026-03-14 08:30:00 UTC\n"
              "day     2026-03-14\n"
              "who     anna\n"
              "kind    used\n"
              "lines\n"
              "  lot   good               quantity      value\n"
              "  E12M  light dry extract    -200 g  -1.48 EUR\n"
              "  L3U   lids                     -7  -1.05 EUR\n");
}

TEST(Rendering, ATableThatIsTooWideBecomesBlocks) {
    EXPECT_EQ(shown(sample_entry(), style_of(40)).out, "number  12\n"
                                                       "at      2026-03-14 08:30:00 UTC\n"
                                                       "day     2026-03-14\n"
                                                       "who     anna\n"
                                                       "kind    used\n"
                                                       "lines\n"
                                                       "  lot       E12M\n"
                                                       "  good      light dry extract\n"
                                                       "  quantity  -200 g\n"
                                                       "  value     -1.48 EUR\n"
                                                       "\n"
                                                       "  lot       L3U\n"
                                                       "  good      lids\n"
                                                       "  quantity  -7\n"
                                                       "  value     -1.05 EUR\n");
}

TEST(Rendering, PlainIsOneLineARecordDividedByTabs) {
    contract::PriceList::Result prices;
    contract::PriceNote note;
    note.item = "wort can";
    note.price = parse_money("4.20");
    note.day = parse_date("2026-03-01");
    note.volume = 0.48 * brewing::litre;
    prices.prices = {note};
    EXPECT_EQ(shown(prices, plain()).out, "item\tprice\twhere\tday\tvolume\tgravity\tmass\tpieces\n"
                                          "wort can\t4.20 EUR\t\t2026-03-01\t480 mL\t\t\t\n");
    EXPECT_EQ(shown(prices, style_of()).out, "item         price  day         volume\n"
                                             "wort can  4.20 EUR  2026-03-01  480 mL\n");
}

TEST(Rendering, SaysThatThereIsNothingOrMore) {
    contract::EntryList::Result none;
    EXPECT_EQ(shown(none, style_of()).out, "");
    EXPECT_EQ(shown(none, style_of()).notes, "Nothing to show.\n");
    contract::EntryList::Result page;
    page.entries = {sample_entry()};
    page.next = "c7";
    EXPECT_EQ(shown(page, style_of()).notes, "There is more: add --cursor c7\n");
    EXPECT_EQ(shown(Nothing{}, style_of()).notes, "Done.\n");
}

struct Lots {
    std::vector<contract::Lot> lots;
    static FieldList fields(auto) { return {field<&Lots::lots>("Lots.")}; }
};

TEST(Rendering, FactsOfALotAreColumns) {
    const auto shelves = test::sample_glance().shelves;
    Lots lots{{shelves[1].lots.front()}};
    lots.lots[0].holds.clear();
    EXPECT_EQ(shown(lots, style_of(200)).out,
              "code  good       category     on hand  reserved  available      value  canned      "
              "best by     kept   gravity  origin\n"
              "J14X  pint jars  concentrate        7         0          0  10.50 EUR  2026-02-01  "
              "2027-02-01  shelf    1.090       3\n");
}

TEST(Rendering, ShowsWhatANewerDaemonAdds) {
    const json::value result{{"entry", 3}, {"mood", "good"}};
    const json::object schema = Codec<contract::Posted>::schema(Direction::sent);
    EXPECT_EQ(render(result, schema, style_of()).out, "entry  3\nmood   good\n");
}

TEST(Rendering, LongValuesAreWrappedUnderTheirBeginning) {
    Record record{{{"why", "one two three four five six"}, {"empty", ""}, {"name", "x"}}};
    EXPECT_EQ(record_text(record, style_of(20), 0), "why   one two three\n"
                                                    "      four five six\n"
                                                    "name  x\n");
}

TEST(Rendering, ColumnsOfLettersBeyondAsciiStayInLine) {
    const Table table{{{"beer", false}, {"n", true}}, {{"Märzen", "1"}, {"Porter", "12"}}};
    EXPECT_EQ(table_text(table, style_of(), 0), "beer     n\nMärzen   1\nPorter  12\n");
}

struct Notice {
    std::string text;
    std::string what_now;
    static FieldList fields(auto) {
        return {field<&Notice::text>("What is wrong."), field<&Notice::what_now>("What to do.")};
    }
};
struct WithNotice {
    std::optional<Notice> wrong;
    std::int64_t run = 0;
    static FieldList fields(auto) {
        return {field<&WithNotice::wrong>("What is wrong."), field<&WithNotice::run>("The run.")};
    }
};

TEST(Rendering, WhatIsWrongStandsBeforeAllElse) {
    EXPECT_EQ(shown(WithNotice{Notice{"It fell.", "Heat."}, 3}, style_of()).out,
              "wrong\n  text      It fell.\n  what now  Heat.\nrun  3\n");
}

} // namespace
} // namespace barmkeep::barm
