// starter.plan: what to open and pour so that a wort gets the cells it wants.
#pragma once

#include "plugins/starter/yeast_messages.hpp"
#include "sdk/contract/brew.hpp"

namespace barmkeep::starter {

/// Class of the beer, for the pitching rate.
enum class Beer { ale, hybrid, lager };
constexpr auto enum_names(Beer) {
    return std::array{EnumName<Beer>{Beer::ale, "ale"}, EnumName<Beer>{Beer::hybrid, "hybrid"},
                      EnumName<Beer>{Beer::lager, "lager"}};
}

/// How the starter stands.
enum class Aeration { still, stirred };
constexpr auto enum_names(Aeration) {
    return std::array{EnumName<Aeration>{Aeration::still, "still"},
                      EnumName<Aeration>{Aeration::stirred, "stirred"}};
}

/// Whether a starter ends with the cells wanted.
enum class Enough {
    yes,    ///< even if all goes as badly as the sources allow
    likely, ///< by the likely figure
    no,
};
constexpr auto enum_names(Enough) {
    return std::array{EnumName<Enough>{Enough::yes, "yes"},
                      EnumName<Enough>{Enough::likely, "likely"},
                      EnumName<Enough>{Enough::no, "no"}};
}

/// Jars of one lot of concentrate that a step opens.
struct JarsOpened {
    LotCode lot;
    std::string good;
    std::int64_t jars = 0;
    brewing::Gravity gravity;
    brewing::Volume fill;
    brewing::Volume poured;
    brewing::Volume left;
    brewing::Mass extract;
    static FieldList fields(auto) {
        return {
            field<&JarsOpened::lot>("The lot."),
            field<&JarsOpened::good>("Its good."),
            field<&JarsOpened::jars>("Whole jars to open."),
            field<&JarsOpened::gravity>("Gravity of the concentrate."),
            field<&JarsOpened::fill>("Concentrate in one jar."),
            field<&JarsOpened::poured>("Concentrate of all of them that goes into the starter."),
            field<&JarsOpened::left>(
                "What stays in the last one: to use at once or throw away, never to keep."),
            field<&JarsOpened::extract>("Extract in what is poured.")};
    }
};

/// Fresh wort on the yeast of the step before; of the first, on the yeast from the shelf.
struct Step {
    brewing::Volume wort;
    brewing::Gravity gravity;
    brewing::Mass extract;
    Range<brewing::Cells> before;
    Range<brewing::Cells> after;
    std::vector<JarsOpened> jars;
    std::optional<brewing::Volume> water;
    std::optional<brewing::Mass> extract_missing;
    std::optional<brewing::Mass> nutrient;
    static FieldList fields(auto) {
        return {
            field<&Step::wort>("Wort of this step."),
            field<&Step::gravity>("Its gravity."),
            field<&Step::extract>("Extract it needs."),
            field<&Step::before>("Living cells at its start."),
            field<&Step::after>("Living cells at its end."),
            field<&Step::jars>("Jars to open, first to expire first."),
            field<&Step::water>("Water to top up with; left out while jars are missing."),
            field<&Step::extract_missing>(
                "Extract that the jars on the shelf do not have; left out when they have it all."),
            field<&Step::nutrient>("Nutrient, by the dose in the plugin's settings.")};
    }
};

/// What a starter is asked to do; starter.plan and starter.make take the same.
struct Wish {
    std::optional<std::int64_t> brew;
    std::optional<brewing::Volume> volume;
    std::optional<brewing::Gravity> gravity;
    Beer beer = Beer::ale;
    std::optional<std::string> yeast;
    std::optional<AmountGiven> amount;
    std::optional<brewing::Volume> wort;
    std::optional<brewing::Gravity> starter_gravity;
    std::optional<std::string> concentrate;
    bool boiled = false;
    std::optional<std::string> flask;
    std::optional<Aeration> aeration;
    std::optional<std::string> rate;
    std::optional<brewing::Cells> pitch;
    std::optional<std::string> school;
    std::optional<std::string> nutrient;
    std::optional<brewing::Temperature> kept_at;
    std::optional<Date> day;

    static FieldList fields(auto) {
        return {
            field<&Wish::brew>("The brew day it is for.").positional().at_least(1),
            field<&Wish::volume>("Wort to be pitched; the brew day's if left out.")
                .above(0)
                .at_most(10000)
                .like("20 L"),
            field<&Wish::gravity>("Its original gravity; the brew day's if left out.")
                .between(1.0, 1.2)
                .like("1.048"),
            field<&Wish::beer>("Class of the beer.").defaulted(),
            field<&Wish::yeast>("A lot's code or a good's name; if left out, what the brew day has "
                                "reserved, or else the yeast that expires first.")
                .length(1, 60),
            field<&Wish::amount>("How much of the yeast: one pack if left out, or all that is free "
                                 "where it is kept by mass or volume."),
            field<&Wish::wort>("Wort of the starter; as much as needed if left out.")
                .above(0)
                .at_most(100)
                .like("2 L"),
            field<&Wish::starter_gravity>("Gravity of the starter; the plugin's setting if left "
                                          "out.")
                .between(1.01, 1.06)
                .like("1.040"),
            field<&Wish::concentrate>("Lot or good of the jars to open; those that expire first "
                                      "if left out.")
                .length(1, 60),
            field<&Wish::boiled>(
                "Confirms that a named jar which may not stand on the shelf was kept "
                "cold and is boiled before use.")
                .defaulted(),
            field<&Wish::flask>("Flask to make it in; room for foam is left.").length(1, 60),
            field<&Wish::aeration>("Still or stirred; the plugin's setting if left out."),
            field<&Wish::rate>("Key of the pitching rate to go by; the recommended one if left "
                               "out.")
                .length(1, 40)
                .like("PR01"),
            field<&Wish::pitch>("Living cells to pitch, if you have a figure of your own.")
                .above(0)
                .at_most(1e6)
                .like("200 B"),
            field<&Wish::school>("Key of the school that says how far to step up at once.")
                .length(1, 40)
                .like("SP16"),
            field<&Wish::nutrient>("Lot or good of the nutrient, to be taken from the shelf.")
                .length(1, 60),
            field<&Wish::kept_at>("Temperature the yeast was kept at; the plugin's setting if left "
                                  "out.")
                .between(-30, 40)
                .like("4 C"),
            field<&Wish::day>("The day the starter is made; today if left out.")};
    }
};

struct Plan {
    Date day;
    std::optional<std::int64_t> brew;
    brewing::Volume volume;
    brewing::Gravity gravity;
    Beer beer = Beer::ale;
    std::vector<LivingYeast> yeast;
    Range<brewing::Cells> cells_now;
    Range<brewing::Cells> cells_needed;
    brewing::Cells target;
    std::string target_reason;
    Aeration aeration = Aeration::still;
    std::string growth_model;
    std::string step_limit;
    std::vector<Step> steps;
    Range<brewing::Cells> cells_end;
    Enough enough = Enough::no;
    std::optional<std::string> flask;
    std::optional<brewing::Volume> vessel;
    std::vector<contract::UsedDespite> despite;
    std::vector<std::string> warnings;
    std::vector<std::string> cautions;

    static FieldList fields(auto) {
        return {
            field<&Plan::day>("The day the starter is made."),
            field<&Plan::brew>("The brew day it is for."),
            field<&Plan::volume>("Wort to be pitched."),
            field<&Plan::gravity>("Its original gravity."),
            field<&Plan::beer>("Class of the beer."),
            field<&Plan::yeast>("The yeast it starts from."),
            field<&Plan::cells_now>("Living cells in that yeast."),
            field<&Plan::cells_needed>("Living cells the sources want for such a wort."),
            field<&Plan::target>("Living cells recommended."),
            field<&Plan::target_reason>("Why that figure."),
            field<&Plan::aeration>("Still or stirred."),
            field<&Plan::growth_model>("The rule that gives the likely growth."),
            field<&Plan::step_limit>("The school that limits a step."),
            field<&Plan::steps>("The steps; none if the yeast has cells enough as it is."),
            field<&Plan::cells_end>("Living cells at the end."),
            field<&Plan::enough>("Whether that is what is recommended."),
            field<&Plan::flask>("The flask: the one named, or the smallest one that takes it."),
            field<&Plan::vessel>("What the vessel has to hold, with room for foam."),
            field<&Plan::despite>("Holds of its yeast and jars that were released with a reason.")
                .defaulted(),
            field<&Plan::warnings>("What to think about before making it."),
            field<&Plan::cautions>("What to do before and after a jar is opened.")};
    }
};

struct StarterPlan {
    static constexpr About about{
        "starter.plan", Access::look, Effect::reads,
        "Plans a starter: living cells now, cells needed, jars to open, water, cells at the end."};
    using Params = Wish;
    using Result = Plan;
};

} // namespace barmkeep::starter
