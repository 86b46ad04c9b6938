// Makes a sheet in a dozen lines.
//
//     Sheet made = SheetBuilder("Starter for ", brew.name)
//                      .lead("Open ", count(2, "jar"), " of ", lot.code, " and add ", water, ".")
//                      .step(Step{text("Boil the wort for ", boil, "."), start, StepState::next})
//                      .step(Step{text("Pitch ", count(1, "pack"), "."), start})
//                      .warning("old_pack", "The pack is ", age, " old by then.")
//                      .cautions(result.cautions, {"boil_before_use"})
//                      .more("How this was computed",
//                            SheetBuilder().facts({{"cells now", result.cells}}))
//                      .usual_action(offer("make it", "starter.make", {{"brew", brew.number}},
//                      "m")) .topic("lot.");
//
// Blocks stand in the order of the calls.  Steps and lines that follow each other make one block.
// What is empty is left out: a table without rows, a fact without a value, an empty note.
//
// Thread safety: a value; no shared state.
#pragma once

#include "sdk/sheet/sheet.hpp"

#include <algorithm>

namespace barmkeep::sheet {

class SheetBuilder {
public:
    SheetBuilder() = default;
    /// The title, of parts as text() takes them.
    explicit SheetBuilder(Text title) { sheet_.title = std::move(title); }
    template <class First, class Second, class... Parts>
    SheetBuilder(First&& first, Second&& second, Parts&&... parts)
        : SheetBuilder{text(std::forward<First>(first), std::forward<Second>(second),
                            std::forward<Parts>(parts)...)} {}

    /// The one sentence that answers; a second call replaces the first.
    template <class... Parts>
    SheetBuilder& lead(Parts&&... parts) {
        sheet_.lead = text(std::forward<Parts>(parts)...);
        return *this;
    }
    template <class... Parts>
    SheetBuilder& note(Parts&&... parts) {
        return add_note(text(std::forward<Parts>(parts)...));
    }
    /// Words about this very case, with a stable key.
    template <class... Parts>
    SheetBuilder& warning(std::string key, Parts&&... parts) {
        return add(
            Warning{text(std::forward<Parts>(parts)...), std::move(key), Severity::warning, {}});
    }
    /// Words that must be read before all else: the writers put them first.
    template <class... Parts>
    SheetBuilder& alarm(std::string key, Parts&&... parts) {
        return add(
            Warning{text(std::forward<Parts>(parts)...), std::move(key), Severity::alarm, {}});
    }
    /// One line of a list of lines.
    template <class... Parts>
    SheetBuilder& line(Parts&&... parts) {
        return add_line(text(std::forward<Parts>(parts)...));
    }

    SheetBuilder& facts(std::vector<Fact> facts, Text title = {});
    SheetBuilder& table(Table table);
    /// Adds to the steps before it, or begins a list of steps.
    SheetBuilder& step(Step step);
    /// Begins a new list of steps under a heading.
    SheetBuilder& steps(std::vector<Step> steps, Text title = {});
    SheetBuilder& lines(std::vector<Text> lines, Text title = {});
    SheetBuilder& chart(Chart chart);
    /// A clock that counts down to an instant, or up from it.
    SheetBuilder& clock_to(std::string label, Instant instant);
    SheetBuilder& clock_since(std::string label, Instant instant);
    /// A safety text; `here` if it belongs to this very step.
    SheetBuilder& caution(std::string key, Text whole, bool here = false);
    /// Cautions as results carry them: anything with a `key` and a `text`, such as
    /// contract::Caution.  Those whose key is in `here` stand in full.
    template <class Cautions>
    SheetBuilder& cautions(const Cautions& all, const std::vector<std::string_view>& here = {}) {
        for (const auto& one : all)
            caution(std::string(one.key), Text(std::string(one.text)),
                    std::find(here.begin(), here.end(), one.key) != here.end());
        return *this;
    }
    /// Folds the blocks of another builder away under a title.  Its title, lead, actions and
    /// topics do not count.
    SheetBuilder& more(Text title, const SheetBuilder& inside);
    SheetBuilder& action(Action action);
    /// The action that most people take next; at most one of a sheet.
    SheetBuilder& usual_action(Action action);
    SheetBuilder& topic(std::string beginning);
    /// Any block, or the content of one: add(Clock{...}).
    SheetBuilder& add(Block block);
    template <class Content>
    requires(!std::same_as<Content, Block>) SheetBuilder& add(Content content) {
        return add(Block{std::move(content)});
    }

    /// The sheet so far.
    [[nodiscard]] const Sheet& sheet() const noexcept { return sheet_; }
    operator Sheet() const { return sheet_; } // NOLINT: a builder stands for what it built

private:
    SheetBuilder& add_note(Text text);
    SheetBuilder& add_line(Text text);
    /// The content of the last block, if it is of this kind.
    template <class Content>
    [[nodiscard]] Content* last() {
        return sheet_.blocks.empty() ? nullptr
                                     : std::get_if<Content>(&sheet_.blocks.back().content);
    }

    Sheet sheet_;
};

/// Makes an action: offer("make it", "starter.make", {{"brew", 12}}, "m").  The letter is its key
/// while the sheet is followed; parameters still to be asked for go into `ask`.
[[nodiscard]] Action offer(std::string label, std::string method, json::object params = {},
                           std::string letter = {});

/// Makes a column: column("left", Align::right, 2).
[[nodiscard]] Column column(std::string label, Align align = Align::left,
                            std::int64_t priority = 1);

/// Makes a row of cells: row(code, amount, best_by); an empty text is an empty cell.
template <class... Cells>
[[nodiscard]] Row row(Cells&&... cells) {
    return Row{{Text(std::forward<Cells>(cells))...}, {}};
}

} // namespace barmkeep::sheet
