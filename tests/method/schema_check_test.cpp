#include "sdk/method/schema_check.hpp"

#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

#include <gmock/gmock.h>

namespace barmkeep {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// Each fault as "pointer reason".
std::vector<std::string> told(const std::vector<FieldError>& faults) {
    std::vector<std::string> all;
    for (const auto& fault : faults)
        all.push_back(fault.pointer + " " + fault.reason);
    return all;
}

std::vector<FieldError> faults_of(std::string_view value, std::string_view schema) {
    ParseContext reading;
    check_schema(parse_json(value), parse_json(schema).as_object(), reading);
    return reading.faults();
}

std::vector<std::string> check(std::string_view value, std::string_view schema) {
    return told(faults_of(value, schema));
}

TEST(SchemaCheck, EachTypeTakesItsOwnAndNoOther) {
    const std::vector<std::pair<std::string, std::vector<std::string>>> values{
        {"boolean", {"true"}}, {"integer", {"3", "3.0", "18446744073709551615"}},
        {"number", {"3.5"}},   {"string", {"\"a\""}},
        {"array", {"[]"}},     {"object", {"{}"}},
        {"null", {"null"}}};
    for (const auto& [type, own] : values)
        for (const auto& [other, theirs] : values)
            for (const auto& value : theirs) {
                const bool fits = type == other || (type == "number" && other == "integer");
                EXPECT_EQ(check(value, R"({"type": ")" + type + R"("})").empty(), fits)
                    << value << " as " << type;
            }
}

TEST(SchemaCheck, OfSeveralTypesOneWillDoAndAllAreTold) {
    EXPECT_THAT(check("\"4 oz\"", R"({"type": ["number", "string"], "minimum": 1})"), IsEmpty());
    const auto faults = faults_of("[]", R"({"type": ["number", "string"]})");
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].message, "This must be a number or a text.");
}

TEST(SchemaCheck, AnUnknownMemberIsToldWithTheNearestName) {
    const auto faults = faults_of(
        R"({"frist": 1})",
        R"({"type": "object", "properties": {"first": {}}, "additionalProperties": false})");
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].pointer, "/frist");
    EXPECT_EQ(faults[0].reason, "unknown_field");
    EXPECT_THAT(faults[0].hint, HasSubstr("'first'"));
    EXPECT_THAT(check(R"({"frist": 1})", R"({"properties": {"first": {}}})"), IsEmpty());
}

TEST(SchemaCheck, EveryFaultIsToldWithItsPlace) {
    const std::string schema = R"({"type": "object", "additionalProperties": false,
        "required": ["name", "jars", "elsewhere"],
        "properties": {"name": {"type": "string", "description": "Its name."},
                       "jars": {"type": "array", "items": {"type": "integer", "minimum": 1}},
                       "by": {"type": "integer"}}})";
    EXPECT_THAT(check(R"({"jars": [1, 0, "two"], "by": "3", "a/b": 1})", schema),
                ElementsAre("/a~1b unknown_field", "/name missing", "/jars/1 out_of_range",
                            "/jars/2 wrong_type", "/by wrong_type", "/elsewhere missing"));
    EXPECT_EQ(faults_of(R"({"jars": [], "elsewhere": 1})", schema).at(1).hint, "Its name.");
}

TEST(SchemaCheck, NullStandsForWhatMayBeLeftOutAndForNothingElse) {
    const std::string schema = R"({"required": ["a"], "properties":
        {"a": {"type": "integer"}, "b": {"type": "integer"}}})";
    EXPECT_THAT(check(R"({"a": 1, "b": null})", schema), IsEmpty());
    EXPECT_THAT(check(R"({"a": null})", schema), ElementsAre("/a wrong_type"));
}

TEST(SchemaCheck, NumbersHaveFourKindsOfBounds) {
    const std::string closed = R"({"minimum": 1, "maximum": 2, "x-unit": "L"})";
    EXPECT_THAT(check("1", closed), IsEmpty());
    EXPECT_THAT(check("2", closed), IsEmpty());
    EXPECT_THAT(check("0.9", closed), ElementsAre(" out_of_range"));
    EXPECT_THAT(faults_of("2.1", closed).at(0).message, HasSubstr("at most 2 L"));
    const std::string open = R"({"exclusiveMinimum": 1, "exclusiveMaximum": 2})";
    EXPECT_THAT(check("1.5", open), IsEmpty());
    EXPECT_THAT(check("1", open), ElementsAre(" out_of_range"));
    EXPECT_THAT(faults_of("2", open).at(0).message, HasSubstr("less than 2"));
}

TEST(SchemaCheck, TextsAreMeasuredInCharactersAndListsInElements) {
    const std::string text = R"({"minLength": 2, "maxLength": 3})";
    EXPECT_THAT(check("\"\u00e9\u00e9\u00e9\"", text), IsEmpty());
    EXPECT_THAT(check("\"\u00e9\"", text), ElementsAre(" too_short"));
    EXPECT_THAT(check("\"four\"", text), ElementsAre(" too_long"));
    const std::string list = R"({"minItems": 1, "maxItems": 2})";
    EXPECT_THAT(check("[1, 2]", list), IsEmpty());
    EXPECT_THAT(check("[]", list), ElementsAre(" too_short"));
    EXPECT_THAT(check("[1, 2, 3]", list), ElementsAre(" too_long"));
}

TEST(SchemaCheck, AWordThatIsNoneOfTheKnownIsToldWithTheNearest) {
    const auto faults = faults_of("\"dry\"", R"({"enum": ["day", "liquid"]})");
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].reason, "unknown_word");
    EXPECT_THAT(faults[0].hint, HasSubstr("Did you mean day?"));
    EXPECT_THAT(check("2", R"({"enum": [1, 2]})"), IsEmpty());
    EXPECT_THAT(check("3", R"({"enum": [1, 2]})"), ElementsAre(" unknown_word"));
}

TEST(SchemaCheck, OtherMembersMayHaveASchemaOfTheirOwn) {
    const std::string schema = R"({"properties": {"name": {"type": "string"}},
        "additionalProperties": {"type": "integer"}})";
    EXPECT_THAT(check(R"({"name": "a", "jars": 3})", schema), IsEmpty());
    EXPECT_THAT(check(R"({"name": "a", "jars": "3"})", schema), ElementsAre("/jars wrong_type"));
}

TEST(SchemaCheck, ASchemaOfAWrongFormIsPassedOver) {
    const std::string schema = R"({"type": 5, "enum": 5, "required": [5, {}], "properties":
        {"a": 5, "b": {"minimum": "x", "x-unit": 5, "maximum": 1, "minLength": -1, "items": 5}},
        "additionalProperties": 5, "items": []})";
    for (const auto* value : {"3", "\"a\"", "[[]]", R"({"a": 1, "b": 1, "c": 1})"})
        EXPECT_THAT(check(value, schema), IsEmpty()) << value;
    EXPECT_THAT(check(R"({"b": 2})", schema), ElementsAre("/b out_of_range"));
}

TEST(SchemaCheck, AListOfFaultsHasAnEnd) {
    std::string many = "[0";
    for (int i = 0; i < 1000; ++i)
        many += ", 0";
    EXPECT_EQ(check(many + "]", R"({"items": {"type": "string"}})").size(),
              ParseContext::faults_max);
}

TEST(SchemaCheck, ATextThatStandsForAQuantityIsReadAsOne) {
    const std::string volume = R"({"type": ["number", "string"], "x-unit": "L", "maximum": 20})";
    EXPECT_THAT(check("\"2 L\"", volume), IsEmpty());
    EXPECT_THAT(check("\"2 kg\"", volume), ElementsAre(" wrong_unit"));
    EXPECT_THAT(check("\"30000 ml\"", volume), ElementsAre(" out_of_range"));
    const std::string own = R"({"type": "string", "x-unit": "furlong", "x-kind": "distance"})";
    EXPECT_THAT(check("\"2 kg\"", own), IsEmpty()) << "a unit that the house does not know";
    EXPECT_THAT(check("\"2026-02-30\"", R"({"type": "string", "format": "date"})"),
                ElementsAre(" not_a_date"));
}

enum class Colour { pale, dark };
constexpr auto enum_names(Colour) {
    return std::array{EnumName<Colour>{Colour::pale, "pale"},
                      EnumName<Colour>{Colour::dark, "dark"}};
}

struct Wort {
    std::string name;
    Colour colour = Colour::pale;
    brewing::Volume volume;
    std::optional<std::int64_t> jars;
    std::vector<std::string> notes;
    std::map<std::string, double> prices;
    std::optional<brewing::AbsolutePressure> pressure;
    std::optional<Seconds> boiled;
    std::optional<Money> price;
    std::optional<Date> made;
    std::optional<Instant> opened;
    std::optional<LotCode> lot;
    static FieldList fields(auto) {
        return {field<&Wort::name>("Name.").length(1, 8),
                field<&Wort::colour>("Colour.").defaulted(),
                field<&Wort::volume>("Volume.").above(0).at_most(100),
                field<&Wort::jars>("Jars.").between(1, 9),
                field<&Wort::notes>("Notes.").defaulted().length(0, 2),
                field<&Wort::prices>("Prices.").defaulted(),
                field<&Wort::pressure>("Pressure.").at_most(300),
                field<&Wort::boiled>("Boiled.").at_least(60),
                field<&Wort::price>("Price.").at_least(0),
                field<&Wort::made>("Made."),
                field<&Wort::opened>("Opened."),
                field<&Wort::lot>("Lot.")};
    }
};

TEST(SchemaCheck, AgreesWithTheReaderOfTheStructThatTheSchemaIsMadeOf) {
    const json::object schema = Codec<Wort>::schema(Direction::taken);
    for (const auto* text :
         {R"({"name": "a", "volume": "2 L"})", R"({"name": "a", "volume": 2, "jars": null})",
          R"({"name": "", "volume": 0, "jars": 10, "notes": ["a", "b", "c"]})",
          R"({"name": "a", "volume": 200, "colour": "drak", "prices": {"x": "1"}})",
          R"({"nmae": "a", "volume": [], "jars": 1.5, "notes": [1, 2]})", R"({})", R"([])",
          R"({"name": "a", "volume": "2 kg", "pressure": "40 C", "boiled": "long", "price": "-1.50",
              "made": "2026-02-30", "opened": "noon", "lot": "lid"})",
          R"({"name": "a", "volume": "30 gal", "pressure": "4 bar", "boiled": "25 s",
              "price": "dear", "made": "2026-03-14", "opened": "2026-03-14T08:30:00Z"})",
          R"({"name": 1, "volume": true, "prices": []})"}) {
        const json::value value = parse_json(text);
        ParseContext by_type;
        (void)Codec<Wort>::read(value, by_type);
        ParseContext by_schema;
        check_schema(value, schema, by_schema);
        EXPECT_EQ(told(by_schema.faults()), told(by_type.faults())) << text;
    }
}

} // namespace
} // namespace barmkeep
