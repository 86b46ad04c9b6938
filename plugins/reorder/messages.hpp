// Reorder points: how little of a good may be left before it should be restocked.
#pragma once

#include "sdk/contract/brew.hpp"

namespace barmkeep::reorder {

/// A reorder point as it is stored.
struct ReorderPoint {
    std::string good;
    Amount reorder_point;
    Amount order_up_to;
    std::int64_t lead_days = 0;
    static FieldList fields(auto) {
        return {field<&ReorderPoint::good>("The good's name."),
                field<&ReorderPoint::reorder_point>(
                    "The reorder point: at this amount available, or less, the good is low."),
                field<&ReorderPoint::order_up_to>(
                    "The order-up-to level: the amount that should be available after a restock."),
                field<&ReorderPoint::lead_days>("Days that a restock takes.")};
    }
};

/// The stock of a good, compared with its reorder point.
struct GoodStatus {
    std::string good;
    std::optional<contract::Category> category;
    Amount available;
    Amount reserved;
    Amount needed;
    Amount reorder_point;
    Amount order_up_to;
    bool low = false;
    std::optional<Amount> missing;
    std::optional<Amount> package;
    std::optional<std::int64_t> packages;
    std::optional<Date> due;
    std::optional<std::int64_t> brew;
    std::optional<std::string> title;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {
            field<&GoodStatus::good>("The good's name."),
            field<&GoodStatus::category>(
                "The good's category; left out if no good has that name any more."),
            field<&GoodStatus::available>("The amount that is available: on hand, not reserved and "
                                          "not on hold."),
            field<&GoodStatus::reserved>("The amount reserved for brew days."),
            field<&GoodStatus::needed>(
                "The amount that brew days need beyond what is reserved for them."),
            field<&GoodStatus::reorder_point>(
                "The reorder point: at this amount available, or less, the good is low."),
            field<&GoodStatus::order_up_to>(
                "The order-up-to level: the amount that should be available after a restock."),
            field<&GoodStatus::low>("True if the available amount less the needed amount is at or "
                                    "below the reorder point."),
            field<&GoodStatus::missing>("The amount to restock: up to the order-up-to level, plus "
                                        "what brew days need. Left out if the good is not low."),
            field<&GoodStatus::package>(
                "The size of the usual package; left out if the good has none."),
            field<&GoodStatus::packages>("The number of whole packages that cover the missing "
                                         "amount; left out for goods without a package."),
            field<&GoodStatus::due>(
                "The day by which to restock; left out if the good is not low."),
            field<&GoodStatus::brew>("The number of the brew day that brings the good to its "
                                     "reorder point; left out if it is there today."),
            field<&GoodStatus::title>(
                "The title of the reminder; left out if the good is not low."),
            field<&GoodStatus::note>("The figures behind the reminder, or what is wrong with the "
                                     "reorder point; left out if neither applies.")};
    }
};

struct ReorderSet {
    static constexpr About about{
        "reorder.set", Access::keep, Effect::writes,
        "Sets the reorder point of a good; a reminder appears while the good is low."};
    struct Params {
        std::string good;
        AmountGiven reorder_point;
        std::optional<AmountGiven> order_up_to;
        std::int64_t lead_days = 0;
        static FieldList fields(auto) {
            return {
                field<&Params::good>("The good's name.").positional().length(1, 60).like("lids"),
                field<&Params::reorder_point>(
                    "The reorder point: at this amount available, or less, the good is low.")
                    .positional()
                    .like("12"),
                field<&Params::order_up_to>(
                    "The order-up-to level: the amount that should be available after a restock. "
                    "If left out: the reorder point plus one package; for pieces without a "
                    "package plus one piece; otherwise twice the reorder point.")
                    .like("48"),
                field<&Params::lead_days>("Days that a restock takes. If left out: 0, so that the "
                                          "restock is due one day before the brew day.")
                    .defaulted()
                    .between(0, 365)};
        }
    };
    using Result = ReorderPoint;
};

struct ReorderList {
    static constexpr About about{"reorder.list", Access::look, Effect::reads,
                                 "Lists the reorder points."};
    using Params = Nothing;
    struct Result {
        std::vector<ReorderPoint> points;
        static FieldList fields(auto) {
            return {field<&Result::points>("The reorder points, by good.")};
        }
    };
};

struct ReorderRemove {
    static constexpr About about{"reorder.remove", Access::keep, Effect::writes,
                                 "Removes a good's reorder point and its reminder."};
    struct Params {
        std::string good;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good's name, or the old name if the good was "
                                         "renamed.")
                        .positional()
                        .length(1, 60)};
        }
    };
    struct Result {
        bool was_there = false;
        static FieldList fields(auto) {
            return {field<&Result::was_there>("True if the good had a reorder point.")};
        }
    };
};

struct ReorderCheck {
    static constexpr About about{
        "reorder.check", Access::look, Effect::reads,
        "Compares the stock with the reorder points and lists the goods that are low."};
    struct Params {
        std::optional<std::string> good;
        bool all = false;
        static FieldList fields(auto) {
            return {field<&Params::good>("Shows only this good, low or not. If left out: the "
                                         "goods that are low.")
                        .positional()
                        .length(1, 60),
                    field<&Params::all>("Lists every good that has a reorder point. If left out: "
                                        "only the goods that are low.")
                        .defaulted()};
        }
    };
    struct Result {
        Date day;
        std::vector<GoodStatus> goods;
        static FieldList fields(auto) {
            return {field<&Result::day>("The day of the comparison: today in the cellar."),
                    field<&Result::goods>("The goods, each compared with its reorder point.")};
        }
    };
};

} // namespace barmkeep::reorder
