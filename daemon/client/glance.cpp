#include "daemon/client/glance.hpp"

#include "daemon/client/table.hpp"
#include "daemon/client/value_text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// What expires within so many days is marked.
constexpr int soon_days = 30;

std::string amount_text(const Amount& amount, const Style& style) {
    return value_text(to_json(amount), Kind<Amount>::schema(Direction::sent), style);
}

/// Nothing where there is nothing, so that what there is stands out.
std::string unless_none(const Amount& amount, const Style& style) {
    return amount.steps == 0 ? "" : amount_text(amount, style);
}

std::string money_text(Money money, const Style& style) {
    return value_text(to_json(money), Kind<Money>::schema(Direction::sent), style);
}

/// "today", "in 7 days", "3 days ago".
std::string distance_text(Date from, Date to) {
    const int days = days_between(from, to);
    if (days == 0)
        return "today";
    if (days == 1)
        return "tomorrow";
    return days > 0 ? fmt::format("in {} days", days)
                    : fmt::format("{} {} ago", -days, days == -1 ? "day" : "days");
}

struct ShelfColumn {
    std::string label;
    bool to_the_right;
    std::string (*cell)(const contract::Shelf&, const Style&);
};

/// In the order they are shown.
const std::vector<ShelfColumn>& shelf_columns() {
    using contract::Shelf;
    static const std::vector<ShelfColumn> columns{
        {"good", false,
         [](const Shelf& s, const Style&) {
             return harmless(s.good);
         }},
        {"free", true,
         [](const Shelf& s, const Style& style) {
             return amount_text(s.free, style);
         }},
        {"set aside", true,
         [](const Shelf& s, const Style& style) {
             return unless_none(s.set_aside, style);
         }},
        {"on hand", true,
         [](const Shelf& s, const Style& style) {
             return amount_text(s.on_hand, style);
         }},
        {"best by", false,
         [](const Shelf& s, const Style&) {
             return s.best_by ? to_text(*s.best_by) : "";
         }},
        {"value", true, [](const Shelf& s, const Style& style) {
             return money_text(s.value, style);
         }}};
    return columns;
}

Table shelf_table(const contract::Glance& glance, const Style& style,
                  const std::vector<std::string>& without) {
    Table table;
    table.rows.resize(glance.shelves.size());
    for (const auto& column : shelf_columns()) {
        if (std::find(without.begin(), without.end(), column.label) != without.end())
            continue;
        table.columns.push_back({column.label, column.to_the_right});
        for (std::size_t i = 0; i < glance.shelves.size(); ++i)
            table.rows[i].push_back(column.cell(glance.shelves[i], style));
    }
    table.drop_empty_columns();
    return table;
}

std::string shelf_text(const contract::Glance& glance, const Style& style) {
    if (glance.shelves.empty())
        return "  nothing yet; `barm good add` makes a good known, `barm stock buy` fills the "
               "shelf\n";
    std::vector<std::string> without;
    for (const char* next : {"value", "on hand", "set aside", "best by"}) {
        const Table table = shelf_table(glance, style, without);
        if (table.width() + 2 <= static_cast<std::size_t>(style.width))
            return table_text(table, style, 2);
        without.emplace_back(next);
    }
    return table_text(shelf_table(glance, style, without), style, 2);
}

/// "  2026-03-12  " and then the words, wrapped under each other, in the colour of the day.
std::string dated_line(Date day, const std::string& words, const contract::Glance& glance,
                       const Style& style) {
    const std::string date = to_text(day);
    const int days = days_between(glance.today, day);
    const std::string shown = days < 0 ? style.alarm(date) : days == 0 ? style.warning(date) : date;
    const std::size_t column = 2 + date.size() + 2;
    return "  " + shown + "  " + wrapped(words, static_cast<std::size_t>(style.width), column) +
           '\n';
}

std::string due_text(const contract::Glance& glance, const Style& style) {
    std::string text;
    for (const auto& reminder : glance.due)
        text += dated_line(reminder.due,
                           fmt::format("{}: {} ({})", distance_text(glance.today, reminder.due),
                                       harmless(reminder.title), harmless(reminder.name)),
                           glance, style);
    return text;
}

/// What should be seen to on the shelf itself: held lots, and what expires soon.
std::string lots_text(const contract::Glance& glance, const Style& style) {
    std::string text;
    for (const auto& shelf : glance.shelves)
        for (const auto& lot : shelf.lots) {
            const std::string name = fmt::format("{} {}", to_text(lot.code), harmless(shelf.good));
            if (lot.hold)
                text += "  " + style.warning("on hold") + "     " +
                        wrapped(fmt::format("{}: {}", name, harmless(*lot.hold)),
                                static_cast<std::size_t>(style.width), 14) +
                        '\n';
            if (lot.best_by && lot.on_hand.steps > 0 &&
                days_between(glance.today, *lot.best_by) <= soon_days)
                text += dated_line(
                    *lot.best_by,
                    fmt::format("best by, {}: {}", distance_text(glance.today, *lot.best_by), name),
                    glance, style);
        }
    return text;
}

std::string brew_words(const contract::Brew& brew, const contract::Glance& glance,
                       const Style& style) {
    std::string words = fmt::format("{}: #{} {}", distance_text(glance.today, brew.day),
                                    brew.number, harmless(brew.name));
    if (brew.volume)
        words += ", " + brewing::print(*brew.volume, style.system);
    if (brew.gravity)
        words += " at " + brewing::print(*brew.gravity);
    std::string aside;
    for (const auto& set_aside : brew.set_aside)
        aside += fmt::format("{}{} {} {}", aside.empty() ? "" : ", ", to_text(set_aside.lot),
                             amount_text(set_aside.amount, style), harmless(set_aside.good));
    return aside.empty() ? words : words + "; set aside: " + aside;
}

std::string brews_text(const contract::Glance& glance, const Style& style) {
    std::string text;
    for (const auto& brew : glance.brews)
        text += dated_line(brew.day, brew_words(brew, glance, style), glance, style);
    return text;
}

std::string section(const Style& style, std::string_view heading, const std::string& lines) {
    return lines.empty() ? "" : '\n' + style.heading(heading) + '\n' + lines;
}

} // namespace

std::string glance_text(const contract::Glance& glance, const Style& style) {
    const std::string facts = fmt::format("{}, {}, worth {}", harmless(glance.cellar.name),
                                          to_text(glance.today), money_text(glance.value, style));
    return style.heading(wrapped(facts, static_cast<std::size_t>(style.width), 0)) + '\n' +
           section(style, "Due", due_text(glance, style)) +
           section(style, "Next brew days", brews_text(glance, style)) +
           section(style, "See to", lots_text(glance, style)) +
           section(style, "Shelf", shelf_text(glance, style));
}

} // namespace barmkeep::barm
