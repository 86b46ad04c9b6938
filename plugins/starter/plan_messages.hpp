// starter.plan: what to open and pour so that a wort gets the cells it needs.
#pragma once

#include "plugins/starter/yeast_messages.hpp"
#include "sdk/brewing/pitch_rates.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "sdk/contract/brew.hpp"

namespace barmkeep::starter {

/// Class of the beer, for the pitching rate.
enum class BeerClass { ale, lager };
constexpr auto enum_names(BeerClass) {
    using N = EnumName<BeerClass>;
    return std::array{N{BeerClass::ale, "ale"}, N{BeerClass::lager, "lager"}};
}

/// Whether a starter ends with the cells recommended.
enum class TargetReached {
    yes,    ///< by the low figure too
    likely, ///< by the likely figure
    no,
};
constexpr auto enum_names(TargetReached) {
    using N = EnumName<TargetReached>;
    return std::array{N{TargetReached::yes, "yes"}, N{TargetReached::likely, "likely"},
                      N{TargetReached::no, "no"}};
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
    std::optional<std::string> held{};
    static FieldList fields(auto) {
        return {field<&JarsOpened::lot>("The lot."),
                field<&JarsOpened::good>("The good of the lot."),
                field<&JarsOpened::jars>("Number of jars to open."),
                field<&JarsOpened::gravity>("Gravity of the concentrate."),
                field<&JarsOpened::fill>("Volume of concentrate in one jar."),
                field<&JarsOpened::poured>(
                    "Volume of concentrate from all these jars that goes into the starter."),
                field<&JarsOpened::left>("Volume left in the last jar. Use it at once or throw it "
                                         "away. Never keep it."),
                field<&JarsOpened::extract>("Extract in the volume poured."),
                field<&JarsOpened::held>("Reason why these jars may not stand on the shelf. Left "
                                         "out if they may.")};
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
            field<&Step::wort>("Volume of wort in this step."),
            field<&Step::gravity>("Gravity of that wort."),
            field<&Step::extract>("Extract in that wort."),
            field<&Step::before>("Living cells at the start of the step."),
            field<&Step::after>("Living cells at the end of the step."),
            field<&Step::jars>("Jars to open, in the order in which they expire."),
            field<&Step::water>("Water to add. Left out if jars are missing."),
            field<&Step::extract_missing>("Extract that the available jars lack. Left out if they "
                                          "have enough."),
            field<&Step::nutrient>("Nutrient for this step, by the dose in the settings. Left out "
                                   "if no dose is set.")};
    }
};

/// What a starter is planned from; starter.plan and starter.make take the same.
struct StarterRequest {
    std::optional<std::int64_t> brew;
    std::optional<brewing::Volume> volume;
    std::optional<brewing::Gravity> gravity;
    BeerClass beer = BeerClass::ale;
    std::optional<std::string> yeast;
    std::optional<AmountGiven> amount;
    std::optional<brewing::Volume> wort;
    std::optional<brewing::Gravity> starter_gravity;
    std::optional<std::string> concentrate;
    bool boiled = false;
    std::optional<std::string> flask;
    std::optional<bool> stirred;
    std::optional<double> rate;
    std::optional<brewing::Cells> pitch;
    std::optional<double> max_fold;
    std::optional<std::string> nutrient;
    std::optional<brewing::Temperature> kept_at;
    std::optional<Date> day;

    static FieldList fields(auto) {
        using R = StarterRequest;
        return {
            field<&R::brew>("Number of the brew day that the starter is for. Left out, the starter "
                            "is for no brew day.")
                .positional()
                .at_least(1),
            field<&R::volume>("Volume of wort to pitch. Left out, that of the brew day.")
                .above(0)
                .at_most(10000)
                .like("20 L"),
            field<&R::gravity>("Original gravity of that wort. Left out, that of the brew day.")
                .between(1.0, 1.2)
                .like("1.048"),
            field<&R::beer>("Class of the beer. It sets the pitching rate.").defaulted(),
            field<&R::yeast>("Lot or good of the yeast. Left out, the yeast that the brew day has "
                             "reserved, or else the yeast that expires first.")
                .length(1, 60),
            field<&R::amount>("Amount of the yeast. Left out, one pack, or all that is available "
                              "if the yeast is kept by mass or volume."),
            field<&R::wort>("Volume of wort in the starter. Left out, as much as the cells need.")
                .above(0)
                .at_most(100)
                .like("2 L"),
            field<&R::starter_gravity>("Gravity of the starter's wort. Left out, the setting "
                                       "`gravity` of the plugin starter.")
                .between(1.01, 1.06)
                .like("1.040"),
            field<&R::concentrate>("Lot or good of the jars to open. Left out, the jars that "
                                   "expire first.")
                .length(1, 60),
            field<&R::boiled>("Confirms two things about a jar that may not stand on the shelf and "
                              "that you name with `concentrate`: it was kept cold all the time, "
                              "and you boil it before use.")
                .defaulted(),
            field<&R::flask>("Name of the flask. The plan leaves space for foam in it. Left out, "
                             "the plan names the smallest flask that is large enough.")
                .length(1, 60),
            field<&R::stirred>("The starter stands on a stir plate. Left out, the setting "
                               "`stirred` of the plugin starter."),
            field<&R::rate>("Your own pitching rate, in million cells per millilitre and degree "
                            "Plato. Left out, the recommended rate of the beer class.")
                .between(brewing::lowest_own_rate, brewing::highest_own_rate),
            field<&R::pitch>(
                "Number of living cells to pitch, in place of a rate. If left out, it follows from "
                "the rate.")
                .above(0)
                .at_most(1e6)
                .like("200 B"),
            field<&R::max_fold>("Largest growth in one step: 8 allows eight times the cells. Left "
                                "out, 8.")
                .between(brewing::lowest_max_fold, brewing::highest_max_fold),
            field<&R::nutrient>("Lot or good of the nutrient to take from the shelf. Left out, "
                                "none is taken.")
                .length(1, 60),
            field<&R::kept_at>("Temperature at which the yeast was kept. Left out, the setting "
                               "`kept_at` of the plugin starter.")
                .between(-30, 40)
                .like("4 C"),
            field<&R::day>("Day on which you make the starter. Left out, today.")};
    }
};

struct Plan {
    Date day;
    std::optional<std::int64_t> brew;
    brewing::Volume volume;
    brewing::Gravity gravity;
    BeerClass beer = BeerClass::ale;
    std::vector<LivingYeast> yeast;
    Range<brewing::Cells> cells_now;
    Range<brewing::Cells> cells_needed;
    brewing::Cells target;
    std::string target_reason;
    bool stirred = false;
    std::string growth_model;
    double max_fold = 0.0;
    std::string max_fold_reason;
    std::vector<Step> steps;
    Range<brewing::Cells> cells_end;
    TargetReached enough = TargetReached::no;
    std::optional<std::string> flask;
    std::optional<brewing::Volume> vessel;
    std::vector<contract::UsedDespite> despite;
    std::vector<std::string> warnings;
    std::vector<std::string> cautions;

    static FieldList fields(auto) {
        return {
            field<&Plan::day>("Day on which the starter is made."),
            field<&Plan::brew>("Number of the brew day. Left out if there is none."),
            field<&Plan::volume>("Volume of wort to pitch."),
            field<&Plan::gravity>("Original gravity of that wort."),
            field<&Plan::beer>("Class of the beer."),
            field<&Plan::yeast>("Lots of yeast that the starter begins with."),
            field<&Plan::cells_now>("Living cells in that yeast."),
            field<&Plan::cells_needed>("Living cells that the sources recommend for the wort."),
            field<&Plan::target>("Living cells recommended, as one figure."),
            field<&Plan::target_reason>("Reason for that figure, with its sources."),
            field<&Plan::stirred>("Whether the starter stands on a stir plate."),
            field<&Plan::growth_model>("Rule that gives the growth, with its sources."),
            field<&Plan::max_fold>("Largest growth in one step."),
            field<&Plan::max_fold_reason>("Reason for that limit, with its sources."),
            field<&Plan::steps>("Steps of the starter. Empty if the yeast has enough cells."),
            field<&Plan::cells_end>("Living cells at the end."),
            field<&Plan::enough>("Whether the cells at the end reach the figure recommended: yes "
                                 "by the low figure too, likely by the likely figure, or no."),
            field<&Plan::flask>("Name of the flask: the one you named, or the smallest one that is "
                                "large enough. Left out if there is none."),
            field<&Plan::vessel>("Volume of the vessel, with space for foam. Left out if there is "
                                 "no step."),
            field<&Plan::despite>("Holds on its yeast and jars that were released with a reason.")
                .defaulted(),
            field<&Plan::warnings>("Warnings about this plan."),
            field<&Plan::cautions>("What to do before and after you open a jar.")};
    }
};

struct StarterPlan {
    static constexpr About about{
        "starter.plan", Access::look, Effect::reads,
        "Plans a starter: living cells now, cells needed, jars to open, water, cells at the end."};
    using Params = StarterRequest;
    using Result = Plan;
};

} // namespace barmkeep::starter
