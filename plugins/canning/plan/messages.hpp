// Messages of planning: how many jars, what goes into each, and what is short.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

/// What the brewer asks to can. A jar's strength is given as what it makes (`makes` and `at`),
/// or by the extract weighed into it (`weigh`, then `makes` or `at` says how it is diluted).
struct LoadRequest {
    std::string jar;
    std::optional<std::int64_t> jars;
    bool fill_canner = false;
    std::int64_t loads = 1;
    std::optional<std::string> canner;
    std::optional<brewing::Volume> makes;
    std::optional<brewing::Gravity> at;
    std::optional<brewing::Mass> weigh;
    std::optional<std::string> extract;
    std::optional<std::string> lids;
    std::optional<std::string> nutrient;
    std::optional<brewing::Mass> nutrient_in_jar;

    static FieldList fields(auto) {
        return {
            field<&LoadRequest::jar>("Name of the jar size, as you set it with barm jar set.")
                .positional()
                .length(1, 60)
                .like("pint"),
            field<&LoadRequest::jars>(
                "Number of jars. If left out: with fill_canner what the canner takes, otherwise as "
                "many as the extract and lids on hand allow.")
                .positional()
                .between(1, 1000),
            field<&LoadRequest::fill_canner>("Plan as many jars as the canner takes. Off if left "
                                             "out. Cannot be given together with a number of jars.")
                .defaulted(),
            field<&LoadRequest::loads>(
                "Number of canner loads that fill_canner counts. One if left out.")
                .defaulted()
                .between(1, 50),
            field<&LoadRequest::canner>("Name of the canner. The only one you have if left out.")
                .length(1, 60),
            field<&LoadRequest::makes>(
                "Volume of starter wort that one jar makes after dilution. Needed with at, unless "
                "weigh is given. With weigh alone the jar is not diluted.")
                .above(0)
                .at_most(100)
                .like("1 L"),
            field<&LoadRequest::at>(
                "Gravity of the wort after dilution. Needed with makes, unless weigh is given.")
                .between(1.005, 1.17)
                .like("1.035"),
            field<&LoadRequest::weigh>(
                "Malt extract to weigh into each jar. If left out, it follows from makes and at.")
                .above(0)
                .at_most(10000)
                .like("4 oz"),
            field<&LoadRequest::extract>(
                "Name of the malt extract. The only one you have if left out.")
                .length(1, 60),
            field<&LoadRequest::lids>("Name of the lids. The only ones you have if left out.")
                .length(1, 60),
            field<&LoadRequest::nutrient>("Name of the yeast nutrient. No nutrient goes in if left "
                                          "out. Needs nutrient_in_jar.")
                .length(1, 60),
            field<&LoadRequest::nutrient_in_jar>(
                "Weight of nutrient in each jar. Needed with nutrient, left out otherwise.")
                .above(0)
                .at_most(100)
                .like("1 g")};
    }
};

/// One line of the weighing card: what each of some jars gets of one lot. A jar that is filled
/// from two lots has two lines; water and nutrient stand on its last.
struct CardLine {
    std::int64_t first = 0;
    std::int64_t last = 0;
    LotCode lot;
    brewing::Mass extract;
    double ounces = 0;
    std::optional<brewing::Mass> water;
    std::optional<double> water_ounces;
    std::optional<brewing::Mass> nutrient;
    static FieldList fields(auto) {
        return {
            field<&CardLine::first>("Number of the first jar of this line."),
            field<&CardLine::last>("Number of the last jar of this line."),
            field<&CardLine::lot>("Code of the extract lot to weigh from."),
            field<&CardLine::extract>("Extract of that lot to weigh into each of these jars."),
            field<&CardLine::ounces>("The same weight in ounces."),
            field<&CardLine::water>("Weight of water for each jar, up to its headspace. Left out "
                                    "if another lot follows for the same jars."),
            field<&CardLine::water_ounces>("The same weight in ounces. Left out with water."),
            field<&CardLine::nutrient>(
                "Nutrient for each jar. Left out if none is planned, or if another lot follows.")};
    }
};

/// What all jars of a card take together.
struct CardTotal {
    brewing::Mass extract;
    double ounces = 0;
    brewing::Mass water;
    double water_ounces = 0;
    std::optional<brewing::Mass> nutrient;
    static FieldList fields(auto) {
        return {field<&CardTotal::extract>("Extract in all jars."),
                field<&CardTotal::ounces>("The same weight in ounces."),
                field<&CardTotal::water>("Weight of water in all jars."),
                field<&CardTotal::water_ounces>("The same weight in ounces."),
                field<&CardTotal::nutrient>("Nutrient in all jars. Left out if none is planned.")};
    }
};

/// What one jar holds and makes.
struct JarContent {
    brewing::Volume fill;
    brewing::Mass weighed;
    Range<brewing::Mass> extract;
    Range<brewing::Gravity> gravity;
    brewing::Mass water;
    brewing::Volume makes;
    Range<brewing::Gravity> makes_gravity;
    brewing::Volume top_up;
    brewing::Gravity points_gravity;
    double points_error = 0;
    static FieldList fields(auto) {
        return {
            field<&JarContent::fill>("Fill: the volume of liquid in one jar, up to its headspace."),
            field<&JarContent::weighed>("Extract to weigh into one jar, as it comes from the bag."),
            field<&JarContent::extract>("Dissolved extract in one jar, counted as sucrose."),
            field<&JarContent::gravity>("Gravity of the concentrate in the jar."),
            field<&JarContent::water>("Weight of water in one jar."),
            field<&JarContent::makes>("Volume of wort that one jar makes after dilution."),
            field<&JarContent::makes_gravity>("Gravity of that wort, by mass balance."),
            field<&JarContent::top_up>("Volume of water to add for the dilution."),
            field<&JarContent::points_gravity>(
                "Gravity of that wort by the shortcut of gravity points, for comparison."),
            field<&JarContent::points_error>(
                "The shortcut minus the mass balance, in gravity points.")};
    }
};

/// One good that a plan needs.
struct Need {
    std::string good;
    Amount need;
    Amount available;
    Amount short_by;
    std::optional<std::string> held;
    std::optional<Amount> package;
    std::optional<std::int64_t> buy;
    static FieldList fields(auto) {
        return {field<&Need::good>("Name of the good."),
                field<&Need::need>("Amount that the plan takes."),
                field<&Need::available>("Amount available today: on hand, not on hold, and neither "
                                        "reserved nor in an open run."),
                field<&Need::short_by>("Amount that is missing. Zero if nothing is."),
                field<&Need::held>("Amount in open runs, by run. It is on hand until those jars "
                                   "are shelved, but not available. Left out if there is none."),
                field<&Need::package>(
                    "Package that the good is bought in. Left out if it is not known."),
                field<&Need::buy>("Number of packages to buy. Left out if nothing is missing or "
                                  "the package is not known.")};
    }
};

/// What a plan takes from one lot.
struct LotUse {
    LotCode lot;
    brewing::Mass mass;
    double ounces = 0;
    Range<double> points;
    std::optional<std::string> supplier;
    std::optional<Date> best_by;
    static FieldList fields(auto) {
        return {
            field<&LotUse::lot>("Code of the lot."),
            field<&LotUse::mass>("Weight that all jars take from it."),
            field<&LotUse::ounces>("The same weight in ounces."),
            field<&LotUse::points>(
                "Its extract potential, in gravity points of one pound made up to one US gallon."),
            field<&LotUse::supplier>("Its supplier. Left out if not known."),
            field<&LotUse::best_by>("Its best by. Left out if it has none.")};
    }
};

/// Lids and nutrient: what goes into the jars beside extract.
struct GoodUse {
    std::string good;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&GoodUse::good>("Name of the good."),
                field<&GoodUse::amount>("Amount that all jars take.")};
    }
};

struct Plan {
    std::string jar;
    std::int64_t jars = 0;
    std::vector<std::int64_t> loads;
    bool feasible = false;
    std::string limit;
    JarContent each;
    std::vector<CardLine> card;
    CardTotal total;
    std::vector<LotUse> lots;
    std::vector<Need> needs;
    std::vector<Need> buying;
    std::vector<std::string> warnings;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {
            field<&Plan::jar>("Name of the jar size."),
            field<&Plan::jars>("Number of jars."),
            field<&Plan::loads>("Number of jars in each canner load. Empty if no canner is known."),
            field<&Plan::feasible>("Whether everything that the plan takes is available."),
            field<&Plan::limit>("What set the number of jars."),
            field<&Plan::each>("What one jar holds and makes."),
            field<&Plan::card>("Weighing card: what to weigh into which jars."),
            field<&Plan::total>("What all jars on the card take together."),
            field<&Plan::lots>("What the card takes from each extract lot, first to expire first."),
            field<&Plan::needs>("Every good that the plan takes, with what is available."),
            field<&Plan::buying>("The goods that are short. Empty if none is."),
            field<&Plan::warnings>(
                "Warnings about this plan. Read them before you weigh anything."),
            field<&Plan::cautions>("The cautions of planning.")};
    }
};

/// canning.plan
struct CanningPlan {
    static constexpr About about{
        "canning.plan", Access::look, Effect::reads,
        "Plans a canning day: jars, extract, water, gravity, lids, loads, the weighing card and "
        "what is short. Changes nothing."};
    struct Params : LoadRequest {
        std::optional<std::string> process;
        static FieldList fields(auto) {
            return joined(LoadRequest::fields(0),
                          {field<&Params::process>(
                               "Name of the process that you mean to use: the plan then warns if "
                               "its time is short. No process is looked at if left out.")
                               .length(1, 60)});
        }
    };
    using Result = Plan;
};

} // namespace barmkeep::canning
