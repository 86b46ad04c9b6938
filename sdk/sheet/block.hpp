// The blocks of a sheet, in the order in which a person needs them.
//
// In JSON a block is an object whose `kind` says what it is and whose other members are those of
// the struct: {"kind": "note", "text": "..."}.
//
// Thread safety: values; no shared state.
#pragma once

#include "sdk/sheet/action.hpp"
#include "sdk/sheet/chart.hpp"

#include <variant>

namespace barmkeep::sheet {

/// A labelled value.
struct Fact {
    std::string label{}; ///< words, not a field's name: "best by"
    Text value{};
    bool operator==(const Fact&) const = default;
    static FieldList fields(auto) {
        return {field<&Fact::label>("What the value is."), field<&Fact::value>("The value.")};
    }
};

/// A few labelled values under each other.  One without a value is not printed.
struct Facts {
    std::vector<Fact> facts{};
    Text title{};
    bool operator==(const Facts&) const = default;
    static FieldList fields(auto) {
        return {field<&Facts::facts>("The values."),
                field<&Facts::title>("Heading, if any.").defaulted()};
    }
};

enum class Align { left, right };
constexpr auto enum_names(Align) {
    using N = EnumName<Align>;
    return std::array{N{Align::left, "left"}, N{Align::right, "right"}};
}

struct Column {
    std::string label{};
    Align align = Align::left; ///< right for figures
    /// 1 always stays; of the others the highest goes first where the screen is too narrow.
    std::int64_t priority = 1;
    bool operator==(const Column&) const = default;
    static FieldList fields(auto) {
        return {field<&Column::label>("Heading of the column."),
                field<&Column::align>("Side on which its cells stand.").defaulted(),
                field<&Column::priority>("1 always stays; the highest goes first when narrow.")
                    .defaulted()};
    }
};

/// One row; a cell that is missing is empty, one too many is not printed.
struct Row {
    std::vector<Text> cells{};
    std::optional<Action> action{}; ///< what one may do with this row
    bool operator==(const Row&) const = default;
    static FieldList fields(auto) {
        return {field<&Row::cells>("Cells, in the order of the columns."),
                field<&Row::action>("What one may do with this row.")};
    }
};

/// Rows and columns.  Columns without a single value are not printed, nor is a table without rows.
struct Table {
    std::vector<Column> columns{};
    std::vector<Row> rows{};
    Text title{};
    bool operator==(const Table&) const = default;
    static FieldList fields(auto) {
        return {field<&Table::columns>("The columns."), field<&Table::rows>("The rows."),
                field<&Table::title>("Heading, if any.").defaulted()};
    }
};

enum class StepState {
    done,
    now,   ///< being done or due; marked
    next,  ///< the first that is not due yet
    later, ///< any other
};
constexpr auto enum_names(StepState) {
    using N = EnumName<StepState>;
    return std::array{N{StepState::done, "done"}, N{StepState::now, "now"},
                      N{StepState::next, "next"}, N{StepState::later, "later"}};
}

/// One thing to do.
struct Step {
    Text text{}; ///< verb first
    Text when{}; ///< a day or instant, or empty
    StepState state = StepState::later;
    std::optional<Action> action{};
    bool operator==(const Step&) const = default;
    static FieldList fields(auto) {
        return {field<&Step::text>("What to do, verb first."),
                field<&Step::when>("When to do it.").defaulted(),
                field<&Step::state>("Whether it is done, due now, next or later.").defaulted(),
                field<&Step::action>("The call that does it or records it.")};
    }
};

/// Numbered things to do, in their order.
struct Steps {
    std::vector<Step> steps{};
    Text title{};
    bool operator==(const Steps&) const = default;
    static FieldList fields(auto) {
        return {field<&Steps::steps>("The steps, in their order."),
                field<&Steps::title>("Heading, if any.").defaulted()};
    }
};

enum class Counts { up, down };
constexpr auto enum_names(Counts) {
    using N = EnumName<Counts>;
    return std::array{N{Counts::up, "up"}, N{Counts::down, "down"}};
}

/// Counts up from an instant or down to it.  It runs at the reader's end: a terminal that follows
/// draws it each second; a page and paper show the instant.
struct Clock {
    std::string label{};
    Instant instant{};
    Counts counts = Counts::down;
    bool operator==(const Clock&) const = default;
    static FieldList fields(auto) {
        return {field<&Clock::label>("What it measures."),
                field<&Clock::instant>("The instant it counts from or to."),
                field<&Clock::counts>("Up from the instant, or down to it.").defaulted()};
    }
};

/// How grave a warning is.
enum class Severity {
    alarm,   ///< act now: it fills the top of the output, before the title
    warning, ///< a warning; it stands where it is in the sheet
};
constexpr auto enum_names(Severity) {
    using N = EnumName<Severity>;
    return std::array{N{Severity::alarm, "alarm"}, N{Severity::warning, "warning"}};
}

/// What is special about this very case.
struct Warning {
    Text text{};
    std::string key{}; ///< stable word for programs: "old_pack"
    Severity severity = Severity::warning;
    std::optional<Action> action{}; ///< what puts it right
    bool operator==(const Warning&) const = default;
    static FieldList fields(auto) {
        return {field<&Warning::text>("What is wrong, and what to do."),
                field<&Warning::key>("A stable word for it.").defaulted(),
                field<&Warning::severity>("Whether it is an alarm.").defaulted(),
                field<&Warning::action>("What puts it right.")};
    }
};

/// A fixed safety text.  With `here` it belongs to this very step and stands in full where it is;
/// all others are counted in one line at the end, and read with `--full`.
struct Caution {
    std::string key{}; ///< as in canning.cautions
    Text text{};       ///< in full, always: another program may print it
    bool here = false;
    bool operator==(const Caution&) const = default;
    static FieldList fields(auto) {
        return {field<&Caution::key>("A stable word for it."),
                field<&Caution::text>("The whole caution."),
                field<&Caution::here>("Whether it belongs to this step and stands in full.")
                    .defaulted()};
    }
};

struct Note {
    Text text{};
    bool operator==(const Note&) const = default;
    static FieldList fields(auto) { return {field<&Note::text>("One remark.")}; }
};

/// Lines under each other, without numbers.
struct Lines {
    std::vector<Text> lines{};
    Text title{};
    bool operator==(const Lines&) const = default;
    static FieldList fields(auto) {
        return {field<&Lines::lines>("The lines."),
                field<&Lines::title>("Heading, if any.").defaulted()};
    }
};

struct Block;

/// Blocks folded away until somebody asks: how it was computed, sources, alternatives.
struct More {
    Text title{};
    std::vector<Block> blocks;
    bool operator==(const More&) const = default;
    static FieldList fields(auto) {
        return {field<&More::title>("What is folded away."), field<&More::blocks>("The blocks.")};
    }
};

/// A block of a kind that this program does not know, as it came.  It is not printed.
struct UnknownBlock {
    json::value given{};
    bool operator==(const UnknownBlock&) const = default;
};

struct Block {
    std::variant<Facts, Table, Steps, Chart, Clock, Warning, Caution, Note, Lines, More,
                 UnknownBlock>
        content;
    bool operator==(const Block&) const;
};

/// The word of a block's kind in JSON: "facts", "table", ...; empty for an unknown block.
[[nodiscard]] std::string_view kind_of(const Block& block) noexcept;

} // namespace barmkeep::sheet

namespace barmkeep {

/// A block of an unknown kind is read as UnknownBlock; so is, when decoding, one that cannot be
/// read.
template <>
struct Codec<sheet::Block> {
    static std::optional<sheet::Block> read(const json::value& value, ParseContext& context);
    static json::value write(const sheet::Block& block);
    /// The kinds with their members; of the blocks inside `more` only that they are objects.
    static json::object schema(Direction direction);
};

} // namespace barmkeep
