// Sheets as a person reads them, for tests of the plugins' sheets.
#pragma once

#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <algorithm>
#include <gmock/gmock.h>
#include <string>
#include <vector>

namespace barmkeep::test {

/// "barm stock buy lids --amount ...": near enough to what the client prints.
inline std::string command_of(const std::string& method, const json::object& params,
                              const std::vector<std::string>& ask) {
    std::string text = "barm " + method;
    for (const auto& member : params)
        text += " --" + std::string(member.key()) + " " +
                (member.value().is_string() ? "'" + std::string(member.value().get_string()) + "'"
                                            : write_json(member.value()));
    for (const auto& name : ask)
        text += " --" + name + " ...";
    std::replace(text.begin(), text.end(), '.', ' ');
    std::replace(text.begin(), text.end(), '_', '-');
    return text;
}

/// A reader in Vienna on the morning of 14 March 2026, a Saturday.
inline sheet::Reader reader(int width, bool full = false) {
    sheet::Reader made;
    made.currency = "EUR";
    made.time_zone = "Europe/Vienna";
    made.now = parse_instant("2026-03-14T08:00:00Z");
    made.width = width;
    made.full = full;
    made.command = command_of;
    return made;
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t from = 0;
    while (from < text.size()) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

/// The text at a width, after what every sheet must hold: no fault, no line too wide, no field's
/// name, no column of yes and no.
inline std::string written(const sheet::Sheet& made, int width = 80, bool full = false) {
    EXPECT_THAT(sheet::check(made), testing::IsEmpty());
    const std::string text = sheet::write_text(made, reader(width, full));
    for (const std::string& line : lines_of(text)) {
        const auto columns = std::count_if(line.begin(), line.end(), [](char one) {
            return (static_cast<unsigned char>(one) & 0xC0U) != 0x80U; // a letter's first byte
        });
        EXPECT_LE(columns, width) << line;
        EXPECT_FALSE(line.ends_with("  yes") || line.ends_with("  no")) << line;
    }
    EXPECT_EQ(text.find('_'), std::string::npos) << text;
    return text;
}

} // namespace barmkeep::test
