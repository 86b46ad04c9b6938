#include "plugins/starter/sheets/parts.hpp"

#include <algorithm>

namespace barmkeep::starter::sheets {

using sheet::SheetBuilder;
using sheet::StepState;
using sheet::Text;
using sheet::text;

namespace {

/// The lines that no later line undid.
std::vector<const LogLine*> lines_in_force(const StarterRecord& starter) {
    std::vector<const LogLine*> lines;
    for (const LogLine& line : starter.log)
        if (line.kind != LogKind::undone)
            lines.push_back(&line);
        else if (!lines.empty())
            lines.pop_back();
    return lines;
}

std::string_view happened(LogKind kind) {
    switch (kind) {
    case LogKind::step:
        return "step made";
    case LogKind::finished:
        return "pitched";
    case LogKind::dropped:
        return "thrown away";
    default:
        return "the line before undone";
    }
}

bool has_step_left(const StarterRecord& starter) {
    return starter.state == StarterState::growing &&
           starter.steps_made < std::ssize(starter.plan.steps);
}

Text lead_of(const StarterRecord& starter) {
    const auto lines = lines_in_force(starter);
    if (starter.state == StarterState::growing) {
        const auto all = static_cast<std::int64_t>(starter.plan.steps.size());
        if (has_step_left(starter))
            return text("It grows: ", sheet::count(starter.steps_made, "step"), " of ",
                        std::to_string(all), " made. Make the next one when it has grown.");
        return text("It grows, and no step is left. Pitch it when it has grown: about ",
                    starter.plan.cells_end, ".");
    }
    if (lines.empty())
        return "Its first step was undone, so there is no starter.";
    Text whole = text(starter.state == StarterState::finished ? "It was pitched on "
                                                              : "It was thrown away on ",
                      lines.back()->day);
    if (lines.back()->note)
        whole.append(": " + *lines.back()->note);
    const bool has_stop = lines.back()->note && lines.back()->note->ends_with('.');
    return has_stop ? whole : whole.append(".");
}

/// A step still to be made, without its lots: what is on the shelf may have changed since the plan,
/// and a lot that is on hold by now must not be named as one to open.
Text step_ahead(const Step& step, bool is_next) {
    return text(is_next ? "When it has grown, make the next step: "
                        : "When that has grown, make one more: ",
                step.wort, " at ", step.gravity, ", about ", sheet::count(jars_in({step}), "jar"),
                ". It names the jars, of those usable then.");
}

void add_steps(SheetBuilder& made, const StarterRecord& starter) {
    std::vector<const LogLine*> lines = lines_in_force(starter);
    std::erase_if(lines, [](const LogLine* line) { return line->kind != LogKind::step; });
    const auto& steps = starter.plan.steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (i < lines.size()) {
            made.step({text("Opened ", jars_text(steps[i]), " for ", steps[i].wort,
                            " of wort: ", steps[i].after, "."),
                       text(lines[i]->day),
                       StepState::done,
                       {}});
            continue;
        }
        if (starter.state == StarterState::growing)
            made.step({step_ahead(steps[i], i == lines.size()),
                       {},
                       i == lines.size() ? StepState::next : StepState::later,
                       {}});
    }
}

sheet::Table log_table(const StarterRecord& starter) {
    using sheet::Align;
    using sheet::column;
    sheet::Table table{{column("when"), column("what"), column("note")}, {}, {}};
    for (const LogLine& line : starter.log)
        table.rows.push_back(sheet::row(line.at, happened(line.kind), line.note.value_or("")));
    return table;
}

void add_all_warnings(SheetBuilder& made, const StarterRecord& starter) {
    std::vector<std::string> warnings = starter.plan.warnings;
    for (const LogLine* line : lines_in_force(starter))
        warnings.insert(warnings.end(), line->warnings.begin(), line->warnings.end());
    add_warnings(made, warnings);
}

void add_actions(SheetBuilder& made, const StarterRecord& starter) {
    const json::object itself{{"starter", starter.number}};
    if (starter.state == StarterState::growing) {
        if (has_step_left(starter))
            made.usual_action(sheet::offer("next step", "starter.step", itself, "n"));
        sheet::Action pitched = sheet::offer("it was pitched", "starter.finish", itself, "p");
        pitched.usual = !has_step_left(starter);
        made.action(std::move(pitched));
        sheet::Action away = sheet::offer("it was thrown away", "starter.drop", itself, "t");
        away.ask = {"reason"};
        made.action(std::move(away));
    }
    if (!lines_in_force(starter).empty()) {
        sheet::Action undo = sheet::offer("undo the last line", "starter.undo", itself, "u");
        undo.ask = {"reason"};
        undo.confirm = true;
        made.action(std::move(undo));
    }
}

/// All sheets of a whole starter, with a lead of their own.
sheet::Sheet whole(const StarterRecord& starter, const Text& lead) {
    SheetBuilder made("Starter ", std::to_string(starter.number), " for ", purpose(starter.plan));
    made.lead(lead);
    add_releases(made, starter.plan.despite);
    add_steps(made, starter);
    // What the jars were like is history once the starter has an end.
    if (starter.state == StarterState::growing)
        add_all_warnings(made, starter);
    if (has_step_left(starter))
        add_cautions(made, starter.plan.cautions, {"before_opening", "boil_before_use"});
    SheetBuilder worked_out = reasons(starter.plan);
    if (starter.state != StarterState::growing)
        add_all_warnings(worked_out, starter);
    made.more("How it was planned", worked_out);
    std::vector<Step> opened = starter.plan.steps;
    opened.resize(std::min(opened.size(), static_cast<std::size_t>(starter.steps_made)));
    made.more("The jars that were opened", SheetBuilder().table(jars_table(opened)));
    made.more("The log", SheetBuilder().table(log_table(starter)));
    add_actions(made, starter);
    add_topics(made);
    return made;
}

} // namespace

sheet::Sheet shown(const StarterNumber&, const StarterRecord& starter) {
    return whole(starter, lead_of(starter));
}

sheet::Sheet finished(const StarterFinish::Params&, const StarterRecord& starter) {
    return whole(starter, lead_of(starter));
}

sheet::Sheet dropped(const StarterDrop::Params&, const StarterRecord& starter) {
    return whole(starter,
                 text(lead_of(starter), " The stock that it took does not go back to the shelf."));
}

} // namespace barmkeep::starter::sheets
