#include "sdk/sheet/limits.hpp"

#include "sdk/method/error.hpp"
#include "sdk/sheet/actions.hpp"
#include "sdk/sheet/columns.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace barmkeep::sheet {
namespace {

std::size_t depth_of(const std::vector<Block>& blocks) {
    std::size_t inner = 0;
    for (const Block& block : blocks)
        if (const auto* more = std::get_if<More>(&block.content))
            inner = std::max(inner, depth_of(more->blocks));
    return blocks.empty() ? 0 : inner + 1;
}

std::size_t rows_of(const std::vector<Block>& blocks);

/// The rows of one block: what it has many of.
struct RowCount {
    std::size_t operator()(const Facts& facts) const { return facts.facts.size(); }
    std::size_t operator()(const Table& table) const { return table.rows.size(); }
    std::size_t operator()(const Steps& steps) const { return steps.steps.size(); }
    std::size_t operator()(const Lines& lines) const { return lines.lines.size(); }
    std::size_t operator()(const More& more) const { return rows_of(more.blocks); }
    std::size_t operator()(const Chart& chart) const {
        std::size_t points = 0;
        for (const Series& series : chart.series)
            points += series.points.size();
        return points;
    }
    template <class Other>
    std::size_t operator()(const Other&) const {
        return 1;
    }
};

std::size_t rows_of(const std::vector<Block>& blocks) {
    std::size_t rows = 0;
    for (const Block& block : blocks)
        rows += std::visit(RowCount{}, block.content);
    return rows;
}

bool has_control_character(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        // The second set of control characters is C2 80 to C2 9F in UTF-8.
        const bool is_second_set =
            c == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
        if (c < 0x20 || c == 0x7F || is_second_set)
            return true;
    }
    return false;
}

/// Names of members count too: some become labels.
bool has_control_character(const json::value& value) {
    if (const auto* text = value.if_string())
        return has_control_character(std::string_view(*text));
    if (const auto* list = value.if_array())
        return std::any_of(list->begin(), list->end(),
                           [](const json::value& one) { return has_control_character(one); });
    if (const auto* object = value.if_object())
        return std::any_of(object->begin(), object->end(), [](const auto& member) {
            return has_control_character(std::string_view(member.key())) ||
                   has_control_character(member.value());
        });
    return false;
}

bool has_crossed_range(const std::vector<Block>& blocks);

bool is_crossed(const Text& text) {
    return std::any_of(text.runs.begin(), text.runs.end(), [](const Run& run) {
        const auto* range = std::get_if<QuantityRange>(&run.value);
        return range != nullptr && (range->low > range->likely.value_or(range->low) ||
                                    range->likely.value_or(range->low) > range->high);
    });
}

/// Whether a block has a range whose ends are out of order, in any of its texts or points.
struct CrossedRange {
    bool operator()(const Facts& facts) const {
        return is_crossed(facts.title) ||
               has(facts.facts, [](const Fact& fact) { return is_crossed(fact.value); });
    }
    bool operator()(const Table& table) const {
        return is_crossed(table.title) ||
               has(table.rows, [](const Row& row) { return has(row.cells, is_crossed); });
    }
    bool operator()(const Steps& steps) const {
        return is_crossed(steps.title) || has(steps.steps, [](const Step& step) {
                   return is_crossed(step.text) || is_crossed(step.when);
               });
    }
    bool operator()(const Chart& chart) const {
        return is_crossed(chart.title) || has(chart.series, [](const Series& series) {
                   return has(series.points, [](const Point& point) {
                       return point.low.value_or(point.y) > point.high.value_or(point.y);
                   });
               });
    }
    bool operator()(const Lines& lines) const {
        return is_crossed(lines.title) || has(lines.lines, is_crossed);
    }
    bool operator()(const More& more) const {
        return is_crossed(more.title) || has_crossed_range(more.blocks);
    }
    bool operator()(const Warning& warning) const { return is_crossed(warning.text); }
    bool operator()(const Caution& caution) const { return is_crossed(caution.text); }
    bool operator()(const Note& note) const { return is_crossed(note.text); }
    bool operator()(const Clock&) const { return false; }
    bool operator()(const UnknownBlock&) const { return false; }

private:
    template <class List, class Holds>
    static bool has(const List& list, const Holds& holds) {
        return std::any_of(list.begin(), list.end(), holds);
    }
};

bool has_crossed_range(const std::vector<Block>& blocks) {
    return std::any_of(blocks.begin(), blocks.end(), [](const Block& block) {
        return std::visit(CrossedRange{}, block.content);
    });
}

void check_letter(const Action& action, std::map<std::string, const Action*>& letters,
                  std::vector<std::string>& faults) {
    if (!action.letter)
        return;
    const std::string& letter = *action.letter;
    if (letter.size() != 1 || letter[0] < 'a' || letter[0] > 'z') {
        faults.push_back(
            fmt::format("The key '{}' is not one letter from a to z.", harmless(letter)));
        return;
    }
    // A step and the sheet may offer the same call.
    const auto [there, is_new] = letters.emplace(letter, &action);
    if (!is_new &&
        (there->second->method != action.method || there->second->params != action.params))
        faults.push_back(fmt::format("Two actions have the key {}.", letter));
}

void check_actions(const Sheet& sheet, std::vector<std::string>& faults) {
    std::map<std::string, const Action*> letters;
    for (const Action* action : actions_of(sheet)) {
        if (action->method.empty() || action->label.empty())
            faults.emplace_back("An action has no label or no method.");
        check_letter(*action, letters, faults);
    }
    const auto usual = std::count_if(sheet.actions.begin(), sheet.actions.end(),
                                     [](const Action& action) { return action.usual; });
    if (usual > 1)
        faults.push_back(fmt::format("{} actions are the usual one; one can be.", usual));
}

/// What can be wrong with the document itself, whatever it came as.
std::vector<std::string> content_faults(const Sheet& sheet, const json::value& written,
                                        const Limits& limits) {
    std::vector<std::string> faults;
    if (sheet.title.empty())
        faults.emplace_back("The title is empty.");
    if (const auto depth = depth_of(sheet.blocks); depth > limits.depth_max)
        faults.push_back(fmt::format("Blocks stand {} deep in each other; at most {} may.", depth,
                                     limits.depth_max));
    if (const auto rows = rows_of(sheet.blocks); rows > limits.rows_max)
        faults.push_back(fmt::format("It has {} rows, steps, facts, lines and points; at most {} "
                                     "may be.",
                                     rows, limits.rows_max));
    if (has_control_character(written))
        faults.emplace_back("A text holds a control character.");
    if (is_crossed(sheet.title) || is_crossed(sheet.lead) || has_crossed_range(sheet.blocks))
        faults.emplace_back("The ends of a range are out of order.");
    check_actions(sheet, faults);
    return faults;
}

std::string too_large(std::size_t bytes, const Limits& limits) {
    return fmt::format("It is {} bytes long; at most {} are taken.", bytes, limits.bytes_max);
}

} // namespace

std::vector<std::string> check(const Sheet& sheet, const Limits& limits) {
    if (depth_of(sheet.blocks) > json_depth_max) // deeper than any JSON of it could be read
        return {"Blocks stand too deep in each other."};
    const json::value written = to_json(sheet);
    if (!all_finite(written))
        return {"A number is not finite."};
    std::vector<std::string> faults = content_faults(sheet, written, limits);
    if (const auto bytes = write_json(written).size(); bytes > limits.bytes_max)
        faults.push_back(too_large(bytes, limits));
    return faults;
}

DecodedSheet decode_sheet(std::string_view json_text, const Limits& limits) {
    if (json_text.size() > limits.bytes_max)
        return {std::nullopt, {too_large(json_text.size(), limits)}};
    try {
        const json::value value = parse_json(json_text);
        if (has_control_character(value)) // before decoding, which would forgive it
            return {std::nullopt, {"A text holds a control character."}};
        Sheet sheet = decode<Sheet>(value);
        std::vector<std::string> faults = content_faults(sheet, value, limits);
        if (!faults.empty())
            return {std::nullopt, std::move(faults)};
        return {std::move(sheet), {}};
    } catch (const std::invalid_argument& error) {
        return {std::nullopt, {"It is no JSON: " + std::string(error.what())}};
    } catch (const Error& error) {
        std::vector<std::string> faults;
        for (const FieldError& fault : error.faults())
            faults.push_back(fault.pointer + ": " + fault.message);
        return {std::nullopt, std::move(faults)};
    }
}

} // namespace barmkeep::sheet
