#include "sdk/method/json.hpp"

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

namespace barmkeep {
namespace {

TEST(Json, WritesShortNumbersThatReadBack) {
    EXPECT_EQ(write_json(parse_json(R"({"a":[1,-2,12.5,0.1,true,null,"x\n"]})")),
              R"({"a":[1,-2,12.5,0.1,true,null,"x\n"]})");
}

TEST(Json, RefusesWhatIsNoJson) {
    // 1e999 would be read as infinity by the library alone; the rest it refuses itself.
    for (const char* text : {"", "{", "[1,]", "nul", "1 2", "{\"a\":1e999}", "\"\xff\"", "[NaN]"})
        EXPECT_THROW((void)parse_json(text), std::invalid_argument) << text;
}

TEST(Json, RefusesDeepNesting) {
    EXPECT_NO_THROW(
        (void)parse_json(std::string(json_depth_max, '[') + std::string(json_depth_max, ']')));
    EXPECT_THROW((void)parse_json(std::string(json_depth_max + 1, '[') +
                                  std::string(json_depth_max + 1, ']')),
                 std::invalid_argument);
}

RC_GTEST_PROP(Json, HundredthsSurviveTheRoundTrip, (int hundredths)) {
    // Boost.JSON 1.81 parses some 17-digit doubles a hair off; what a scale or a price shows is
    // exact.
    const double value = hundredths / 100.0;
    RC_ASSERT(parse_json(write_json(json::value(value))).to_number<double>() == value);
}

} // namespace
} // namespace barmkeep
