// Limits: how little of a good there may be before it is to be had again.
#pragma once

#include "sdk/contract/brew.hpp"

namespace barmkeep::reorder {

/// A limit as it is kept.
struct Limit {
    std::string good;
    Amount at_least;
    Amount up_to;
    std::int64_t lead_days = 0;
    static FieldList fields(auto) {
        return {field<&Limit::good>("The good."),
                field<&Limit::at_least>("The least that should be free to use."),
                field<&Limit::up_to>("How much should be free once it was had again."),
                field<&Limit::lead_days>("Days it takes to have it again.")};
    }
};

/// How a good stands against its limit.
struct Standing {
    std::string good;
    std::optional<contract::GoodClass> goods;
    Amount free;
    Amount set_aside;
    Amount needed;
    Amount at_least;
    Amount up_to;
    bool low = false;
    std::optional<Amount> missing;
    std::optional<Amount> package;
    std::optional<std::int64_t> packages;
    std::optional<Date> due;
    std::optional<std::int64_t> brew;
    std::optional<std::string> title;
    std::optional<std::string> detail;
    static FieldList fields(auto) {
        return {
            field<&Standing::good>("The good."),
            field<&Standing::goods>("Its class; left out if no good has that name any more."),
            field<&Standing::free>("What is free to use: on hand less set aside, none of it on "
                                   "hold."),
            field<&Standing::set_aside>("What brew days have set aside."),
            field<&Standing::needed>(
                "What brew days need beyond that, and the shelf does not have."),
            field<&Standing::at_least>("The least that should be free."),
            field<&Standing::up_to>("How much should be free once it was had again."),
            field<&Standing::low>("Whether what is free, less what is needed, is at the limit or "
                                  "below it."),
            field<&Standing::missing>("What is missing to `up_to`, what is needed included."),
            field<&Standing::package>("The package it is usually bought in."),
            field<&Standing::packages>("Whole packages that bring what is missing."),
            field<&Standing::due>("The day by which to have it again."),
            field<&Standing::brew>("The brew day that will take it to its limit."),
            field<&Standing::title>("What the reminder says."),
            field<&Standing::detail>("Why, with the figures; also what is wrong with the limit.")};
    }
};

struct LimitSet {
    static constexpr About about{
        "limit.set", Access::keep, Effect::writes,
        "Sets the least of a good that should be free to use; a reminder comes when it is not."};
    struct Params {
        std::string good;
        AmountGiven at_least;
        std::optional<AmountGiven> up_to;
        std::int64_t lead_days = 0;
        static FieldList fields(auto) {
            return {
                field<&Params::good>("The good.").positional().length(1, 60).like("lids"),
                field<&Params::at_least>("The least that should be free to use.")
                    .positional()
                    .like("12"),
                field<&Params::up_to>("How much should be free once it was had again; a package "
                                      "above the limit if left out.")
                    .like("48"),
                field<&Params::lead_days>("Days it takes to have it again.")
                    .defaulted()
                    .between(0, 365)};
        }
    };
    using Result = Limit;
};

struct LimitList {
    static constexpr About about{"limit.list", Access::look, Effect::reads, "Lists the limits."};
    using Params = Nothing;
    struct Result {
        std::vector<Limit> limits;
        static FieldList fields(auto) { return {field<&Result::limits>("The limits, by good.")}; }
    };
};

struct LimitRemove {
    static constexpr About about{"limit.remove", Access::keep, Effect::writes,
                                 "Takes a good's limit away, and its reminder with it."};
    struct Params {
        std::string good;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good.").positional().length(1, 60)};
        }
    };
    struct Result {
        bool was_there = false;
        static FieldList fields(auto) {
            return {field<&Result::was_there>("Whether there was a limit.")};
        }
    };
};

struct LimitCheck {
    static constexpr About about{"limit.check", Access::look, Effect::reads,
                                 "Holds the shelf against the limits and shows what is low."};
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
