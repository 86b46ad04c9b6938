// Starters made: starter.make, starter.feed and what follows, and the records of them.
//
// A starter is a record of the plugin's collection "made", numbered by the core.  Its document is
// the plan, which never changes; what happens to it is its log.  Journal entries that it caused are
// about it: {"to": "starter.made", "number": 3}.
#pragma once

#include "plugins/starter/plan_messages.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::starter {

enum class MadeState { growing, finished, dropped };
constexpr auto enum_names(MadeState) {
    using N = EnumName<MadeState>;
    return std::array{N{MadeState::growing, "growing"}, N{MadeState::finished, "finished"},
                      N{MadeState::dropped, "dropped"}};
}

/// What a line of the log says.
enum class Deed {
    step,     ///< wort was put on the yeast
    finished, ///< it was pitched
    dropped,  ///< it was thrown away
    undone,   ///< the line before, of those still in force, was a mistake
};
constexpr auto enum_names(Deed) {
    using N = EnumName<Deed>;
    return std::array{N{Deed::step, "step"}, N{Deed::finished, "finished"},
                      N{Deed::dropped, "dropped"}, N{Deed::undone, "undone"}};
}

/// A line of a starter's log.
struct MadeLine {
    Deed deed = Deed::step;
    Instant at;
    Date day;
    std::optional<Step> step;
    std::int64_t entries = 0;
    std::vector<std::string> warnings;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {field<&MadeLine::deed>("What was done."),
                field<&MadeLine::at>("When the request to note it arrived."),
                field<&MadeLine::day>("The local day it is about."),
                field<&MadeLine::step>("The step, with the jars that were opened."),
                field<&MadeLine::entries>("Journal entries that took stock for it.").defaulted(),
                field<&MadeLine::warnings>("What there was to say of its jars.").defaulted(),
                field<&MadeLine::note>("A note, or the reason.")};
    }
};

/// A starter as its record tells it.
struct Made {
    std::int64_t number = 0;
    MadeState state = MadeState::growing;
    std::int64_t steps_made = 0;
    Plan plan;
    std::vector<MadeLine> log;
    static FieldList fields(auto) {
        return {field<&Made::number>("Its number."),
                field<&Made::state>("Growing, finished or dropped."),
                field<&Made::steps_made>("Steps made so far."),
                field<&Made::plan>("The plan it follows, with the jars really opened in the steps "
                                   "made."),
                field<&Made::log>("What was done, oldest first.")};
    }
};

/// What a method that takes stock, or gives it back, answers.
struct Taken {
    Made starter;
    std::vector<std::int64_t> entries;
    std::vector<contract::Line> lines;
    std::vector<contract::UsedDespite> despite;
    static FieldList fields(auto) {
        return {field<&Taken::starter>("The starter."),
                field<&Taken::entries>("Numbers of the journal entries."),
                field<&Taken::lines>("What was taken from the shelf; positive where it went back."),
                field<&Taken::despite>("Holds of what was taken that were released with a reason.")
                    .defaulted()};
    }
};

struct StarterMake {
    static constexpr About about{
        "starter.make", Access::keep, Effect::writes,
        "Makes the first step of a starter as starter.plan shows it: takes yeast and jars from the "
        "shelf and keeps a record of it."};
    using Params = Wish;
    using Result = Taken;
};

/// Names one starter.
struct MadeNumber {
    std::int64_t number = 0;
    static FieldList fields(auto) {
        return {field<&MadeNumber::number>("The starter's number.").positional().at_least(1)};
    }
};

struct StarterFeed {
    static constexpr About about{
        "starter.feed", Access::keep, Effect::writes,
        "Makes the next step of a starter: takes its jars from the shelf and notes it."};
    struct Params : MadeNumber {
        std::optional<std::string> concentrate;
        bool boiled = false;
        std::optional<std::string> nutrient;
        static FieldList fields(auto) {
            return joined(
                MadeNumber::fields(0),
                {field<&Params::concentrate>("Lot or good of the jars to open; those that expire "
                                             "first if left out.")
                     .length(1, 60),
                 field<&Params::boiled>("Confirms that a named jar which may not stand on the "
                                        "shelf was kept cold and is boiled before use.")
                     .defaulted(),
                 field<&Params::nutrient>("Lot or good of the nutrient, to be taken from the "
                                          "shelf.")
                     .length(1, 60)});
        }
    };
    using Result = Taken;
};

struct StarterFinish {
    static constexpr About about{"starter.finish", Access::keep, Effect::writes,
                                 "Notes that a starter was pitched, whatever steps were planned."};
    struct Params : MadeNumber {
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return joined(MadeNumber::fields(0), {field<&Params::note>("A note.").length(1, 400)});
        }
    };
    using Result = Made;
};

struct StarterDrop {
    static constexpr About about{"starter.drop", Access::keep, Effect::writes,
                                 "Notes that a starter was thrown away; what it took stays taken."};
    struct Params : MadeNumber {
        std::string reason;
        static FieldList fields(auto) {
            return joined(MadeNumber::fields(0),
                          {field<&Params::reason>("Why.").length(1, 400).like("smelt of vinegar")});
        }
    };
    using Result = Made;
};

struct StarterUndo {
    static constexpr About about{
        "starter.undo", Access::keep, Effect::writes,
        "Takes back what was last noted of a starter by mistake: what a step took goes back to the "
        "shelf.  Undoing the first step drops the starter."};
    using Params = StarterDrop::Params;
    using Result = Taken;
};

struct StarterShow {
    static constexpr About about{"starter.show", Access::look, Effect::reads,
                                 "Shows one starter that was made."};
    using Params = MadeNumber;
    using Result = Made;
};

/// A starter in the list.
struct MadeRow {
    std::int64_t number = 0;
    MadeState state = MadeState::growing;
    Date day;
    std::optional<std::int64_t> brew;
    std::int64_t steps = 0;
    static FieldList fields(auto) {
        return {field<&MadeRow::number>("Its number."),
                field<&MadeRow::state>("Growing, finished or dropped."),
                field<&MadeRow::day>("The day of its first step."),
                field<&MadeRow::brew>("The brew day it is for."),
                field<&MadeRow::steps>("Steps that its plan has.")};
    }
};

struct StarterList {
    static constexpr About about{"starter.list", Access::look, Effect::reads,
                                 "Lists the starters that grow, first made first."};
    struct Params : contract::Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined({field<&Params::all>("Also those finished or dropped.").defaulted()},
                          Page::fields(0));
        }
    };
    struct Result : contract::NextPage {
        std::vector<MadeRow> starters;
        static FieldList fields(auto) {
            return joined({field<&Result::starters>("The starters.")}, NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::starter
