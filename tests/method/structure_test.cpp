#include "sdk/method/about.hpp"
#include "sdk/method/amount.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep {
namespace {

enum class Colour { pale, dark };
constexpr auto enum_names(Colour) {
    return std::array{EnumName<Colour>{Colour::pale, "pale"},
                      EnumName<Colour>{Colour::dark, "dark"}};
}

struct Jar {
    std::string name;
    std::int64_t count = 1;
    static FieldList fields(auto) {
        return {field<&Jar::name>("Its name.").length(1, 8),
                field<&Jar::count>("How many.").defaulted().between(1, 9)};
    }
};

struct Order {
    static constexpr About about{"order.place", Access::keep, Effect::writes, "Places an order."};
    struct Params {
        std::string good;
        std::optional<Colour> colour;
        brewing::Volume volume;
        std::vector<Jar> jars;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good.").positional().length(1, 20),
                    field<&Params::colour>("Its colour."),
                    field<&Params::volume>("How much.").above(0).at_most(100),
                    field<&Params::jars>("The jars.").defaulted().length(0, 2)};
        }
    };
    using Result = Nothing;
};

std::vector<FieldError> faults_of(const char* text) {
    try {
        (void)read_as<Order::Params>(parse_json(text));
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::params);
        return error.faults();
    }
    return {};
}

auto at(const char* pointer, const char* reason) {
    return testing::AllOf(testing::Field(&FieldError::pointer, pointer),
                          testing::Field(&FieldError::reason, reason));
}

TEST(Structure, ReadsWhatItWrites) {
    const auto order = read_as<Order::Params>(parse_json(
        R"({"good":"extract","colour":"dark","volume":"2 qt","jars":[{"name":"pint"},{"name":"quart","count":3}]})"));
    EXPECT_EQ(order.colour, Colour::dark);
    EXPECT_DOUBLE_EQ(order.volume.in(brewing::us_quart), 2.0);
    EXPECT_EQ(order.jars.at(0).count, 1);
    EXPECT_EQ(order.jars.at(1).count, 3);
    EXPECT_EQ(to_json(read_as<Order::Params>(to_json(order))), to_json(order));
}

TEST(Structure, ReportsEveryFaultAtOnceWithItsPlace) {
    EXPECT_THAT(
        faults_of(
            R"({"godo":"x","colour":"darc","volume":"0 L","jars":[{"count":10},{"name":""},7]})"),
        testing::UnorderedElementsAre(
            at("/godo", "unknown_field"), at("/good", "missing"), at("/colour", "unknown_word"),
            at("/volume", "out_of_range"), at("/jars/0/name", "missing"),
            at("/jars/0/count", "out_of_range"), at("/jars/1/name", "too_short"),
            at("/jars/2", "wrong_type")));
}

TEST(Structure, SuggestsTheFieldOrWordMeant) {
    const auto faults = faults_of(R"({"good":"x","volume":1,"colur":"pale","colour":"darc"})");
    ASSERT_EQ(faults.size(), 2U);
    EXPECT_EQ(faults[0].hint, "Did you mean 'colour'?");
    EXPECT_EQ(faults[1].hint, "Did you mean dark? One of: pale, dark.");
}

TEST(Structure, CountsTheLettersOfATextAndNotItsBytes) {
    // The bound is 20; maxLength of JSON Schema draft 07 counts code points (RFC 8259).
    EXPECT_TRUE(faults_of(R"({"good":"ääääääääääääääääääää","volume":1})").empty());
    EXPECT_THAT(faults_of(R"({"good":"äääääääääääääääääääää","volume":1})"),
                testing::ElementsAre(at("/good", "too_long")));
}

TEST(Structure, StopsTellingFaultsThatNobodyReads) {
    json::object slips;
    for (int i = 0; i < 10'000; ++i)
        slips["slip" + std::to_string(i)] = 1;
    EXPECT_EQ(faults_of(write_json(slips).c_str()).size(), ParseContext::faults_max);
}

TEST(Structure, EscapesPointers) {
    EXPECT_THAT(faults_of(R"({"good":"x","volume":1,"a/b~c":1})"),
                testing::ElementsAre(at("/a~1b~0c", "unknown_field")));
}

TEST(Structure, NullMeansAbsentOnlyWhereAbsenceIsAllowed) {
    EXPECT_TRUE(faults_of(R"({"good":"x","volume":1,"colour":null,"jars":null})").empty());
    EXPECT_THAT(faults_of(R"({"good":null,"volume":1})"),
                testing::ElementsAre(at("/good", "wrong_type")));
}

TEST(Structure, RefusesControlCharactersAndWrongTypes) {
    EXPECT_THAT(
        faults_of(R"({"good":"a\tb","volume":true})"),
        testing::ElementsAre(at("/good", "control_character"), at("/volume", "wrong_type")));
    EXPECT_THAT(faults_of("[]"), testing::ElementsAre(at("", "wrong_type")));
}

TEST(Structure, OneDescriptionGivesTheSchema) {
    const Description described = describe<Order>();
    EXPECT_EQ(described.name, "order.place");
    EXPECT_EQ(described.params, parse_json(R"({
        "type":"object","additionalProperties":false,"required":["good","volume"],
        "properties":{
          "good":{"type":"string","minLength":1,"maxLength":20,"description":"The good.","x-positional":true},
          "colour":{"type":"string","enum":["pale","dark"],"description":"Its colour."},
          "volume":{"type":["number","string"],"x-unit":"L","exclusiveMinimum":0.0,"maximum":100.0,
                    "description":"How much."},
          "jars":{"type":"array","maxItems":2,"description":"The jars.","default":[],
            "items":{"type":"object","additionalProperties":false,"required":["name"],
              "properties":{
                "name":{"type":"string","minLength":1,"maxLength":8,"description":"Its name."},
                "count":{"type":"integer","minimum":1.0,"maximum":9.0,"default":1,
                         "description":"How many."}}}}}})"));
}

TEST(Structure, DescriptionsTravel) {
    const Description described = describe<Order>();
    EXPECT_EQ(to_json(read_as<Description>(to_json(described))), to_json(described));
}

TEST(Structure, PositionsBecomeNames) {
    const auto params = parse_json(R"(["extract","pale","1 L"])");
    EXPECT_EQ(named_params(&params, describe<Order>()),
              parse_json(R"({"good":"extract","colour":"pale","volume":"1 L"})"));
    const auto many = parse_json("[1,2,3,4,5,6]");
    EXPECT_THROW((void)named_params(&many, describe<Order>()), Error);
}

TEST(Structure, ErrorsTravel) {
    const Error error{ErrorKind::not_enough, "not_enough", "There are 3.", "Recount.", "/amount"};
    const Error back = Error::from_json(error.to_json());
    EXPECT_EQ(back.kind(), ErrorKind::not_enough);
    EXPECT_EQ(back.to_json(), error.to_json());
    EXPECT_EQ(Error::from_json(json::value(3)).kind(), ErrorKind::internal);
}

} // namespace
} // namespace barmkeep
