// Brew days and the stock reserved for them.
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

/// Stock of one lot that a brew day has reserved.
struct Reservation {
    LotCode lot;
    std::string good;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&Reservation::lot>("The lot."), field<&Reservation::good>("Its good."),
                field<&Reservation::amount>("How much.")};
    }
};

/// What a brew day takes of one good, whether the shelf has it or not.
struct Need {
    std::string good;
    Amount amount;
    Amount reserved;
    Date day;
    static FieldList fields(auto) {
        return {field<&Need::good>("The good."),
                field<&Need::amount>("How much the brew day needs."),
                field<&Need::reserved>("How much of it is reserved."),
                field<&Need::day>("The day on which it is needed.")};
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
            field<&BrewFacts::volume>(
                "Volume of wort to pitch. A change leaves it as it is if left out.")
                .above(0)
                .at_most(10000)
                .like("20 L"),
            field<&BrewFacts::gravity>(
                "Its original gravity. A change leaves it as it is if left out.")
                .between(1.0, 1.2)
                .like("1.048"),
            field<&BrewFacts::strain>("The yeast strain. A change leaves it as it is if left out.")
                .length(1, 80),
            field<&BrewFacts::note>("A note. A change leaves it as it is if left out.")
                .length(1, 400)};
    }
};

struct Brew : BrewFacts {
    std::int64_t number = 0;
    Date day;
    std::string name;
    BrewState state = BrewState::planned;
    std::vector<Need> needs;
    std::vector<Reservation> reserved;
    static FieldList fields(auto) {
        return joined(
            FieldList{field<&Brew::number>("Its number."), field<&Brew::day>("The local day."),
                      field<&Brew::name>("What is brewed."),
                      field<&Brew::state>("Planned, done or cancelled.")},
            BrewFacts::fields(0),
            FieldList{field<&Brew::needs>("What the brew day needs, by good.").defaulted(),
                      field<&Brew::reserved>("Stock reserved for it.")});
    }
};

struct BrewPlan {
    static constexpr About about{"brew.plan", Access::keep, Effect::writes, "Plans a brew day."};
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
                                 "Changes a planned brew day. What you leave out stays as it is."};
    struct Params : BrewFacts {
        std::int64_t brew = 0;
        std::optional<Date> day;
        std::optional<std::string> name;
        std::vector<std::string> clear;
        static FieldList fields(auto) {
            return joined(
                FieldList{
                    field<&Params::brew>("The brew day's number.").positional().at_least(1),
                    field<&Params::day>("The new day. It stays as it is if left out."),
                    field<&Params::name>("The new name of the beer. It stays as it is if left out.")
                        .length(1, 80),
                    clear_field<&Params::clear>("note")},
                BrewFacts::fields(0));
        }
    };
    using Result = Brew;
};

/// Names one brew day.
struct BrewNumber {
    std::int64_t brew = 0;
    static FieldList fields(auto) {
        return {field<&BrewNumber::brew>("The brew day's number.").positional().at_least(1)};
    }
};

struct BrewShow {
    static constexpr About about{
        "brew.show", Access::look, Effect::reads,
        "Shows one brew day: the beer, what it needs and what is reserved for it."};
    using Params = BrewNumber;
    using Result = Brew;
};

struct BrewList {
    static constexpr About about{"brew.list", Access::look, Effect::reads,
                                 "Lists planned brew days, next first."};
    struct Params : Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::all>("Lists brew days that are done or cancelled too.")
                              .defaulted()},
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
        "Sets how much of a good a brew day needs, in stock or not. What is available is reserved "
        "at once. Later stock goes to the earliest brew day that needs it."};
    struct Params {
        std::int64_t brew = 0;
        std::string good;
        AmountGiven amount;
        std::optional<Date> day;
        static FieldList fields(auto) {
            return {field<&Params::brew>("The brew day's number.").positional().at_least(1),
                    field<&Params::good>("The good.").positional().length(1, 60),
                    field<&Params::amount>("How much. 0 removes the need.").positional(),
                    field<&Params::day>("The day on which it is needed, such as the day of the "
                                        "starter. The brew day if left out.")};
        }
    };
    using Result = Brew;
};

struct BrewReserve {
    static constexpr About about{"brew.reserve", Access::keep, Effect::writes,
                                 "Reserves stock for a brew day: of the lot that you name, or of "
                                 "the lots that expire first."};
    struct Params {
        std::int64_t brew = 0;
        std::string what;
        AmountGiven amount;
        static FieldList fields(auto) {
            return {
                field<&Params::brew>("The brew day's number.").positional().at_least(1),
                field<&Params::what>("A lot's code or a good's name.").positional().length(1, 60),
                field<&Params::amount>("How much.").positional()};
        }
    };
    struct Result {
        Brew brew;
        std::vector<std::int64_t> short_days;
        static FieldList fields(auto) {
            return {
                field<&Result::brew>("The brew day."),
                field<&Result::short_days>("Earlier brew days that now have less than they need.")
                    .defaulted()};
        }
    };
};

struct BrewUnreserve {
    static constexpr About about{"brew.unreserve", Access::keep, Effect::writes,
                                 "Gives back stock that is reserved for a brew day."};
    struct Params {
        std::int64_t brew = 0;
        std::optional<LotCode> lot;
        static FieldList fields(auto) {
            return {
                field<&Params::brew>("The brew day's number.").positional().at_least(1),
                field<&Params::lot>("Gives back only this lot. All that is reserved if left out.")
                    .positional()};
        }
    };
    using Result = Brew;
};

struct BrewFinish {
    static constexpr About about{
        "brew.finish", Access::keep, Effect::writes,
        "Marks a brew day done. Stock that it had reserved and not used is available again."};
    using Params = BrewNumber;
    using Result = Brew;
};

struct BrewCancel {
    static constexpr About about{
        "brew.cancel", Access::keep, Effect::writes,
        "Cancels a brew day. Stock that it had reserved is available again."};
    using Params = BrewNumber;
    using Result = Brew;
};

} // namespace barmkeep::contract
