// Starters: starter.make, starter.step and what follows, and their records.
//
// A starter is a record of the plugin's collection "made", numbered by the core.  Its document is
// the plan, which never changes; what happens to it is its log.  Journal entries that it caused are
// about it: {"to": "starter.made", "number": 3}.
#pragma once

#include "plugins/starter/plan_messages.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::starter {

enum class StarterState { growing, finished, dropped };
constexpr auto enum_names(StarterState) {
    using N = EnumName<StarterState>;
    return std::array{N{StarterState::growing, "growing"}, N{StarterState::finished, "finished"},
                      N{StarterState::dropped, "dropped"}};
}

/// What a line of the log says.
enum class LogKind {
    step,     ///< wort was put on the yeast
    finished, ///< it was pitched
    dropped,  ///< it was thrown away
    undone,   ///< the line before, of those still in force, was a mistake
};
constexpr auto enum_names(LogKind) {
    using N = EnumName<LogKind>;
    return std::array{N{LogKind::step, "step"}, N{LogKind::finished, "finished"},
                      N{LogKind::dropped, "dropped"}, N{LogKind::undone, "undone"}};
}

/// A line of a starter's log.
struct LogLine {
    LogKind kind = LogKind::step;
    Instant at;
    Date day;
    std::optional<Step> step;
    std::int64_t entries = 0;
    std::vector<std::string> warnings;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {field<&LogLine::kind>("What happened: step, finished, dropped or undone."),
                field<&LogLine::at>("Time at which the request arrived."),
                field<&LogLine::day>("Local day on which it happened."),
                field<&LogLine::step>(
                    "The step, with the jars that were opened. Left out if the line is no step."),
                field<&LogLine::entries>("Number of journal entries that took stock for it.")
                    .defaulted(),
                field<&LogLine::warnings>("Warnings about its jars.").defaulted(),
                field<&LogLine::note>("A note, or the reason. Left out if there is none.")};
    }
};

/// A starter as its record has it.
struct StarterRecord {
    std::int64_t number = 0;
    StarterState state = StarterState::growing;
    std::int64_t steps_made = 0;
    Plan plan;
    std::vector<LogLine> log;
    static FieldList fields(auto) {
        return {field<&StarterRecord::number>("Number of the starter."),
                field<&StarterRecord::state>("Growing, finished or dropped."),
                field<&StarterRecord::steps_made>("Number of steps made so far."),
                field<&StarterRecord::plan>(
                    "The plan. Steps that were made list the jars that were opened."),
                field<&StarterRecord::log>("The log, oldest line first.")};
    }
};

/// What a method that takes stock, or gives it back, answers.
struct StockChange {
    StarterRecord starter;
    std::vector<std::int64_t> entries;
    std::vector<contract::Line> lines;
    std::vector<contract::UsedDespite> despite;
    static FieldList fields(auto) {
        return {
            field<&StockChange::starter>("The starter."),
            field<&StockChange::entries>("Numbers of the journal entries."),
            field<&StockChange::lines>(
                "Stock that was taken from the shelf. Positive amounts went back."),
            field<&StockChange::despite>("Holds on this stock that were released with a reason.")
                .defaulted()};
    }
};

struct StarterMake {
    static constexpr About about{
        "starter.make", Access::keep, Effect::writes,
        "Makes the first step of a planned starter. Takes its yeast and jars from the shelf and "
        "keeps a record."};
    using Params = StarterRequest;
    using Result = StockChange;
};

/// Names one starter.
struct StarterNumber {
    std::int64_t starter = 0;
    static FieldList fields(auto) {
        return {field<&StarterNumber::starter>("Number of the starter.").positional().at_least(1)};
    }
};

struct StarterStep {
    static constexpr About about{
        "starter.step", Access::keep, Effect::writes,
        "Makes the next step of a starter. Takes its jars from the shelf and adds the step to its "
        "log."};
    struct Params : StarterNumber {
        std::optional<std::string> concentrate;
        bool boiled = false;
        std::optional<std::string> nutrient;
        static FieldList fields(auto) {
            return joined(
                StarterNumber::fields(0),
                {field<&Params::concentrate>("Lot or good of the jars to open. Left out, the jars "
                                             "that expire first.")
                     .length(1, 60),
                 field<&Params::boiled>("Confirms two things about a jar that may not stand on "
                                        "the shelf and that you name with `concentrate`: it was "
                                        "kept cold all the time, and you boil it before use.")
                     .defaulted(),
                 field<&Params::nutrient>("Lot or good of the nutrient to take from the shelf. "
                                          "Left out, none is taken.")
                     .length(1, 60)});
        }
    };
    using Result = StockChange;
};

struct StarterFinish {
    static constexpr About about{"starter.finish", Access::keep, Effect::writes,
                                 "Notes that a starter was pitched. No step can follow."};
    struct Params : StarterNumber {
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return joined(
                StarterNumber::fields(0),
                {field<&Params::note>("A note. Left out, there is none.").length(1, 400)});
        }
    };
    using Result = StarterRecord;
};

struct StarterDrop {
    static constexpr About about{
        "starter.drop", Access::keep, Effect::writes,
        "Notes that a starter was thrown away. The stock it took does not go back."};
    struct Params : StarterNumber {
        std::string reason;
        static FieldList fields(auto) {
            return joined(StarterNumber::fields(0), {field<&Params::reason>("Reason for the entry.")
                                                         .length(1, 400)
                                                         .like("smelt of vinegar")});
        }
    };
    using Result = StarterRecord;
};

struct StarterUndo {
    static constexpr About about{
        "starter.undo", Access::keep, Effect::writes,
        "Undoes the last line of a starter's log. The stock that a step took goes back to the "
        "shelf. If you undo the first step, the starter is dropped."};
    using Params = StarterDrop::Params;
    using Result = StockChange;
};

struct StarterShow {
    static constexpr About about{"starter.show", Access::look, Effect::reads,
                                 "Shows one starter and its log."};
    using Params = StarterNumber;
    using Result = StarterRecord;
};

/// A starter in the list.
struct StarterRow {
    std::int64_t number = 0;
    StarterState state = StarterState::growing;
    Date day;
    std::optional<std::int64_t> brew;
    std::int64_t steps = 0;
    static FieldList fields(auto) {
        return {field<&StarterRow::number>("Number of the starter."),
                field<&StarterRow::state>("Growing, finished or dropped."),
                field<&StarterRow::day>("Day of its first step."),
                field<&StarterRow::brew>("Number of the brew day. Left out if there is none."),
                field<&StarterRow::steps>("Number of steps in its plan.")};
    }
};

struct StarterList {
    static constexpr About about{"starter.list", Access::look, Effect::reads,
                                 "Lists the starters that grow, oldest first."};
    struct Params : contract::Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined(
                {field<&Params::all>("Also lists finished and dropped starters.").defaulted()},
                Page::fields(0));
        }
    };
    struct Result : contract::NextPage {
        std::vector<StarterRow> starters;
        static FieldList fields(auto) {
            return joined({field<&Result::starters>("The starters.")}, NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::starter
