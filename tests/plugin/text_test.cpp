#include "sdk/plugin/text.hpp"

#include <gmock/gmock.h>

namespace barmkeep::plugin::test {
namespace {

TEST(OneLine, ControlCharactersBecomeBlanks) {
    EXPECT_EQ(one_line("boil\r\nover\x7f!"), "boil  over !");
}

TEST(OneLine, WhatIsNoUtf8BecomesQuestionMarks) {
    EXPECT_EQ(one_line("K\xf6lsch"), "K?lsch");
    EXPECT_EQ(one_line("K\u00f6lsch"), "K\u00f6lsch");
}

TEST(OneLine, ALongLineCutWithinACharacterKeepsTheOthers) {
    const std::string words = "K\u00f6lsch ";
    const std::string line = one_line(words + std::string(3999 - words.size(), 'a') + "\u00f6");
    EXPECT_TRUE(line == words + std::string(3999 - words.size(), 'a')) << line.substr(0, 10);
}

} // namespace
} // namespace barmkeep::plugin::test
