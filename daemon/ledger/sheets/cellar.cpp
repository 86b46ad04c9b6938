#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

std::int64_t jars_ready(const contract::Glance& glance) {
    std::int64_t jars = 0;
    for (const contract::Shelf& shelf : glance.shelves)
        if (shelf.category == contract::Category::concentrate)
            jars += shelf.available.steps;
    return jars;
}

sheet::Steps due_steps(const contract::Glance& glance) {
    sheet::Steps steps;
    steps.title = text("Due");
    for (const contract::Reminder& reminder : glance.due) {
        sheet::Step step{text(reminder.title), text(reminder.due), sheet::StepState::later, {}};
        if (reminder.due <= glance.today)
            step.state = sheet::StepState::now;
        step.action = sheet::Action{
            .label = "done", .method = "reminder.done", .params = {{"name", reminder.name}}};
        steps.steps.push_back(std::move(step));
    }
    return steps;
}

sheet::Table brew_table(const contract::Glance& glance) {
    using sheet::column;
    sheet::Table table;
    table.title = text("Brew days");
    table.columns = {column("day"), column("brew"), column("beer"),
                     column("reserved", sheet::Align::left, 2)};
    for (const contract::Brew& brew : glance.brews) {
        std::vector<Text> reserved;
        for (const auto& part : brew.reserved)
            reserved.push_back(text(part.lot, " ", part.amount));
        table.rows.push_back(
            sheet::row(brew.day, std::to_string(brew.number), beer(brew), listed(reserved)));
    }
    return table;
}

} // namespace

sheet::Sheet glance(const Nothing&, const contract::Glance& glance) {
    SheetBuilder made(glance.cellar.name, ", ", glance.today);
    const auto due = std::count_if(glance.due.begin(), glance.due.end(),
                                   [&](const auto& one) { return one.due <= glance.today; });
    made.lead(sheet::count(jars_ready(glance), "jar"), " ready to use; ",
              due == 0 ? text("nothing is due") : text(sheet::count(due, "thing"), " due"),
              glance.brews.empty() ? text(".")
                                   : text("; next brew day ", glance.brews[0].day, "."));
    made.lines(not_to_use(glance.shelves, glance.today), text("Not to use"));
    if (auto steps = due_steps(glance); !steps.steps.empty())
        made.add(std::move(steps));
    made.table(brew_table(glance));
    auto shelf = shelf_table(glance.shelves);
    shelf.title = text("Stock");
    made.table(std::move(shelf));
    for (const std::string_view topic : {"lot.", "entry.", "brew.", "reminder.", "day.", "cellar."})
        made.topic(std::string(topic));
    return made;
}

} // namespace barmkeep::ledger::sheets
