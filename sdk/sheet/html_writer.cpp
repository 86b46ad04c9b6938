#include "sdk/sheet/html_writer.hpp"

#include "sdk/sheet/html_text.hpp"
#include "sdk/sheet/moments.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

/// Where a block stands: on the screen what is folded is a <details>, on paper a section; at the
/// top level both are written, and the style shows one of them.
enum class Place { top, screen, paper };

std::string html_blocks(const std::vector<Block>& blocks, const Reader& reader, Place place);

std::string heading(const Text& title, const Reader& reader) {
    return title.empty() ? "" : "<h2>" + html_text(title, reader) + "</h2>\n";
}

std::string action_line(const Action& action, const Reader& reader) {
    return fmt::format("{} <code>{}</code>", escaped(plain_text(action.label, reader)),
                       escaped(command_text(action.method, action.params, action.ask, reader)));
}

std::string action_part(const std::optional<Action>& action, const Reader& reader) {
    return action ? R"(<div class="actions quiet">)" + action_line(*action, reader) + "</div>" : "";
}

/// The words of a state, so that nobody needs the colour.
std::string state_words(StepState state) {
    switch (state) {
    case StepState::done:
        return R"(<span class="state">done</span> )";
    case StepState::now:
        return R"(<span class="state">now</span> )";
    default:
        return "";
    }
}

struct BlockHtml {
    const Reader& reader; // NOLINT: lives for one call
    Place place;

    std::string operator()(const Facts& facts) const {
        std::string items;
        for (const Fact& fact : facts.facts)
            if (!fact.value.empty())
                items +=
                    fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(plain_text(fact.label, reader)),
                                html_text(fact.value, reader));
        return items.empty() ? "" : heading(facts.title, reader) + "<dl>\n" + items + "</dl>\n";
    }

    std::string operator()(const Table& table) const {
        const auto columns = filled_columns(table);
        if (columns.empty())
            return "";
        const auto side = [&](std::size_t i) {
            return table.columns[i].align == Align::right ? R"( class="right")" : "";
        };
        std::string text =
            heading(table.title, reader) + "<div class=\"wide\"><table>\n<thead><tr>";
        for (const std::size_t i : columns)
            text += fmt::format("<th scope=\"col\"{}>{}</th>", side(i),
                                escaped(plain_text(table.columns[i].label, reader)));
        text += "</tr></thead>\n<tbody>\n";
        for (const Row& row : table.rows) {
            text += "<tr>";
            for (const std::size_t i : columns)
                text += fmt::format("<td{}>{}{}</td>", side(i),
                                    i < row.cells.size() ? html_text(row.cells[i], reader) : "",
                                    i == columns.back() ? action_part(row.action, reader) : "");
            text += "</tr>\n";
        }
        return text + "</tbody></table></div>\n";
    }

    std::string operator()(const Steps& steps) const {
        std::string text = heading(steps.title, reader) + "<ol class=\"steps\">\n";
        for (const Step& step : steps.steps) {
            const std::string when = html_text(step.when, reader);
            text += fmt::format(R"(<li class="{}">{}{}{}{}</li>)", to_string(step.state),
                                state_words(step.state),
                                when.empty() ? "" : "<span class=\"when\">" + when + "</span> ",
                                html_text(step.text, reader), action_part(step.action, reader)) +
                    "\n";
        }
        return text + "</ol>\n";
    }

    std::string operator()(const Chart& chart) const { return html_chart(chart, reader); }

    std::string operator()(const Clock& clock) const {
        return fmt::format(
            "<p class=\"clock\">{} <time datetime=\"{}\">{}</time></p>\n",
            escaped(plain_text(clock.label, reader)), to_text(clock.instant),
            escaped(with_tight_blanks(plain_text(still_clock_text(clock, reader), reader))));
    }

    std::string operator()(const Warning& warning) const {
        if (warning.severity == Severity::alarm) // stands at the top
            return "";
        return "<p class=\"warning\">" + html_text(warning.text, reader) + "</p>\n" +
               action_part(warning.action, reader);
    }

    std::string operator()(const Caution& caution) const {
        return caution.here ? "<p class=\"caution\"><strong>Caution:</strong> " +
                                  html_text(caution.text, reader) + "</p>\n"
                            : "";
    }

    std::string operator()(const Note& note) const {
        return "<p class=\"note\">" + html_text(note.text, reader) + "</p>\n";
    }

    std::string operator()(const Lines& lines) const {
        std::string text = heading(lines.title, reader) + "<ul>\n";
        for (const Text& line : lines.lines)
            text += "<li>" + html_text(line, reader) + "</li>\n";
        return lines.lines.empty() ? "" : text + "</ul>\n";
    }

    std::string operator()(const More& more) const {
        std::string text;
        const std::string title = html_text(more.title, reader);
        if (place != Place::paper)
            text += "<details class=\"screen\"><summary>" + title + "</summary>\n" +
                    html_blocks(more.blocks, reader, Place::screen) + "</details>\n";
        if (place != Place::screen)
            text += "<section class=\"paper\"><h2>" + title + "</h2>\n" +
                    html_blocks(more.blocks, reader, Place::paper) + "</section>\n";
        return text;
    }

    std::string operator()(const UnknownBlock&) const { return ""; }
};

std::string html_blocks(const std::vector<Block>& blocks, const Reader& reader, Place place) {
    std::string text;
    for (const Block& block : blocks)
        text += std::visit(BlockHtml{reader, place}, block.content);
    return text;
}

std::string alarms(const Sheet& sheet, const Reader& reader) {
    std::string text;
    for (const Warning* alarm : alarms_of(sheet.blocks))
        text += "<div class=\"alarm\" role=\"alert\">" + html_text(alarm->text, reader) +
                (alarm->action ? "<div>" + action_line(*alarm->action, reader) + "</div>" : "") +
                "</div>\n";
    return text;
}

std::string cautions(const Sheet& sheet, const Reader& reader) {
    const auto others = other_cautions(sheet.blocks);
    if (others.empty())
        return "";
    std::string list = "<ul>\n";
    for (const Caution* caution : others)
        list += "<li>" + html_text(caution->text, reader) + "</li>\n";
    list += "</ul>\n";
    return fmt::format("<details class=\"screen\"><summary>{} {}</summary>\n{}</details>\n"
                       "<section class=\"paper\"><h2>Cautions</h2>\n{}</section>\n",
                       others.size(), others.size() == 1 ? "caution" : "cautions", list, list);
}

std::string actions(const Sheet& sheet, const Reader& reader) {
    if (sheet.actions.empty())
        return "";
    std::vector<const Action*> ordered;
    for (const Action& action : sheet.actions)
        ordered.push_back(&action);
    std::stable_partition(ordered.begin(), ordered.end(),
                          [](const Action* action) { return action->usual; });
    std::string text = "<nav class=\"actions\"><h2>What next</h2>\n<ul>\n";
    for (const Action* action : ordered)
        text += fmt::format("<li{}>{}</li>\n", action->usual ? R"( class="usual")" : "",
                            action_line(*action, reader));
    return text + "</ul></nav>\n";
}

} // namespace

std::string write_html(const Sheet& sheet, const Reader& given) {
    Reader reader = given;
    reader.days_are_near = false;
    reader.unicode = true;
    reader.keys = false;
    const std::string title = html_text(sheet.title, reader);
    const std::string lead = html_text(sheet.lead, reader);
    return fmt::format("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
                       "<meta name=\"viewport\" content=\"width=device-width, "
                       "initial-scale=1\"/>\n<title>{}</title>\n<style>{}</style>\n</head>\n"
                       "<body>\n",
                       escaped(one_line(sheet.title, reader)), html_style()) +
           alarms(sheet, reader) + "<main>\n<h1>" + title + "</h1>\n" +
           (lead.empty() ? "" : "<p class=\"lead\">" + lead + "</p>\n") +
           html_blocks(sheet.blocks, reader, Place::top) + cautions(sheet, reader) +
           actions(sheet, reader) + "</main>\n</body>\n</html>\n";
}

} // namespace barmkeep::sheet
