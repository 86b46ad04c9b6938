#include "sdk/sheet/text_writer.hpp"

#include "sdk/sheet/moments.hpp"
#include "sdk/sheet/text_page.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

void write_blocks(const std::vector<Block>& blocks, TextPage& page);

Tone tone_of(StepState state) {
    switch (state) {
    case StepState::done:
        return Tone::done;
    case StepState::now:
        return Tone::due;
    default:
        return Tone::plain;
    }
}

/// "> 2  ": the mark of the state and the number.
std::string step_prefix(const Steps& steps, std::size_t index, const Reader& reader) {
    const StepState state = steps.steps[index].state;
    const std::string mark = state == StepState::now    ? ">"
                             : state != StepState::done ? " "
                             : reader.unicode           ? "\u2713"
                                                        : "x";
    const std::size_t digits = std::to_string(steps.steps.size()).size();
    return mark + padded(std::to_string(index + 1), digits, true) + "  ";
}

struct BlockWriter {
    TextPage& page; // NOLINT: lives for one call

    [[nodiscard]] const Reader& reader() const { return page.reader(); }

    void operator()(const Facts& facts) const {
        open(facts.title);
        std::vector<LabelledText> values;
        for (const Fact& fact : facts.facts)
            values.push_back({plain_text(fact.label, reader()), laid_text(fact.value, reader())});
        write_labelled(values, page);
        close(facts.title);
    }

    void operator()(const Table& table) const {
        page.gap();
        write_table(table, page);
        page.gap();
    }

    void operator()(const Steps& steps) const {
        open(steps.title);
        std::vector<std::string> times;
        std::size_t widest = 0;
        for (const Step& step : steps.steps) {
            times.push_back(laid_text(step.when, reader()));
            widest = std::max(widest, width_of(times.back()));
        }
        for (std::size_t i = 0; i < steps.steps.size(); ++i) {
            std::string prefix = step_prefix(steps, i, reader());
            const std::size_t indent = width_of(prefix);
            std::string text = laid_text(steps.steps[i].text, reader());
            if (indent + widest + 2 <= page.room() / 2)
                prefix += widest == 0 ? "" : padded(times[i], widest + 2, false);
            else if (!times[i].empty())
                text.insert(0, times[i] + ": ");
            page.paragraph(prefix, text, tone_of(steps.steps[i].state));
            write_action(steps.steps[i].action, std::string(indent, ' '), page);
        }
        close(steps.title);
    }

    void operator()(const Chart& chart) const {
        page.gap();
        write_chart(chart, page);
        page.gap();
    }

    void operator()(const Clock& clock) const {
        const std::string label = plain_text(clock.label, reader());
        page.paragraph(label.empty() ? "" : label + "  ",
                       plain_text(clock_text(clock, reader()), reader()), Tone::heading);
    }

    void operator()(const Warning& warning) const {
        if (warning.severity == Severity::alarm) // stands at the top
            return;
        page.paragraph("! ", laid_text(warning.text, reader()), Tone::warning);
        write_action(warning.action, "  ", page);
    }

    void operator()(const Caution& caution) const {
        if (caution.here)
            page.paragraph("", "Caution: " + laid_text(caution.text, reader()), Tone::warning);
    }

    void operator()(const Note& note) const { page.paragraph("", laid_text(note.text, reader())); }

    void operator()(const Lines& lines) const {
        open(lines.title);
        for (const Text& line : lines.lines)
            page.paragraph("- ", laid_text(line, reader()));
        close(lines.title);
    }

    void operator()(const More& more) const {
        if (!reader().full)
            return;
        open(more.title);
        page.indented([&] { write_blocks(more.blocks, page); });
        page.gap();
    }

    void operator()(const UnknownBlock&) const {}

private:
    /// A block with a heading stands apart from the others.
    void open(const Text& title) const {
        if (title.empty())
            return;
        page.gap();
        page.heading(title);
    }
    void close(const Text& title) const {
        if (!title.empty())
            page.gap();
    }
};

void write_blocks(const std::vector<Block>& blocks, TextPage& page) {
    for (const Block& block : blocks)
        std::visit(BlockWriter{page}, block.content);
}

void write_alarms(const Sheet& sheet, TextPage& page) {
    for (const Warning* alarm : alarms_of(sheet.blocks)) {
        page.paragraph("!! ", laid_text(alarm->text, page.reader()), Tone::alarm);
        write_action(alarm->action, "   ", page);
    }
}

std::vector<std::string> folded_titles(const Sheet& sheet, const Reader& reader) {
    std::vector<std::string> titles;
    for (const Block& block : sheet.blocks)
        if (const auto* more = std::get_if<More>(&block.content))
            titles.push_back(laid_text(more->title, reader));
    return titles;
}

/// What is not shown, in one line each; or in full.
void write_rest(const Sheet& sheet, TextPage& page) {
    const Reader& reader = page.reader();
    const auto cautions = other_cautions(sheet.blocks);
    const std::string hint = plain_text(reader.full_hint, reader);
    if (reader.full) {
        if (cautions.empty())
            return;
        page.gap();
        page.heading(Text("Cautions"));
        for (const Caution* caution : cautions)
            page.paragraph("- ", laid_text(caution->text, reader));
        return;
    }
    page.gap();
    if (!cautions.empty())
        page.paragraph("", fmt::format("{} {}: add {} to read {}", cautions.size(),
                                       cautions.size() == 1 ? "caution" : "cautions", hint,
                                       cautions.size() == 1 ? "it" : "them"));
    if (const auto titles = folded_titles(sheet, reader); !titles.empty()) {
        std::string all;
        for (const std::string& title : titles)
            all += (all.empty() ? "" : ", ") + title;
        page.paragraph("", "More with " + hint + ": " + all);
    }
}

/// All keys in as few lines as they take: "m make it | o other plans".
void write_keys(const std::vector<const Action*>& actions, TextPage& page) {
    std::string keys;
    for (const Action* action : actions)
        if (action->letter)
            keys +=
                (keys.empty() ? "" : " | ") +
                with_tight_blanks(plain_text(*action->letter + " " + action->label, page.reader()));
    page.paragraph("", keys);
}

void write_actions(const Sheet& sheet, TextPage& page) {
    std::vector<const Action*> actions;
    for (const Action& action : sheet.actions)
        actions.push_back(&action);
    std::stable_partition(actions.begin(), actions.end(),
                          [](const Action* action) { return action->usual; });
    page.gap();
    if (page.reader().keys) {
        write_keys(actions, page);
        return;
    }
    std::vector<LabelledText> values;
    for (const Action* action : actions)
        values.push_back(
            {plain_text(action->label, page.reader()),
             command_text(action->method, action->params, action->ask, page.reader())});
    write_labelled(values, page);
}

} // namespace

std::string write_text(const Sheet& sheet, const Reader& reader) {
    TextPage page{reader};
    write_alarms(sheet, page);
    page.heading(sheet.title);
    page.paragraph("", laid_text(sheet.lead, reader));
    page.gap();
    write_blocks(sheet.blocks, page);
    write_rest(sheet, page);
    write_actions(sheet, page);
    return page.finish();
}

} // namespace barmkeep::sheet
