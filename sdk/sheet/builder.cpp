#include "sdk/sheet/builder.hpp"

#include <type_traits>

namespace barmkeep::sheet {
namespace {

bool is_empty(const Block& block) {
    return std::visit(
        [](const auto& content) {
            using Content = std::remove_cvref_t<decltype(content)>;
            if constexpr (std::is_same_v<Content, Facts>)
                return content.facts.empty();
            else if constexpr (std::is_same_v<Content, Table>)
                return content.rows.empty();
            else if constexpr (std::is_same_v<Content, Steps>)
                return content.steps.empty();
            else if constexpr (std::is_same_v<Content, Chart>)
                return content.series.empty();
            else if constexpr (std::is_same_v<Content, Lines>)
                return content.lines.empty();
            else if constexpr (std::is_same_v<Content, More>)
                return content.blocks.empty();
            else if constexpr (requires { content.text; })
                return content.text.empty();
            else
                return false;
        },
        block.content);
}

} // namespace

SheetBuilder& SheetBuilder::add(Block block) {
    if (!is_empty(block))
        sheet_.blocks.push_back(std::move(block));
    return *this;
}

SheetBuilder& SheetBuilder::add_note(Text text) {
    return add(Note{std::move(text)});
}

SheetBuilder& SheetBuilder::add_line(Text text) {
    if (text.empty())
        return *this;
    if (auto* lines = last<Lines>()) {
        lines->lines.push_back(std::move(text));
        return *this;
    }
    return lines({std::move(text)});
}

SheetBuilder& SheetBuilder::facts(std::vector<Fact> facts, Text title) {
    std::erase_if(facts, [](const Fact& fact) { return fact.value.empty(); });
    return add(Facts{std::move(facts), std::move(title)});
}

SheetBuilder& SheetBuilder::table(Table table) {
    return add(std::move(table));
}

SheetBuilder& SheetBuilder::step(Step step) {
    if (auto* steps = last<Steps>()) {
        steps->steps.push_back(std::move(step));
        return *this;
    }
    return steps({std::move(step)});
}

SheetBuilder& SheetBuilder::steps(std::vector<Step> steps, Text title) {
    return add(Steps{std::move(steps), std::move(title)});
}

SheetBuilder& SheetBuilder::lines(std::vector<Text> lines, Text title) {
    std::erase_if(lines, [](const Text& line) { return line.empty(); });
    return add(Lines{std::move(lines), std::move(title)});
}

SheetBuilder& SheetBuilder::chart(Chart chart) {
    return add(std::move(chart));
}

SheetBuilder& SheetBuilder::clock_to(std::string label, Instant instant) {
    return add(Clock{std::move(label), instant, Counts::down});
}

SheetBuilder& SheetBuilder::clock_since(std::string label, Instant instant) {
    return add(Clock{std::move(label), instant, Counts::up});
}

SheetBuilder& SheetBuilder::caution(std::string key, Text whole, bool here) {
    return add(Caution{std::move(key), std::move(whole), here});
}

SheetBuilder& SheetBuilder::more(Text title, const SheetBuilder& inside) {
    return add(More{std::move(title), inside.sheet().blocks});
}

SheetBuilder& SheetBuilder::action(Action action) {
    sheet_.actions.push_back(std::move(action));
    return *this;
}

SheetBuilder& SheetBuilder::usual_action(Action usual) {
    usual.usual = true;
    return action(std::move(usual));
}

SheetBuilder& SheetBuilder::topic(std::string beginning) {
    sheet_.topics.push_back(std::move(beginning));
    return *this;
}

Action offer(std::string label, std::string method, json::object params, std::string letter) {
    Action made;
    made.label = std::move(label);
    made.method = std::move(method);
    made.params = std::move(params);
    if (!letter.empty())
        made.letter = std::move(letter);
    return made;
}

Column column(std::string label, Align align, std::int64_t priority) {
    return {std::move(label), align, priority};
}

} // namespace barmkeep::sheet
