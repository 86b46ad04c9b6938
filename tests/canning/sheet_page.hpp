// A sheet of the plugin as a person reads it, and what holds for every one of them.
#pragma once

#include "sdk/sheet/actions.hpp"
#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <algorithm>
#include <gmock/gmock.h>
#include <sstream>

namespace barmkeep::canning::test {

inline constexpr std::size_t lines_max_daily = 24;

/// Commands are written by their method alone: "barm run log".
inline std::string short_command(const std::string& method) {
    std::string words = "barm " + method;
    std::replace(words.begin(), words.end(), '.', ' ');
    std::replace(words.begin(), words.end(), '_', '-');
    return words;
}

inline sheet::Reader reader_at(Instant now, int width = 80) {
    sheet::Reader reader;
    reader.now = now;
    reader.width = width;
    reader.unicode = false; // so that bytes are columns
    reader.currency = "EUR";
    reader.command = [](const std::string& method, const json::object&,
                        const std::vector<std::string>&) {
        return short_command(method);
    };
    return reader;
}

/// The text of a sheet; fails the test where a sheet breaks a rule of docs/sheets.md.
struct Page {
    std::string text;
    std::vector<std::string> lines;

    Page(const sheet::Sheet& sheet, const sheet::Reader& reader)
        : text{sheet::write_text(sheet, reader)} {
        EXPECT_THAT(sheet::check(sheet), testing::IsEmpty());
        EXPECT_FALSE(sheet.lead.empty());
        EXPECT_THAT(text, testing::Not(testing::HasSubstr("_"))) << "a word of the wire";
        std::istringstream all(text);
        for (std::string line; std::getline(all, line);) {
            EXPECT_LE(line.size(), static_cast<std::size_t>(reader.width)) << line;
            lines.push_back(line);
        }
    }

    /// The first lines in one, as they answer.
    [[nodiscard]] std::string top(std::size_t count = 3) const {
        std::string joined;
        for (std::size_t i = 0; i < std::min(count, lines.size()); ++i)
            joined += lines[i] + "\n";
        return joined;
    }
    /// Everything with single blanks, so that a sentence is found wherever its line broke.
    [[nodiscard]] std::string words() const {
        std::istringstream all(text);
        std::string joined;
        for (std::string word; all >> word;)
            joined += (joined.empty() ? "" : " ") + word;
        return joined;
    }
};

/// The action that most people take next, or nothing.
inline const sheet::Action* usual_of(const sheet::Sheet& sheet) {
    for (const sheet::Action* action : sheet::actions_of(sheet))
        if (action->usual)
            return action;
    return nullptr;
}

} // namespace barmkeep::canning::test
