#include "sdk/method/text.hpp"

#include <gmock/gmock.h>
#include <string>

namespace barmkeep {
namespace {

TEST(CutAtCharacter, AShortTextStaysWhole) {
    EXPECT_EQ(cut_at_character("", 0), "");
    EXPECT_EQ(cut_at_character("barm", 4), "barm");
    EXPECT_EQ(cut_at_character("\u00e9", 2), "\u00e9");
}

TEST(CutAtCharacter, ACharacterThatIsNotWholeIsLeftOut) {
    // One character of each length there is, all after one letter.
    for (const std::string character : {"\u00e9", "\u20ac", "\U0001f37a"})
        for (std::size_t whole = 1; whole <= character.size(); ++whole) {
            const std::string text = "a" + character;
            EXPECT_EQ(cut_at_character(text + "b", whole), "a") << text << whole;
            EXPECT_EQ(cut_at_character(text + "b", text.size()), text);
        }
}

TEST(CutAtCharacter, ACutBeforeTheFirstCharacterLeavesNothing) {
    EXPECT_EQ(cut_at_character("\u00e9", 1), "");
    EXPECT_EQ(cut_at_character("\u00e9", 0), "");
}

TEST(CutAtCharacter, WhatIsNoUtf8IsCutWhereItMustBe) {
    EXPECT_EQ(cut_at_character(std::string(10, '\x80'), 6).size(), 6u);
}

} // namespace
} // namespace barmkeep
