#include "daemon/protocol/line_reader.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <vector>

namespace barmkeep::protocol {
namespace {

std::vector<std::string> lines_of(LineReader& reader) {
    std::vector<std::string> lines;
    while (auto line = reader.next())
        lines.push_back(std::move(*line));
    return lines;
}

TEST(LineReader, JoinsWhatArrivesInPieces) {
    LineReader reader{100};
    reader.feed("ab");
    EXPECT_TRUE(lines_of(reader).empty());
    EXPECT_EQ(reader.partial_bytes(), 2U);
    reader.feed("c\nde\n\nf");
    EXPECT_EQ(lines_of(reader), (std::vector<std::string>{"abc", "de", ""}));
    EXPECT_EQ(reader.partial_bytes(), 1U);
}

TEST(LineReader, TakesTheRestAsALineAtTheEnd) {
    LineReader reader{100};
    reader.feed("a\nb");
    reader.finish();
    EXPECT_EQ(lines_of(reader), (std::vector<std::string>{"a", "b"}));
    EXPECT_EQ(reader.partial_bytes(), 0U);
}

TEST(LineReader, TakesALineOfExactlyTheLimit) {
    LineReader reader{4};
    reader.feed("abcd\nefgh");
    EXPECT_EQ(lines_of(reader), (std::vector<std::string>{"abcd"}));
    reader.finish();
    EXPECT_EQ(lines_of(reader), (std::vector<std::string>{"efgh"}));
    EXPECT_FALSE(reader.is_overlong());
}

TEST(LineReader, StopsAtALineOverTheLimitWhetherItEndedOrNot) {
    for (const std::string rest : {"", "\n", "\nok\n"}) {
        LineReader reader{4};
        reader.feed("ok\nabcde" + rest);
        EXPECT_EQ(lines_of(reader), (std::vector<std::string>{"ok"}));
        EXPECT_TRUE(reader.is_overlong());
        reader.feed("more\n");
        EXPECT_TRUE(lines_of(reader).empty());
        EXPECT_EQ(reader.partial_bytes(), 0U);
    }
}

RC_GTEST_PROP(LineReader, SplitsTheSameHoweverTheBytesArrive,
              (const std::vector<std::string>& texts, const std::vector<unsigned char>& steps)) {
    std::vector<std::string> lines;
    std::string stream;
    for (auto text : texts) {
        std::erase(text, '\n');
        stream += text + '\n';
        lines.push_back(std::move(text));
    }
    LineReader reader{1 << 20};
    std::vector<std::string> found;
    std::size_t at = 0;
    for (std::size_t i = 0; at < stream.size(); ++i) {
        const std::size_t step = steps.empty() ? 1 : std::size_t{1} + steps[i % steps.size()];
        reader.feed(std::string_view(stream).substr(at, step));
        at += step;
        // Sometimes lines are taken at once, sometimes they pile up.
        if (i % 3 != 0)
            for (auto& line : lines_of(reader))
                found.push_back(std::move(line));
    }
    for (auto& line : lines_of(reader))
        found.push_back(std::move(line));
    RC_ASSERT(found == lines);
    RC_ASSERT(reader.partial_bytes() == 0U);
}

} // namespace
} // namespace barmkeep::protocol
