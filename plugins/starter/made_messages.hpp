// Starters made: starter.make, starter.feed, and the records of them.
#pragma once

#include "plugins/starter/plan_messages.hpp"

namespace barmkeep::starter {

/// A starter as it is kept.
struct Made {
    std::int64_t number = 0;
    std::int64_t steps_made = 0;
    Plan plan;
    static FieldList fields(auto) {
        return {field<&Made::number>("Its number."),
                          field<&Made::steps_made>("Steps made so far."),
                          field<&Made::plan>("The plan it follows, with the jars really opened in "
                                             "the steps made.")};
    }
};

/// What a method that opens jars answers.
struct Taken {
    Made starter;
    std::vector<std::int64_t> entries;
    std::vector<contract::Line> lines;
    static FieldList fields(auto) {
        return {field<&Taken::starter>("The starter."),
                          field<&Taken::entries>("Numbers of the journal entries."),
                          field<&Taken::lines>("What was taken from the shelf.")};
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

struct StarterFeed {
    static constexpr About about{
        "starter.feed", Access::keep, Effect::writes,
        "Makes the next step of a starter: takes its jars from the shelf and notes it."};
    struct Params {
        std::int64_t number = 0;
        std::optional<std::string> concentrate;
        std::optional<std::string> nutrient;
        static FieldList fields(auto) {
            return {
                field<&Params::number>("The starter's number.").positional().at_least(1),
                field<&Params::concentrate>("Lot or good of the jars to open; those that expire "
                                            "first if left out.")
                    .length(1, 60),
                field<&Params::nutrient>("Lot or good of the nutrient, to be taken from the shelf.")
                    .length(1, 60)};
        }
    };
    using Result = Taken;
};

struct StarterShow {
    static constexpr About about{"starter.show", Access::look, Effect::reads,
                                 "Shows one starter that was made."};
    struct Params {
        std::int64_t number = 0;
        static FieldList fields(auto) {
            return {
                field<&Params::number>("The starter's number.").positional().at_least(1)};
        }
    };
    using Result = Made;
};

/// A starter in the list.
struct MadeRow {
    std::int64_t number = 0;
    Date day;
    std::optional<std::int64_t> brew;
    std::int64_t steps_made = 0;
    std::int64_t steps = 0;
    static FieldList fields(auto) {
        return {field<&MadeRow::number>("Its number."),
                          field<&MadeRow::day>("The day of its first step."),
                          field<&MadeRow::brew>("The brew day it is for."),
                          field<&MadeRow::steps_made>("Steps made so far."),
                          field<&MadeRow::steps>("Steps it has.")};
    }
};

struct StarterList {
    static constexpr About about{"starter.list", Access::look, Effect::reads,
                                 "Lists the starters made, first made first."};
    using Params = contract::Page;
    struct Result : contract::NextPage {
        std::vector<MadeRow> starters;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::starters>("The starters.")},
                                  NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::starter
