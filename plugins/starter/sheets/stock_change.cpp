#include "plugins/starter/sheets/parts.hpp"

#include "sdk/contract/good.hpp"

#include <cstdlib>

namespace barmkeep::starter::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

/// "2 jars of J10N"; what it is follows from the letter of the lot.
Text moved(const contract::Line& line) {
    using contract::Category;
    Amount amount = line.quantity;
    amount.steps = std::abs(amount.steps);
    if (amount.measure != Measure::pieces)
        return text(amount, " of ", line.lot);
    const char letter = line.lot.letter();
    return text(sheet::count(amount.steps, letter == lot_letter(Category::concentrate) ? "jar"
                                           : letter == lot_letter(Category::yeast)     ? "pack"
                                                                                       : "piece"),
                " of ", line.lot);
}

Text all_moved(const std::vector<contract::Line>& lines) {
    std::vector<Text> parts;
    for (const contract::Line& line : lines)
        if (line.quantity.steps != 0)
            parts.push_back(moved(line));
    return sheet::listed(parts);
}

sheet::Table lines_table(const std::vector<contract::Line>& lines) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table{{column("lot"), column("good"), column("change", Align::right),
                        column("value", Align::right)},
                       {},
                       {}};
    for (const contract::Line& line : lines)
        table.rows.push_back(sheet::row(line.lot, line.good, line.quantity, line.value));
    return table;
}

void add_what_follows(SheetBuilder& made, const StarterRecord& starter) {
    const json::object itself{{"starter", starter.number}};
    if (starter.state == StarterState::growing) {
        if (starter.steps_made < std::ssize(starter.plan.steps))
            made.usual_action(sheet::offer("next step, when grown", "starter.step", itself, "n"));
        else
            made.usual_action(sheet::offer("it was pitched", "starter.finish", itself, "p"));
        sheet::Action undo = sheet::offer("undo this step", "starter.undo", itself, "u");
        undo.ask = {"reason"};
        undo.confirm = true;
        made.action(std::move(undo));
    }
    made.action(sheet::offer("see the starter", "starter.show", itself, "s"));
    add_topics(made);
}

/// The answer to a step just made: what was taken, and what to do with it now.
sheet::Sheet step_taken(const StockChange& change) {
    const StarterRecord& starter = change.starter;
    const auto all = starter.plan.steps.size();
    const auto made_now = static_cast<std::size_t>(starter.steps_made);
    SheetBuilder made("Starter ", std::to_string(starter.number), " for ", purpose(starter.plan));
    made.lead("Step ", std::to_string(made_now), " of ", std::to_string(all),
              " is recorded. Taken from the shelf: ", all_moved(change.lines), ".");
    add_releases(made, change.despite);
    if (made_now > 0 && made_now <= all)
        for (auto& step : recipe(starter.plan, made_now - 1, {}, sheet::StepState::now))
            made.step(std::move(step));
    if (made_now > 0 && made_now < all)
        made.note("Then wait until it has grown: to about ", starter.plan.steps[made_now - 1].after,
                  ".");
    else if (all > 0)
        made.note("Then let it grow, and pitch it: about ", starter.plan.cells_end, ".");
    // The warnings of the first step are the plan's.
    if (made_now <= 1)
        add_warnings(made, starter.plan.warnings);
    else if (!starter.log.empty())
        add_warnings(made, starter.log.back().warnings);
    add_cautions(made, starter.plan.cautions,
                 {"before_opening", "signs_inside", "boil_before_use", "boiling_no_remedy"});
    made.more("What was taken", SheetBuilder().table(lines_table(change.lines)));
    made.more("How it was planned", reasons(starter.plan));
    add_what_follows(made, starter);
    return made;
}

} // namespace

sheet::Sheet made(const StarterRequest&, const StockChange& change) {
    return step_taken(change);
}

sheet::Sheet stepped(const StarterStep::Params&, const StockChange& change) {
    return step_taken(change);
}

sheet::Sheet undone(const StarterUndo::Params&, const StockChange& change) {
    const StarterRecord& starter = change.starter;
    SheetBuilder made("Starter ", std::to_string(starter.number), " for ", purpose(starter.plan));
    const Text back = all_moved(change.lines);
    made.lead("The last line of its log is undone. ",
              back.empty() ? Text("No stock moved.") : text("Back on the shelf: ", back, "."));
    if (!back.empty()) {
        // The ledger cannot know which jars were opened before the step was undone.
        made.warning("opened_jars",
                     "If one of these jars was opened, it is no stock any more: throw it out, and "
                     "record that: ",
                     sheet::command("stock.discard"));
        add_cautions(made, starter.plan.cautions, {"opened_jar"});
    }
    if (starter.state == StarterState::dropped)
        made.note("Its first step was undone, so the starter is gone.");
    add_releases(made, change.despite);
    made.more("What went back", SheetBuilder().table(lines_table(change.lines)));
    if (starter.state == StarterState::growing)
        made.usual_action(
            sheet::offer("see the starter", "starter.show", {{"starter", starter.number}}, "s"));
    else
        made.usual_action(sheet::offer("plan a starter", "starter.plan", {}, "p"));
    add_topics(made);
    return made;
}

} // namespace barmkeep::starter::sheets
