// What a jar really costs, and what it saves against a bought can.
#pragma once

#include "sdk/contract/entry.hpp"
#include "sdk/contract/price.hpp"

namespace barmkeep::cost {

/// Jars of one lot and what they cost.
struct LotCost {
    LotCode lot;
    std::int64_t jars = 0;
    bool is_empty = false;
    Money value;
    Money jar;
    std::optional<brewing::Mass> extract;
    std::optional<Money> per_100g;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {
            field<&LotCost::lot>("The lot."),
            field<&LotCost::jars>("Jars the value is of: those on hand, or those it was made with "
                                  "where none is left."),
            field<&LotCost::is_empty>("Whether none is left."),
            field<&LotCost::value>("What they cost, by the ledger."),
            field<&LotCost::jar>("What one cost."),
            field<&LotCost::extract>("Extract in one."),
            field<&LotCost::per_100g>("What 100 g of extract cost."),
            field<&LotCost::note>("Why a figure is missing.")};
    }
};

/// A good of canned concentrate over all its lots.
struct GoodCost {
    std::string good;
    std::int64_t jars = 0;
    Money value;
    Money jar;
    std::optional<brewing::Mass> extract;
    std::optional<Money> per_gram;
    std::optional<Money> per_100g;
    std::optional<Money> per_litre;
    std::vector<LotCost> lots;
    static FieldList fields(auto) {
        return {field<&GoodCost::good>("The good."),
                field<&GoodCost::jars>("Jars of all lots shown."),
                field<&GoodCost::value>("What they cost."),
                field<&GoodCost::jar>("What one cost, over all of them."),
                field<&GoodCost::extract>("Extract in all jars of lots whose extract is known."),
                field<&GoodCost::per_gram>("What a gram of extract cost, over these lots."),
                field<&GoodCost::per_100g>("What 100 g of extract cost, over these lots."),
                field<&GoodCost::per_litre>("What the extract in a litre of starter cost."),
                field<&GoodCost::lots>("Lot by lot, first to expire first.")};
    }
};

struct CostJar {
    static constexpr About about{
        "cost.jar", Access::look, Effect::reads,
        "Shows what a jar cost by the ledger, by lot, by gram of extract and by litre of starter."};
    struct Params {
        std::optional<std::string> what;
        brewing::Gravity gravity = brewing::Gravity::sg(1.040);
        static FieldList fields(auto) {
            return {field<&Params::what>("A lot's code or a good's name; all canned "
                                         "concentrate if left out.")
                        .positional()
                        .length(1, 60),
                    field<&Params::gravity>("Gravity of a starter, for the cost of a "
                                            "litre.")
                        .defaulted()
                        .between(1.005, 1.1)
                        .like("1.040")};
        }
    };
    struct Result {
        std::string currency;
        brewing::Gravity gravity;
        std::vector<GoodCost> goods;
        static FieldList fields(auto) {
            return {field<&Result::currency>("The currency of every sum, by its ISO 4217 code."),
                    field<&Result::gravity>("Gravity of the starter meant."),
                    field<&Result::goods>("The goods.")};
        }
    };
};

/// One good that went into the jars.
struct CostPart {
    std::string good;
    std::optional<contract::Category> category;
    Money value;
    Money jar;
    std::int64_t per_mille = 0;
    static FieldList fields(auto) {
        return {field<&CostPart::good>("The good."),
                field<&CostPart::category>("Its class; left out if it is not known."),
                field<&CostPart::value>("Its part of the value of all jars shown; the "
                                        "parts add up to it exactly."),
                field<&CostPart::jar>("Its part of one jar."),
                field<&CostPart::per_mille>("Its share, in thousandths, rounded.")};
    }
};

/// What the jars that failed cost the good ones; contained in the parts, not beside them.
struct CostLost {
    std::int64_t jars = 0;
    Money value;
    Money jar;
    static FieldList fields(auto) {
        return {
            field<&CostLost::jars>("Jars that failed, by the entries that made the jars."),
            field<&CostLost::value>("What they would have cost, in the value of all jars shown."),
            field<&CostLost::jar>("The same in one jar.")};
    }
};

/// A bought can beside the jar.
struct CanBeside {
    std::string item;
    std::optional<std::string> where;
    std::optional<Date> day;
    Money price;
    brewing::Mass extract;
    Money per_100g;
    Money same_extract;
    Money saving_per_jar;
    Money saving_last_year;
    double times = 0;
    static FieldList fields(auto) {
        return {
            field<&CanBeside::item>("What is sold."),
            field<&CanBeside::where>("Where."),
            field<&CanBeside::day>("The day its price was noted; left out for cans on the shelf, "
                                   "whose price is what was paid."),
            field<&CanBeside::price>("Price of one."),
            field<&CanBeside::extract>("Extract in one."),
            field<&CanBeside::per_100g>("What 100 g of its extract cost."),
            field<&CanBeside::same_extract>("What as much of its extract as one jar holds costs."),
            field<&CanBeside::saving_per_jar>("That, less the cost of the jar; negative if the jar "
                                              "is the dearer."),
            field<&CanBeside::saving_last_year>("The same for all jars used in the last 12 "
                                                "months."),
            field<&CanBeside::times>("Cost of its extract over that of the jar, for reading; 0 if "
                                     "the jar cost nothing.")};
    }
};

struct CostCompare {
    static constexpr About about{
        "cost.compare", Access::look, Effect::reads,
        "Holds a jar against bought cans by the extract in them, and shows what made its cost."};
    struct Params {
        std::optional<std::string> what;
        std::optional<std::string> can;
        static FieldList fields(auto) {
            return {
                field<&Params::what>("A lot's code or a good's name; the only canned concentrate "
                                     "if left out.")
                    .positional()
                    .length(1, 60),
                field<&Params::can>("Only this item of the price notes, or this good.")
                    .length(1, 60)};
        }
    };
    struct Result {
        std::string currency;
        std::string good;
        std::int64_t jars = 0;
        Money jar;
        brewing::Mass extract;
        Money per_100g;
        std::vector<CostPart> parts;
        std::optional<CostLost> lost;
        std::int64_t used_last_year = 0;
        std::vector<CanBeside> cans;
        std::vector<std::string> notes;
        static FieldList fields(auto) {
            return {
                field<&Result::currency>("The currency of every sum, by its ISO 4217 code."),
                field<&Result::good>("The good."),
                field<&Result::jars>("Jars the figures are of."),
                field<&Result::jar>("What one cost."),
                field<&Result::extract>("Extract in one, over all of them."),
                field<&Result::per_100g>("What 100 g of extract cost."),
                field<&Result::parts>("What made the cost, dearest first."),
                field<&Result::lost>("What failed jars cost the good ones; left out where it is "
                                     "not known."),
                field<&Result::used_last_year>("Jars used in the last 12 months."),
                field<&Result::cans>("The cans, by item."),
                field<&Result::notes>("What the figures leave out.")};
        }
    };
};

} // namespace barmkeep::cost
