// The sheet of an answer for which nobody made one.
#include "sdk/sheet/generic.hpp"
#include "sdk/sheet/source_words.hpp"
#include "sdk/sheet/text_writer.hpp"
#include "tests/sheet/examples.hpp"

#include "sdk/contract/safety.hpp"

#include <gmock/gmock.h>

namespace barmkeep::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

enum class State { fresh, past_best_by };
constexpr auto enum_names(State) {
    return std::array{EnumName<State>{State::fresh, "fresh"},
                      EnumName<State>{State::past_best_by, "past_best_by"}};
}

struct Lot {
    LotCode lot{};
    Amount on_hand{};
    Date best_by{};
    State state = State::fresh;
    bool open = false;
    std::vector<std::string> names{};
    static FieldList fields(auto) {
        return {field<&Lot::lot>("The lot."),
                field<&Lot::on_hand>("What is left."),
                field<&Lot::best_by>("Best by."),
                field<&Lot::state>("Its state."),
                field<&Lot::open>("Whether it is open."),
                field<&Lot::names>("Names.").defaulted()};
    }
};

struct Inside {
    brewing::Volume fill{};
    brewing::Length altitude{};
    std::vector<Lot> lots{};
    static FieldList fields(auto) {
        return {field<&Inside::fill>("Fill."), field<&Inside::altitude>("Altitude."),
                field<&Inside::lots>("Lots.")};
    }
};

struct Answer {
    std::string good_name{};
    Money total_cost{};
    Range<brewing::Cells> cells{};
    Inside plan{};
    std::vector<std::string> remarks{};
    std::vector<std::string> warnings{};
    std::vector<contract::Caution> cautions{};
    static FieldList fields(auto) {
        return {field<&Answer::good_name>("Good."),   field<&Answer::total_cost>("Cost."),
                field<&Answer::cells>("Cells."),      field<&Answer::plan>("Plan."),
                field<&Answer::remarks>("Remarks."),  field<&Answer::warnings>("Warnings."),
                field<&Answer::cautions>("Cautions.")};
    }
};

struct Listed {
    std::vector<Lot> lots{};
    std::optional<std::string> next{};
    static FieldList fields(auto) {
        return {field<&Listed::lots>("Lots."), field<&Listed::next>("Next page.")};
    }
};

constexpr Date day{std::chrono::year{2026}, std::chrono::month{11}, std::chrono::day{20}};

Lot lot(std::int64_t number) {
    return {LotCode{'J', number}, pieces(number), day, State::past_best_by, false, {}};
}

template <class T>
std::string shown(const T& answer) {
    return write_text(generic_sheet("Answer", to_json(answer), Codec<T>::schema(Direction::sent)),
                      examples::reader());
}

TEST(Generic, AnAnswerIsShownInWordsAndUnits) {
    Answer answer;
    answer.good_name = "light extract";
    answer.total_cost = Money{18'500'000};
    answer.cells =
        brewing::Estimate<brewing::Cells>{18 * brewing::billion_cells, 72 * brewing::billion_cells,
                                          75 * brewing::billion_cells, "GR1"};
    answer.plan = {0.5 * brewing::litre, 1200 * brewing::metre, {lot(10), lot(2)}};
    answer.remarks = {"One thing.", "Another thing."};
    answer.warnings = {"The pack is old"};
    answer.cautions = contract::cautions(contract::Moment::opening);
    EXPECT_EQ(shown(answer), R"(Answer

good name   light extract
total cost  18.50 EUR
cells       72 B (18 to 75) [GR1]

plan
fill      500 mL
altitude  1200 m

plan: lots
lot   on hand  best by  state
J10N       10  20 Nov   past best by
J2P         2  20 Nov   past best by

remarks
- One thing.
- Another thing.

! The pack is old

15 cautions: add --full to read them
)");
}

TEST(Generic, AListIsATableAndSaysHowToGoOn) {
    const std::string text = shown(Listed{{lot(10)}, "abc"});
    EXPECT_EQ(text, R"(Answer

lot   on hand  best by  state
J10N       10  20 Nov   past best by

There is more: the next page has the cursor abc.
)");
}

TEST(Generic, AnEmptyListSaysThatThereIsNone) {
    EXPECT_EQ(shown(Listed{}), "Answer\n\nNo lots.\n");
}

// Words are no keys of sources, and keys may have words beside them.
TEST(Generic, OnlyKeysOfSourcesStandInBrackets) {
    Answer answer;
    answer.cells =
        brewing::Estimate<brewing::Cells>{18 * brewing::billion_cells, 72 * brewing::billion_cells,
                                          75 * brewing::billion_cells, "the extract's potential"};
    EXPECT_THAT(shown(answer), HasSubstr("72 B (18 to 75) (the extract's potential)\n"));
    answer.cells.sources = "S22 FIX house rule PR06-lager";
    EXPECT_THAT(shown(answer),
                HasSubstr("72 B (18 to 75) [S22] [FIX] (house rule) [PR06-lager]\n"));
}

TEST(Generic, AnEmptyListInsideAndAdviceThatIsNotGivenAreLeftOut) {
    EXPECT_THAT(shown(Answer{}), Not(HasSubstr("No ")));
}

TEST(Generic, AnEmptyListOfTheResultItselfSaysThatThereIsNone) {
    const json::value result = parse_json(R"({"good": "lids", "lots": [], "warnings": []})");
    const json::value schema = parse_json(
        R"({"properties": {"good": {}, "lots": {"items": {"properties": {"lot": {}}}},
            "warnings": {"items": {"properties": {"text": {}}}}}})");
    EXPECT_EQ(write_text(generic_sheet("Answer", result, schema.as_object()), examples::reader()),
              "Answer\n\ngood  lids\nNo lots.\n");
}

TEST(Generic, RecordsWithListsInsideStandOneAfterTheOther) {
    const json::value result = parse_json(
        R"({"loads": [{"number": 1, "jars": [{"lot": "J10N"}]}, {"number": 2, "jars": []}]})");
    const std::string text = write_text(generic_sheet("Loads", result, {}), examples::reader());
    EXPECT_EQ(text, R"(Loads

1
number  1

1: jars
lot
J10N

2
number  2
)");
}

TEST(Generic, TakesAnyJsonAndAnySchema) {
    for (const char* text : {"null", "true", "17", "2.5", "\"word\"", "[]", "[1,2]", "[[1],[2]]",
                             "{}", "[{\"a\":{}}]", "{\"a\":null,\"b\":[null,{\"c\":[]}]}",
                             "[{\"a\":1},2]", "{\"low\":1,\"likely\":2,\"high\":3}"})
        for (const char* schema :
             {"{}", R"({"x-unit":"g"})", R"({"x-kind":"amount"})", R"({"x-kind":"money"})",
              R"({"type":"array","items":{"properties":{"a":{"x-kind":"lot"}}}})",
              R"({"properties":7,"items":"x","x-kind":3})"}) {
            const Sheet sheet =
                generic_sheet("Any", parse_json(text), parse_json(schema).as_object());
            EXPECT_FALSE(write_text(sheet, Reader{}).empty()) << text << schema;
        }
}

TEST(Generic, ADescriptionGivesTheTitleAndAWritingMethodIsDone) {
    Description method;
    method.name = "price.set_currency";
    method.effect = Effect::writes;
    EXPECT_EQ(write_text(generic_sheet(method, json::object{}), Reader{}),
              "Price set currency\nDone.\n");
    method.effect = Effect::reads;
    EXPECT_THAT(write_text(generic_sheet(method, json::object{}), Reader{}),
                HasSubstr("Nothing to show."));
}

TEST(Generic, TheFirstSentenceOfTheDocIsTheTitleUnlessItIsLong) {
    Description method;
    method.name = "stock.buy";
    method.doc = "Records a purchase as a new lot. It has a code.";
    EXPECT_EQ(generic_sheet(method, json::object{}).title, Text("Records a purchase as a new lot"));
    method.doc = "Records a purchase as a new lot.";
    EXPECT_EQ(generic_sheet(method, json::object{}).title, Text("Records a purchase as a new lot"));
    method.doc = std::string(61, 'x') + ".";
    EXPECT_EQ(generic_sheet(method, json::object{}).title, Text("Stock buy"));
}

TEST(Sources, AKeyHasCapitalsDigitsAndAHyphen) {
    for (const auto* key : {"S22", "GR06", "FIX", "PR06-lager", "WZ1", "S103"})
        EXPECT_TRUE(is_source_key(key)) << key;
    for (const auto* word : {"", "A", "The", "own", "22", "S22.", "house", "S-"})
        EXPECT_FALSE(is_source_key(word)) << word;
}

TEST(Sources, KeysInASentenceBecomeSources) {
    const Text said = cited("Counted (GR06 GR15), twice (as said) [S22].");
    EXPECT_EQ(said, text("Counted ", source("GR06"), " ", source("GR15"), ", twice (as said) ",
                         source("S22"), "."));
    EXPECT_EQ(cited("No (end"), Text("No (end"));
    EXPECT_TRUE(cited("").empty());
}

TEST(Generic, AFieldOfALaterVersionIsShownLast) {
    json::object result = to_json(Listed{{lot(10)}, {}}).as_object();
    result["new_field"] = 3;
    const std::string text =
        write_text(generic_sheet("Lots", result, Codec<Listed>::schema(Direction::sent)), Reader{});
    EXPECT_THAT(text, HasSubstr("new field  3"));
    EXPECT_THAT(text, Not(HasSubstr("new_field")));
}

} // namespace
} // namespace barmkeep::sheet
