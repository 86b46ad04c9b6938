// Limits: how little of a good there may be before it is to be had again.
#pragma once

#include "sdk/contract/brew.hpp"

namespace barmkeep::reorder {

/// A reorder point as it is kept.
struct ReorderPoint {
    std::string good;
    Amount reorder_point;
    Amount order_up_to;
    std::int64_t lead_days = 0;
    static FieldList fields(auto) {
        return {field<&ReorderPoint::good>("The good."),
                field<&ReorderPoint::reorder_point>("The least that should be free to use."),
                field<&ReorderPoint::order_up_to>("How much should be free once it was had again."),
                field<&ReorderPoint::lead_days>("Days it takes to have it again.")};
    }
};

/// How a good stands against its reorder point.
struct Standing {
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
            field<&Standing::good>("The good."),
            field<&Standing::category>("Its class; left out if no good has that name any more."),
            field<&Standing::available>("What is free to use: on hand less reserved, none of it on "
                                        "hold."),
            field<&Standing::reserved>("What brew days have reserved."),
            field<&Standing::needed>(
                "What brew days need beyond that, and the shelf does not have."),
            field<&Standing::reorder_point>("The least that should be free."),
            field<&Standing::order_up_to>("How much should be free once it was had again."),
            field<&Standing::low>(
                "Whether what is free, less what is needed, is at the reorder point or "
                "below it."),
            field<&Standing::missing>("What is missing to `order_up_to`, what is needed included."),
            field<&Standing::package>("The package it is usually bought in."),
            field<&Standing::packages>("Whole packages that bring what is missing."),
            field<&Standing::due>("The day by which to have it again."),
            field<&Standing::brew>("The brew day that will take it to its reorder point."),
            field<&Standing::title>("What the reminder says."),
            field<&Standing::note>(
                "Why, with the figures; also what is wrong with the reorder point.")};
    }
};

struct ReorderSet {
    static constexpr About about{
        "reorder.set", Access::keep, Effect::writes,
        "Sets the least of a good that should be free to use; a reminder comes when it is not."};
    struct Params {
        std::string good;
        AmountGiven reorder_point;
        std::optional<AmountGiven> order_up_to;
        std::int64_t lead_days = 0;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good.").positional().length(1, 60).like("lids"),
                    field<&Params::reorder_point>("The least that should be free to use.")
                        .positional()
                        .like("12"),
                    field<&Params::order_up_to>(
                        "How much should be free once it was had again; a package "
                        "above the reorder point if left out.")
                        .like("48"),
                    field<&Params::lead_days>("Days it takes to have it again.")
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
                                 "Takes a good's point away, and its reminder with it."};
    struct Params {
        std::string good;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good.").positional().length(1, 60)};
        }
    };
    struct Result {
        bool was_there = false;
        static FieldList fields(auto) {
            return {field<&Result::was_there>("Whether there was a reorder point.")};
        }
    };
};

struct ReorderCheck {
    static constexpr About about{
        "reorder.check", Access::look, Effect::reads,
        "Holds the shelf against the reorder points and shows what is low."};
    struct Params {
        std::optional<std::string> good;
        bool all = false;
        static FieldList fields(auto) {
            return {field<&Params::good>("Only this good, low or not.").positional().length(1, 60),
                    field<&Params::all>("Also goods that are not low.").defaulted()};
        }
    };
    struct Result {
        Date day;
        std::vector<Standing> standings;
        static FieldList fields(auto) {
            return {field<&Result::day>("The day."),
                    field<&Result::standings>("How the goods stand.")};
        }
    };
};

} // namespace barmkeep::reorder
