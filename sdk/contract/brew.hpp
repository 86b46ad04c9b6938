// Brew days and the stock set aside for them.
#pragma once

#include "sdk/contract/clearing.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::contract {

enum class BrewState { planned, done, cancelled };
constexpr auto enum_names(BrewState) {
    using W = EnumName<BrewState>;
    return std::array{W{BrewState::planned, "planned"}, W{BrewState::done, "done"},
                      W{BrewState::cancelled, "cancelled"}};
}

/// Stock of one lot that a brew day has set aside.
struct SetAside {
    LotCode lot;
    std::string good;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&SetAside::lot>("The lot."), field<&SetAside::good>("Its good."),
                field<&SetAside::amount>("How much.")};
    }
};

/// What a brew day takes of one good, whether the shelf has it or not.
struct Need {
    std::string good;
    Amount amount;
    Amount set_aside;
    Date day;
    static FieldList fields(auto) {
        return {field<&Need::good>("The good."), field<&Need::amount>("How much it takes."),
                field<&Need::set_aside>("How much of that the shelf has promised it."),
                field<&Need::day>("The day on which it is wanted.")};
    }
};

/// What is known of a brew day's beer.  All optional: nothing is filled in.
struct BrewFacts {
    std::optional<brewing::Volume> volume;
    std::optional<brewing::Gravity> gravity;
    std::optional<std::string> strain;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {
            field<&BrewFacts::volume>("Wort to be pitched.").above(0).at_most(10000).like("20 L"),
            field<&BrewFacts::gravity>("Its original gravity.").between(1.0, 1.2).like("1.048"),
            field<&BrewFacts::strain>("The yeast strain.").length(1, 80),
            field<&BrewFacts::note>("A note.").length(1, 400)};
    }
};

struct Brew : BrewFacts {
    std::int64_t number = 0;
    Date day;
    std::string name;
    BrewState state = BrewState::planned;
    std::vector<Need> needs;
    std::vector<SetAside> set_aside;
    static FieldList fields(auto) {
        return joined(FieldList{field<&Brew::number>("Its number."),
                                field<&Brew::day>("The local day."),
                                field<&Brew::name>("What is brewed."),
                                field<&Brew::state>("Planned, done or cancelled.")},
                      BrewFacts::fields(0),
                      FieldList{field<&Brew::needs>("What it takes, by good.").defaulted(),
                                field<&Brew::set_aside>("Stock set aside for it.")});
    }
};

struct BrewPlan {
    static constexpr About about{"brew.plan", Access::keep, Effect::writes, "Sets a brew day."};
    struct Params : BrewFacts {
        Date day;
        std::string name;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::day>("The local day.").positional().like("2026-03-14"),
                          field<&Params::name>("What is brewed.").positional().length(1, 80)},
                BrewFacts::fields(0));
        }
    };
    using Result = Brew;
};

struct BrewChange {
    static constexpr About about{"brew.change", Access::keep, Effect::writes,
                                 "Changes a planned brew day."};
    struct Params : BrewFacts {
        std::int64_t number = 0;
        std::optional<Date> day;
        std::optional<std::string> name;
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::number>("The brew day's number.").positional().at_least(1),
                          field<&Params::day>("The local day."),
                          field<&Params::name>("What is brewed.").length(1, 80),
                          clear_field<&Params::clear>()},
                BrewFacts::fields(0));
        }
    };
    using Result = Brew;
};

/// Names one brew day.
struct BrewNumber {
    std::int64_t number = 0;
    static FieldList fields(auto) {
        return {field<&BrewNumber::number>("The brew day's number.").positional().at_least(1)};
    }
};

struct BrewShow {
    static constexpr About about{"brew.show", Access::look, Effect::reads, "Shows one brew day."};
    using Params = BrewNumber;
    using Result = Brew;
};

struct BrewList {
    static constexpr About about{"brew.list", Access::look, Effect::reads,
                                 "Lists brew days, next first."};
    struct Params : Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::all>("Also days done or cancelled.").defaulted()},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Brew> brews;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::brews>("The brew days.")}, NextPage::fields(0));
        }
    };
};

struct BrewNeed {
    static constexpr About about{
        "brew.need", Access::keep, Effect::writes,
        "Says how much of a good a brew day takes, whether the shelf has it or not.  What there is "
        "is set aside at once; what comes in later goes to the earliest brew day that needs it."};
    struct Params {
        std::int64_t number = 0;
        std::string good;
        AmountGiven amount;
        std::optional<Date> day;
        static FieldList fields(auto) {
            return {field<&Params::number>("The brew day's number.").positional().at_least(1),
                    field<&Params::good>("The good.").positional().length(1, 60),
                    field<&Params::amount>("How much; none takes the need away.").positional(),
                    field<&Params::day>("The day on which it is wanted, such as that of the "
                                        "starter; the brew day if left out.")};
        }
    };
    using Result = Brew;
};

struct BrewReserve {
    static constexpr About about{
        "brew.reserve", Access::keep, Effect::writes,
        "Sets stock aside for a brew day: of the lot named, or of the lots that expire first."};
    struct Params {
        std::int64_t number = 0;
        std::string what;
        AmountGiven amount;
        static FieldList fields(auto) {
            return {
                field<&Params::number>("The brew day's number.").positional().at_least(1),
                field<&Params::what>("A lot's code or a good's name.").positional().length(1, 60),
                field<&Params::amount>("How much.").positional()};
        }
    };
    struct Result {
        Brew brew;
        std::vector<std::int64_t> short_days;
        static FieldList fields(auto) {
            return {field<&Result::brew>("The brew day."),
                    field<&Result::short_days>("Earlier brew days whose need is not met now.")
                        .defaulted()};
        }
    };
};

struct BrewFree {
    static constexpr About about{"brew.free", Access::keep, Effect::writes,
                                 "Gives back stock that a brew day has set aside."};
    struct Params {
        std::int64_t number = 0;
        std::optional<LotCode> lot;
        static FieldList fields(auto) {
            return {field<&Params::number>("The brew day's number.").positional().at_least(1),
                    field<&Params::lot>("Only this lot; all of it if left out.").positional()};
        }
    };
    using Result = Brew;
};

struct BrewFinish {
    static constexpr About about{
        "brew.finish", Access::keep, Effect::writes,
        "Marks a brew day done; what it had set aside and not used is free again."};
    using Params = BrewNumber;
    using Result = Brew;
};

struct BrewCancel {
    static constexpr About about{"brew.cancel", Access::keep, Effect::writes,
                                 "Cancels a brew day; what it had set aside is free again."};
    using Params = BrewNumber;
    using Result = Brew;
};

} // namespace barmkeep::contract
