#include "daemon/client/glance.hpp"

#include "daemon/client/shelf.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::barm {
namespace {

/// What expires within so many days is marked.
constexpr int soon_days = 30;

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

std::string shelf_lines(const contract::Glance& glance, const Style& style) {
    if (glance.shelves.empty())
        return "  nothing yet; add a good with `barm good add`, then record a purchase with "
               "`barm stock buy`\n";
    return goods_table(glance.shelves, style, 2);
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
                                       printable(reminder.title), printable(reminder.name)),
                           glance, style);
    return text;
}

/// What should be seen to on the shelf itself: held lots, and what expires soon.
std::string lots_text(const contract::Glance& glance, const Style& style) {
    std::string text;
    for (const auto& shelf : glance.shelves)
        for (const auto& lot : shelf.lots) {
            const std::string name = fmt::format("{} {}", to_text(lot.code), printable(shelf.good));
            for (const auto& hold : lot.holds)
                text += "  " + style.warning("on hold") + "     " +
                        wrapped(fmt::format("{}: {} ({})", name, meaning_of(hold.kind),
                                            printable(hold.note)),
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
                                    brew.number, printable(brew.name));
    if (brew.volume)
        words += ", " + brewing::print(*brew.volume, style.system);
    if (brew.gravity)
        words += " at " + brewing::print(*brew.gravity);
    std::string aside;
    for (const auto& reserved : brew.reserved)
        aside += fmt::format("{}{} {} {}", aside.empty() ? "" : ", ", to_text(reserved.lot),
                             amount_text(reserved.amount, style), printable(reserved.good));
    return aside.empty() ? words : words + "; reserved: " + aside;
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
    const std::string facts = fmt::format("{}, {}, worth {}", printable(glance.cellar.name),
                                          to_text(glance.today), money_text(glance.value, style));
    return style.heading(wrapped(facts, static_cast<std::size_t>(style.width), 0)) + '\n' +
           section(style, "Due", due_text(glance, style)) +
           section(style, "Next brew days", brews_text(glance, style)) +
           section(style, "See to", lots_text(glance, style)) +
           section(style, "Shelf", shelf_lines(glance, style));
}

} // namespace barmkeep::barm
