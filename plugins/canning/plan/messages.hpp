// Messages of planning: how many jars, what goes into each, and what is short.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

/// What a plan is made from.  A jar's strength is given as what it makes (`makes` and `at`),
/// or by the extract weighed into it (`weigh`, then `makes` or `at` says how it is diluted).
struct Wanted {
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
            field<&Wanted::jar>("Name of the jar size.").positional().length(1, 60).like("pint"),
            field<&Wanted::jars>(
                "Jars wanted; left out, as many as the extract and lids on hand allow.")
                .positional()
                .between(1, 1000),
            field<&Wanted::fill_canner>("As many jars as the canner takes.").defaulted(),
            field<&Wanted::loads>("Canner loads, with fill_canner.").defaulted().between(1, 50),
            field<&Wanted::canner>("The canner; the only one there is if left out.").length(1, 60),
            field<&Wanted::makes>("What a jar makes once it is diluted.")
                .above(0)
                .at_most(100)
                .like("1 L"),
            field<&Wanted::at>("The gravity of that.").between(1.005, 1.17).like("1.035"),
            field<&Wanted::weigh>("Extract weighed into each jar, where that is what is given.")
                .above(0)
                .at_most(10000)
                .like("4 oz"),
            field<&Wanted::extract>("The extract; the only one there is if left out.")
                .length(1, 60),
            field<&Wanted::lids>("The lids; the only ones there are if left out.").length(1, 60),
            field<&Wanted::nutrient>("The nutrient, if some goes in.").length(1, 60),
            field<&Wanted::nutrient_in_jar>(
                "Nutrient in each jar.  About a quarter teaspoon is common practice, no source; "
                "weigh yours.")
                .above(0)
                .at_most(100)
                .like("1 g")};
    }
};

/// One line of the weighing card: what each of some jars gets of one lot.  A jar that is filled
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
        return {field<&CardLine::first>("First jar of the line."),
                field<&CardLine::last>("Last jar of the line."),
                field<&CardLine::lot>("The lot of extract."),
                field<&CardLine::extract>("Extract of that lot for each of these jars."),
                field<&CardLine::ounces>("The same in ounces."),
                field<&CardLine::water>("Water for each jar, up to the headspace."),
                field<&CardLine::water_ounces>("The same in ounces of weight."),
                field<&CardLine::nutrient>("Nutrient for each jar.")};
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
        return {field<&CardTotal::extract>("Extract."),
                field<&CardTotal::ounces>("The same in ounces."),
                field<&CardTotal::water>("Water."),
                field<&CardTotal::water_ounces>("The same in ounces of weight."),
                field<&CardTotal::nutrient>("Nutrient.")};
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
        return {field<&JarContent::fill>("Liquid in the jar at its headspace."),
                field<&JarContent::weighed>("Extract, as it comes from the bag, in one jar."),
                field<&JarContent::extract>("What of that dissolves, counted as sucrose."),
                field<&JarContent::gravity>("Gravity of the concentrate in the jar."),
                field<&JarContent::water>("Water that goes into the jar."),
                field<&JarContent::makes>("Volume it is diluted to."),
                field<&JarContent::makes_gravity>("Gravity after dilution, by mass balance."),
                field<&JarContent::top_up>("Water to add when diluting."),
                field<&JarContent::points_gravity>(
                    "Gravity after dilution by the shortcut of gravity points."),
                field<&JarContent::points_error>("Shortcut less mass balance, in gravity points.")};
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
        return {field<&Need::good>("The good."),
                field<&Need::need>("What the plan takes."),
                field<&Need::available>("What is available."),
                field<&Need::short_by>("What is missing; zero if nothing is."),
                field<&Need::held>("What runs hold whose jars are not shelved yet: it is "
                                   "on the shelf by the ledger, and not free."),
                field<&Need::package>("The package it is bought in."),
                field<&Need::buy>("Packages to buy.")};
    }
};

/// What a plan takes from one lot.
struct Taken {
    LotCode lot;
    brewing::Mass mass;
    double ounces = 0;
    Range<double> points;
    std::optional<std::string> supplier;
    std::optional<Date> best_by;
    static FieldList fields(auto) {
        return {field<&Taken::lot>("The lot."),
                field<&Taken::mass>("How much of it, in all jars."),
                field<&Taken::ounces>("The same in ounces."),
                field<&Taken::points>("Its potential: gravity points of a pound in a US gallon."),
                field<&Taken::supplier>("Who sold it."),
                field<&Taken::best_by>("The last day it is good for.")};
    }
};

/// What goes into the jars beside extract.
struct Used {
    std::string good;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&Used::good>("The good."), field<&Used::amount>("How much.")};
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
    std::vector<Taken> lots;
    std::vector<Need> needs;
    std::vector<Need> buying;
    std::vector<std::string> concerns;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&Plan::jar>("The jar size."),
                field<&Plan::jars>("Jars."),
                field<&Plan::loads>("Jars in each load of the canner."),
                field<&Plan::feasible>("Whether all it takes is there."),
                field<&Plan::limit>("What set the number of jars."),
                field<&Plan::each>("What one jar holds and makes."),
                field<&Plan::card>("The weighing card."),
                field<&Plan::total>("All that is on the card."),
                field<&Plan::lots>("What the card takes from each lot, first to expire first."),
                field<&Plan::needs>("All that the plan takes, against what is free."),
                field<&Plan::buying>("What is short, in packages."),
                field<&Plan::concerns>("What to look at before weighing."),
                field<&Plan::cautions>("The cautions of canning.")};
    }
};

/// canning.plan
struct CanningPlan {
    static constexpr About about{
        "canning.plan", Access::look, Effect::reads,
        "Plans jars of concentrate: extract, water, gravity, lids and loads, the weighing card, "
        "and what is short, before anyone weighs anything."};
    struct Params : Wanted {
        std::optional<std::string> process;
        static FieldList fields(auto) {
            return joined(Wanted::fields(0),
                          {field<&Params::process>("The brewer's process it is meant for, so that "
                                                   "what must be said of it is.")
                               .length(1, 60)});
        }
    };
    using Result = Plan;
};

} // namespace barmkeep::canning
