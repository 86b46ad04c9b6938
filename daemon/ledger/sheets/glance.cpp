#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::Category;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// "1 kg of light dry extract"; "24 lids" where the good is called as what is counted.
Text amount_and_good(Category category, const contract::Shelf& shelf) {
    const sheet::Run amount = amount_of(category, shelf.available);
    const auto* count = std::get_if<sheet::Count>(&amount.value);
    if (count != nullptr && (count->many == shelf.good || count->one == shelf.good))
        return text(amount);
    return text(amount, " of ", shelf.good);
}

// What is read daily must fit a screen: so many of each stand in full, the others are counted.
constexpr std::size_t due_in_full = 2;
constexpr std::size_t coming_in_full = 3;
constexpr std::size_t held_in_full = 4;
constexpr int coming_days = 60;

std::int64_t jars_ready(const contract::Glance& glance) {
    std::int64_t jars = 0;
    for (const contract::Shelf& shelf : glance.shelves)
        if (shelf.category == Category::concentrate)
            jars += shelf.available.steps;
    return jars;
}

std::vector<contract::Reminder> due_now(const contract::Glance& glance) {
    std::vector<contract::Reminder> due;
    std::copy_if(glance.due.begin(), glance.due.end(), std::back_inserter(due),
                 [&](const auto& one) { return one.due <= glance.today; });
    return due;
}

void add_due(SheetBuilder& made, const std::vector<contract::Reminder>& due) {
    sheet::Steps steps;
    steps.title = text("Due now");
    for (const contract::Reminder& reminder : due) {
        if (steps.steps.size() == due_in_full)
            break;
        steps.steps.push_back({text(reminder.title), text(reminder.due), sheet::StepState::now,
                               sheet::offer("done", "reminder.done", {{"name", reminder.name}})});
    }
    made.add(std::move(steps));
    if (due.size() > due_in_full)
        made.note("And ",
                  sheet::count(static_cast<std::int64_t>(due.size() - due_in_full), "more", "more"),
                  ": ", sheet::command("reminder.list"));
}

/// Whether the stock of a brew day is there, as the end of a line.
std::string_view readiness(const contract::Brew& brew) {
    const bool is_short = std::any_of(brew.needs.begin(), brew.needs.end(), [](const auto& need) {
        return need.reserved.steps < need.amount.steps;
    });
    if (is_short)
        return "; not all it needs is there";
    return brew.reserved.empty() ? "" : "; its stock is reserved";
}

/// Brew days and reminders that come next, by day.
void add_coming(SheetBuilder& made, const contract::Glance& glance) {
    std::vector<std::pair<Date, Text>> coming;
    for (const contract::Brew& brew : glance.brews)
        coming.emplace_back(brew.day, text(brew.day, ": ", numbered("brew day", brew.number), ", ",
                                           beer(brew), readiness(brew)));
    for (const contract::Reminder& reminder : glance.due)
        if (reminder.due > glance.today && days_between(glance.today, reminder.due) <= coming_days)
            coming.emplace_back(reminder.due, text(reminder.due, ": ", reminder.title));
    std::stable_sort(coming.begin(), coming.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Text> lines;
    for (auto& [day, line] : coming)
        if (lines.size() < coming_in_full)
            lines.push_back(std::move(line));
    if (coming.size() > lines.size())
        lines.push_back(text(
            sheet::count(static_cast<std::int64_t>(coming.size() - lines.size()), "more", "more"),
            ": ", sheet::command("brew.list"), ", ", sheet::command("reminder.list")));
    made.lines(std::move(lines), "Next");
}

void add_held(SheetBuilder& made, const contract::Glance& glance) {
    auto lines = not_to_use(glance.shelves, glance.today);
    if (lines.size() > held_in_full) {
        lines.resize(held_in_full - 1);
        lines.push_back(text("and more, for other reasons: ", sheet::command("stock.list")));
    }
    made.lines(std::move(lines), "Not to use");
}

/// All of a category in one cell: its goods with their lots, or only the sum.
Text on_hand(const contract::Glance& glance, Category category, bool by_lot) {
    std::vector<Text> parts;
    for (const contract::Shelf& shelf : glance.shelves) {
        if (shelf.category != category || shelf.available.steps <= 0)
            continue;
        if (by_lot)
            for (Text& lot : in_order(shelf))
                parts.push_back(std::move(lot));
        else
            parts.push_back(amount_and_good(category, shelf));
    }
    Text all{};
    for (const Text& part : parts)
        all.append(all.empty() ? "" : "; ").append(part);
    return all;
}

void add_shelf(SheetBuilder& made, const contract::Glance& glance) {
    made.facts({{"jars, first to take first", on_hand(glance, Category::concentrate, true)},
                {"yeast", on_hand(glance, Category::yeast, true)},
                {"malt extract", on_hand(glance, Category::extract, false)},
                {"lids", on_hand(glance, Category::lids, false)}});
}

} // namespace

sheet::Sheet glance(const Nothing&, const contract::Glance& glance) {
    SheetBuilder made(glance.cellar.name, " on ", glance.today);
    const std::int64_t jars = jars_ready(glance);
    const auto due = due_now(glance);
    made.lead(jars == 0 ? text("No jar is ready to use; ")
                        : text(sheet::count(jars, "jar"), " ready to use; "),
              due.empty() ? text("nothing is due")
                          : text(sheet::count(static_cast<std::int64_t>(due.size()), "thing"),
                                 due.size() == 1 ? " is due" : " are due"),
              glance.brews.empty() ? text(".")
                                   : text("; next brew day ", glance.brews[0].day, "."));
    add_due(made, due);
    add_coming(made, glance);
    add_held(made, glance);
    add_shelf(made, glance);
    warn_of_lots(made, glance.shelves);
    warn_of_gaps(made, glance.cellar);
    follow(made, {"lot.", "entry.", "brew.", "reminder.", "day.", "cellar."});
    return made;
}

} // namespace barmkeep::ledger::sheets
