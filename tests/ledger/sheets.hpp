// What the tests of the ledger's sheets share: things made by hand, and what holds for each sheet.
#pragma once

#include "daemon/ledger/sheets/sheets.hpp"
#include "sdk/sheet/limits.hpp"
#include "sdk/sheet/text_writer.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sstream>

namespace barmkeep::ledger::sheets {

inline constexpr std::size_t lines_max = 24; ///< of what is asked for daily

/// 22 October 2026, a Thursday, at noon in UTC; metric; euros.
inline sheet::Reader reader_of_width(int width) {
    sheet::Reader reader;
    reader.now = parse_instant("2026-10-22T12:00:00Z");
    reader.currency = "EUR";
    reader.width = width;
    return reader;
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream all{text};
    for (std::string line; std::getline(all, line);)
        lines.push_back(line);
    return lines;
}

/// The text at width 80, after what holds for every sheet was checked at widths 40 and 80.
inline std::string written(const sheet::Sheet& made) {
    EXPECT_THAT(sheet::check(made), ::testing::IsEmpty());
    for (const int width : {40, 80})
        for (const std::string& line : lines_of(write_text(made, reader_of_width(width))))
            EXPECT_LE(line.size(), static_cast<std::size_t>(width)) << line;
    std::string text = write_text(made, reader_of_width(80));
    for (const std::string& line : lines_of(text)) {
        // A command is what one types, with the names of its parameters.
        const bool has_command = line.find('=') != std::string::npos;
        EXPECT_TRUE(has_command || line.find('_') == std::string::npos) << line;
    }
    EXPECT_THAT(text, ::testing::Not(::testing::ContainsRegex("[ |](yes|no)[ ]*\n")));
    return text;
}

/// The same without its line breaks, for what a sentence says wherever it is broken.
inline std::string said(const sheet::Sheet& made) {
    std::string words;
    std::istringstream all{written(made)};
    for (std::string word; all >> word;)
        words += (words.empty() ? "" : " ") + word;
    return words;
}

/// Whether it fits the screen at which it is read daily.
inline void expect_one_screen(const sheet::Sheet& made) {
    const std::string text = written(made);
    EXPECT_LE(lines_of(text).size(), lines_max) << text;
}

/// The lead in one line.
inline std::string lead_of(const sheet::Sheet& made) {
    return one_line(made.lead, reader_of_width(80));
}

inline Date day(std::string_view text) {
    return parse_date(text);
}

inline contract::Hold hold_of(contract::HoldKind kind, const std::string& note) {
    contract::Hold hold;
    hold.number = 1;
    hold.kind = kind;
    hold.note = note;
    hold.at = parse_instant("2026-10-03T18:00:00Z");
    hold.who = "anna";
    return hold;
}

/// So many jars of a lot, all of them available.
inline contract::Lot jars(std::int64_t number, std::int64_t count, const std::string& best_by) {
    contract::Lot lot;
    lot.code = LotCode{'J', number};
    lot.good = "pint of wort";
    lot.category = contract::Category::concentrate;
    lot.on_hand = lot.available = pieces(count);
    lot.reserved = pieces(0);
    lot.value = parse_money("9.40");
    lot.best_by = day(best_by);
    return lot;
}

/// Jars that did not seal, kept cold as the record of their run says.
inline contract::Lot chilled(std::int64_t number, std::int64_t count, const std::string& best_by) {
    contract::Lot lot = jars(number, count, best_by);
    lot.available = pieces(0);
    lot.kept = contract::Keeping::refrigerator;
    lot.holds = {hold_of(contract::HoldKind::seal_failed, "the lid springs")};
    lot.holds[0].about = {{"canning.run", 3}};
    return lot;
}

inline contract::Lot extract(std::int64_t number, double grams) {
    contract::Lot lot;
    lot.code = LotCode{'E', number};
    lot.good = "light dry extract";
    lot.category = contract::Category::extract;
    lot.on_hand = lot.available = amount_of(grams * brewing::gram);
    lot.reserved = amount_of(0.0 * brewing::gram);
    lot.value = parse_money("12.40");
    return lot;
}

/// One good's shelf with the sums of its lots.
inline contract::Shelf shelf_of(std::vector<contract::Lot> lots) {
    contract::Shelf shelf;
    shelf.good = lots.front().good;
    shelf.category = lots.front().category;
    shelf.on_hand = shelf.available = shelf.reserved = {0, lots.front().on_hand.measure};
    for (const contract::Lot& lot : lots) {
        shelf.on_hand.steps += lot.on_hand.steps;
        shelf.available.steps += lot.available.steps;
        shelf.reserved.steps += lot.reserved.steps;
        shelf.value = shelf.value + lot.value;
    }
    shelf.lots = std::move(lots);
    return shelf;
}

inline contract::Reminder reminder_of(const std::string& name, const std::string& title,
                                      const std::string& due) {
    contract::Reminder reminder;
    reminder.name = name;
    reminder.title = title;
    reminder.due = day(due);
    reminder.owner = "canning";
    return reminder;
}

inline contract::Brew dunkel() {
    contract::Brew brew;
    brew.number = 12;
    brew.day = day("2026-10-24");
    brew.name = "Dunkel";
    brew.volume = 20.0 * brewing::litre;
    brew.gravity = brewing::Gravity::sg(1.052);
    brew.strain = "lager";
    brew.needs = {{"pint of wort", pieces(3), pieces(3), day("2026-10-18")}};
    brew.reserved = {{LotCode{'J', 10}, "pint of wort", pieces(2)},
                     {LotCode{'J', 16}, "pint of wort", pieces(1)}};
    return brew;
}

inline contract::Line line_of(const LotCode& lot, const std::string& good, const Amount& quantity,
                              const std::string& value) {
    return {lot, good, quantity, parse_money(value)};
}

} // namespace barmkeep::ledger::sheets
