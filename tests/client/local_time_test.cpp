#include "daemon/client/local_time.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::barm {
namespace {

using testing::HasSubstr;

std::string read(std::string_view text, const std::string& zone = "Europe/Vienna") {
    const auto instant = local_instant(
        text, [] { return parse_date("2026-03-14"); }, [&] { return zone; });
    return instant ? to_text(*instant) : "none";
}

// Vienna is an hour ahead of UTC in winter and two in summer; Kolkata five and a half: the IANA
// zone database.
TEST(LocalTime, IsReadByTheCellarsClock) {
    EXPECT_EQ(read("09:30"), "2026-03-14T08:30:00Z");
    EXPECT_EQ(read("9:30"), "2026-03-14T08:30:00Z");
    EXPECT_EQ(read("yesterday 21:15"), "2026-03-13T20:15:00Z");
    EXPECT_EQ(read("2026-07-14 09:30:15"), "2026-07-14T07:30:15Z");
    EXPECT_EQ(read("14 Jul 2026 09:30"), "2026-07-14T07:30:00Z");
    EXPECT_EQ(read("00:15", "Asia/Kolkata"), "2026-03-13T18:45:00Z");
}

TEST(LocalTime, LeavesOtherTextsAlone) {
    for (const char* text : {"", "soon", "24:00", "09:60", "9:3", "9", "09:30:", "09:30:61",
                             "-1:30", "2026-02-30 09:30", "2026-03-14T08:30:00Z", "09:30 today"})
        EXPECT_EQ(read(text), "none") << text;
}

TEST(LocalTime, RefusesAnHourThatTheClocksSkipOrShowTwice) {
    // The European Union's clocks go forward on the last Sunday of March and back on the last of
    // October: directive 2000/84/EC.
    for (const char* text : {"2026-03-29 02:30", "2026-10-25 02:30"})
        try {
            ADD_FAILURE() << read(text);
        } catch (const std::invalid_argument& error) {
            EXPECT_THAT(error.what(), HasSubstr("offset"));
        }
    EXPECT_THROW((void)read("09:30", "Europe/Nowhere"), std::invalid_argument);
}

} // namespace
} // namespace barmkeep::barm
