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
    std::optional<std::string> held;
    static FieldList fields(auto) {
        return {
            field<&LotCost::lot>("The lot's code."),
            field<&LotCost::jars>("The number of jars in `value`: those on hand, or, if the lot is "
                                  "used up, those it was made with."),
            field<&LotCost::is_empty>("True if the lot is used up."),
            field<&LotCost::value>("The cost of these jars, from the ledger."),
            field<&LotCost::jar>("The cost of one jar."),
            field<&LotCost::extract>("The extract in one jar; left out if it is not known."),
            field<&LotCost::per_100g>(
                "The cost of 100 g of extract; left out if the extract is not known."),
            field<&LotCost::note>("Why a figure is missing; left out if none is."),
            field<&LotCost::held>("Why these jars may not be used; left out if they may.")};
    }
};

/// One good that went into the jars.
struct CostPart {
    std::string good;
    std::optional<contract::Category> category;
    Money value;
    Money jar;
    std::int64_t per_mille = 0;
    static FieldList fields(auto) {
        return {field<&CostPart::good>("The good's name."),
                field<&CostPart::category>("The good's category; left out if no good has that "
                                           "name any more."),
                field<&CostPart::value>("Its part of the cost of all jars. The parts add up to "
                                        "that cost exactly."),
                field<&CostPart::jar>("Its part of the cost of one jar."),
                field<&CostPart::per_mille>("Its share of the cost, in thousandths, rounded.")};
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
    std::vector<CostPart> parts;
    static FieldList fields(auto) {
        return {
            field<&GoodCost::good>("The good's name."),
            field<&GoodCost::jars>("The number of jars in all listed lots."),
            field<&GoodCost::value>("The cost of these jars, from the ledger."),
            field<&GoodCost::jar>("The cost of one jar: the mean of all these jars."),
            field<&GoodCost::extract>("The extract in all jars whose extract is known; left out if "
                                      "it is known of none."),
            field<&GoodCost::per_gram>("The cost of one gram of extract, in the jars whose extract "
                                       "is known; left out if it is known of none."),
            field<&GoodCost::per_100g>("The cost of 100 g of extract, in the jars whose extract is "
                                       "known; left out if it is known of none."),
            field<&GoodCost::per_litre>("The cost of the extract in one litre of starter; left out "
                                        "if the extract is known of no jar."),
            field<&GoodCost::lots>("The lots; the first to expire comes first."),
            field<&GoodCost::parts>("The parts of the cost of all these jars, the largest first.")
                .defaulted()};
    }
};

struct CostJar {
    static constexpr About about{"cost.jar", Access::look, Effect::reads,
                                 "Shows the cost of a jar from the ledger: by lot, by gram of "
                                 "extract and by litre of starter."};
    struct Params {
        std::optional<std::string> what;
        brewing::Gravity gravity = brewing::Gravity::sg(1.040);
        static FieldList fields(auto) {
            return {field<&Params::what>("A lot's code or a good's name. If left out: every good "
                                         "of canned concentrate.")
                        .positional()
                        .length(1, 60),
                    field<&Params::gravity>("The specific gravity of the starter whose cost per "
                                            "litre is shown. If left out: 1.040.")
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
            return {field<&Result::currency>("The currency of all sums: its ISO 4217 code."),
                    field<&Result::gravity>("The specific gravity of the starter."),
                    field<&Result::goods>("The goods, by name.")};
        }
    };
};

/// What the jars that failed cost the good ones.  It is contained in the parts.
struct CostLost {
    std::int64_t jars = 0;
    Money value;
    Money jar;
    static FieldList fields(auto) {
        return {
            field<&CostLost::jars>("The number of jars that failed."),
            field<&CostLost::value>("The part of the cost of all jars that the failed jars would "
                                    "have carried. It is contained in `parts`."),
            field<&CostLost::jar>("The same part in the cost of one jar.")};
    }
};

/// A bought can compared with the jar.
struct CanComparison {
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
            field<&CanComparison::item>("The item of the price note, or the good's name."),
            field<&CanComparison::where>("The place of the price note; left out if it has none."),
            field<&CanComparison::day>("The day of the price note; left out for cans in stock, "
                                       "which count at what was paid."),
            field<&CanComparison::price>("The price of one can."),
            field<&CanComparison::extract>("The extract in one can."),
            field<&CanComparison::per_100g>("The price of 100 g of its extract."),
            field<&CanComparison::same_extract>(
                "The price of as much of its extract as one jar holds."),
            field<&CanComparison::saving_per_jar>("That price less the cost of one jar; negative "
                                                  "if the jar costs more."),
            field<&CanComparison::saving_last_year>(
                "The saving for all jars used in the last 12 months."),
            field<&CanComparison::times>("The price of the can's extract divided by the cost of "
                                         "the jar's; 0 if the jar cost nothing.")};
    }
};

struct CostCompare {
    static constexpr About about{
        "cost.compare", Access::look, Effect::reads,
        "Compares a jar with bought cans by the extract in them, and shows the parts of its cost."};
    struct Params {
        std::optional<std::string> what;
        std::optional<std::string> can;
        static FieldList fields(auto) {
            return {
                field<&Params::what>("A lot's code or a good's name. If left out: the only good of "
                                     "canned concentrate; if there are several, name one.")
                    .positional()
                    .length(1, 60),
                field<&Params::can>("Compares only with this item of the price notes, or with "
                                    "this good. If left out: with every can whose price, volume "
                                    "and gravity are known.")
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
        std::vector<CanComparison> cans;
        std::vector<std::string> notes;
        static FieldList fields(auto) {
            return {
                field<&Result::currency>("The currency of all sums: its ISO 4217 code."),
                field<&Result::good>("The good's name."),
                field<&Result::jars>("The number of jars in these figures."),
                field<&Result::jar>("The cost of one jar: the mean of all these jars."),
                field<&Result::extract>("The extract in one jar: the mean of all these jars."),
                field<&Result::per_100g>("The cost of 100 g of extract."),
                field<&Result::parts>("The parts of the cost, the largest first."),
                field<&Result::lost>("What failed jars cost the good ones; left out if no entry "
                                     "shows it."),
                field<&Result::used_last_year>("The number of jars used in the last 12 months."),
                field<&Result::cans>("The bought cans, by item."),
                field<&Result::notes>("What the figures do not contain.")};
        }
    };
};

} // namespace barmkeep::cost
