// What happens to stock.  Each method posts one journal entry.
#pragma once

#include "sdk/contract/shelf.hpp"

namespace barmkeep::contract {

/// One line of an entry: what it changed in one lot.
struct Line {
    LotCode lot;
    std::string good;
    Amount quantity;
    Money value;
    static FieldList fields(auto) {
        return {field<&Line::lot>("The lot."), field<&Line::good>("Its good."),
                field<&Line::quantity>("Change of the amount. Negative if it was taken."),
                field<&Line::value>("Change of the value.")};
    }
};

/// What a weighing took beyond what was asked, because a scale could not show it.
struct Swept {
    LotCode lot;
    Amount amount;
    static FieldList fields(auto) {
        return {
            field<&Swept::lot>("The lot that is now empty."),
            field<&Swept::amount>("The rest that went with it: less than one step of the scale.")};
    }
};

/// A hold that was released before stock of its lot was used.
struct UsedDespite {
    LotCode lot;
    Hold hold;
    static FieldList fields(auto) {
        return {field<&UsedDespite::lot>("The lot."),
                field<&UsedDespite::hold>("The hold, and the reason for which it was released.")};
    }
};

/// What a posting method answers.
struct Posted {
    std::int64_t entry = 0;
    std::vector<Line> lines;
    std::vector<Swept> swept;
    std::vector<UsedDespite> despite;
    static FieldList fields(auto) {
        return {field<&Posted::entry>("Number of the journal entry."),
                field<&Posted::lines>("What it changed, lot by lot."),
                field<&Posted::swept>("Rests below one step of the scale that went with it.")
                    .defaulted(),
                field<&Posted::despite>("Holds of the lots used that were released with a reason.")
                    .defaulted()};
    }
};

struct StockBuy {
    static constexpr About about{"stock.buy", Access::keep, Effect::writes,
                                 "Records a purchase as a new lot."};
    struct Params {
        std::string good;
        AmountGiven amount;
        Money paid;
        std::optional<std::string> supplier;
        std::optional<Date> day;
        std::optional<Date> packed;
        std::optional<Date> best_by;
        Facts facts;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {
                field<&Params::good>("The good that was bought.").positional().length(1, 60),
                field<&Params::amount>("How much, with its unit.").positional().like("3 lb"),
                field<&Params::paid>("What you paid for all of it, in the cellar's currency.")
                    .positional()
                    .at_least(0)
                    .like("18.50"),
                field<&Params::supplier>("Who sold it. Not recorded if left out.").length(1, 80),
                field<&Params::day>("The day on which it was bought. Today if left out."),
                field<&Params::packed>("The day on which its maker packed it. Unknown if left out; "
                                       "the age of yeast then counts from the day of buying."),
                field<&Params::best_by>(
                    "Its best-by day: the last day on which it counts as stock. None if left out."),
                field<&Params::facts>("Facts about this lot. They go before the good's.")
                    .defaulted(),
                field<&Params::note>("A note. None if left out.").length(1, 400)};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        Lot lot;
        static FieldList fields(auto) {
            return {field<&Result::entry>("Number of the journal entry."),
                    field<&Result::lot>("The new lot.")};
        }
    };
};

struct StockUse {
    static constexpr About about{"stock.use", Access::keep, Effect::writes,
                                 "Takes stock from the lot that you name, or else from the lots "
                                 "that expire first. A brew day takes what it has reserved first."};
    struct Params {
        std::string what;
        AmountGiven amount;
        std::optional<std::int64_t> brew;
        std::optional<Date> day;
        std::optional<std::string> note;
        bool boiled = false;
        Links about;
        static FieldList fields(auto) {
            return {
                field<&Params::what>("A lot's code or a good's name.").positional().length(1, 60),
                field<&Params::amount>("How much.").positional().like("2"),
                field<&Params::brew>("The brew day it is for. None if left out."),
                field<&Params::day>("The day on which it happened. Today if left out."),
                field<&Params::note>("A note. None if left out.").length(1, 400),
                field<&Params::boiled>("Confirms that a jar which may not stand on the shelf was "
                                       "kept cold and will be boiled before use. Name its lot.")
                    .defaulted(),
                links_field<&Params::about>()};
        }
    };
    using Result = Posted;
};

struct StockDiscard {
    static constexpr About about{"stock.discard", Access::keep, Effect::writes,
                                 "Records stock that was thrown out, on hold or not."};
    struct Params {
        LotCode lot;
        std::optional<AmountGiven> amount;
        std::string reason;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot.").positional(),
                    field<&Params::amount>("How much. All of the lot if left out."),
                    field<&Params::reason>("Why.").length(1, 400).like("lid had come loose"),
                    links_field<&Params::about>()};
        }
    };
    using Result = Posted;
};

struct StockRecount {
    static constexpr About about{
        "stock.recount", Access::keep, Effect::writes,
        "Sets a lot to what you counted or weighed, and posts the difference. Stock that is found "
        "has no value: undo a mistaken recount instead of recounting again. Jars of concentrate "
        "that are found become a lot of their own, on hold, because nobody knows how they were "
        "canned."};
    struct Params {
        LotCode lot;
        AmountGiven amount;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot.").positional(),
                    field<&Params::amount>("What there is by your count or weighing.").positional(),
                    field<&Params::reason>("What you found.").length(1, 400)};
        }
    };
    using Result = Posted;
};

struct ConvertInput {
    std::string what;
    AmountGiven amount;
    static FieldList fields(auto) {
        return {field<&ConvertInput::what>("A lot's code or a good's name.").length(1, 60),
                field<&ConvertInput::amount>("How much goes in.")};
    }
};

struct ConvertOutput {
    std::string good;
    AmountGiven amount;
    std::optional<double> weight;
    std::optional<Date> canned;
    std::optional<Date> best_by;
    Facts facts;
    Keeping kept = Keeping::shelf;
    std::vector<HoldGiven> holds;
    std::optional<LotCode> lot;
    static FieldList fields(auto) {
        return {field<&ConvertOutput::good>("The good that comes out.").length(1, 60),
                field<&ConvertOutput::amount>("How much comes out, as a new lot."),
                field<&ConvertOutput::weight>("Its share of the value, relative to the weights of "
                                              "the other outputs. By amount if left out.")
                    .at_least(0),
                field<&ConvertOutput::canned>("The day on which it was canned."),
                field<&ConvertOutput::best_by>(
                    "Its best-by day: the last day on which it counts as stock."),
                field<&ConvertOutput::facts>("Facts about the new lot.").defaulted(),
                field<&ConvertOutput::kept>("Where it is kept.").defaulted(),
                field<&ConvertOutput::holds>("Holds that the new lot has from the start.")
                    .defaulted()
                    .length(0, 10),
                field<&ConvertOutput::lot>("A lot of this good that an undone entry left empty: it "
                                           "is filled again. A new lot if left out.")};
    }
};

struct StockConvert {
    static constexpr About about{
        "stock.convert", Access::keep, Effect::writes,
        "Turns stock into other stock in one entry. The value of what goes in becomes the value of "
        "what comes out. The good pieces carry the value of lost pieces."};
    struct Params {
        std::vector<ConvertInput> inputs;
        std::vector<ConvertOutput> outputs;
        std::int64_t lost = 0;
        std::optional<Date> day;
        std::optional<std::string> note;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::inputs>("What goes in.").length(1, 100),
                    field<&Params::outputs>("What comes out.").length(1, 20),
                    field<&Params::lost>(
                        "Pieces that were made and lost, such as jars that did not seal.")
                        .defaulted()
                        .between(0, 10000),
                    field<&Params::day>("The day on which it happened. Today if left out."),
                    field<&Params::note>("A note. None if left out.").length(1, 400),
                    links_field<&Params::about>()};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        std::vector<Line> lines;
        std::vector<Swept> swept;
        std::vector<Lot> lots;
        Money value;
        Money lost_value;
        static FieldList fields(auto) {
            return {field<&Result::entry>("Number of the journal entry."),
                    field<&Result::lines>("What it changed, lot by lot."),
                    field<&Result::swept>("Rests below one step of the scale that went with it.")
                        .defaulted(),
                    field<&Result::lots>("The new lots."),
                    field<&Result::value>("The value of all that went in."),
                    field<&Result::lost_value>(
                        "The part of it that the lost pieces would have carried.")};
        }
    };
};

/// One good on the shelf with its lots.
struct Shelf {
    std::string good;
    Category category = Category::other;
    Amount on_hand;
    Amount reserved;
    Amount available;
    Money value;
    std::optional<Date> best_by;
    std::vector<Lot> lots;
    static FieldList fields(auto) {
        return {field<&Shelf::good>("The good."),
                field<&Shelf::category>("Its category."),
                field<&Shelf::on_hand>("What there is in all lots."),
                field<&Shelf::reserved>("How much brew days have reserved."),
                field<&Shelf::available>("How much you can use."),
                field<&Shelf::value>("What it cost."),
                field<&Shelf::best_by>("The first day on which some of it expires."),
                field<&Shelf::lots>("Its lots, first to expire first.")};
    }
};

struct StockList {
    static constexpr About about{
        "stock.list", Access::look, Effect::reads,
        "Shows the stock by good and lot: on hand, reserved and available."};
    struct Params {
        std::optional<std::string> good;
        std::optional<Category> category;
        bool all = false;
        static FieldList fields(auto) {
            return {field<&Params::good>("Shows only this good.").positional().length(1, 60),
                    field<&Params::category>("Lists only goods of this category."),
                    field<&Params::all>("Shows empty lots too.").defaulted()};
        }
    };
    struct Result {
        std::vector<Shelf> shelves;
        Money value;
        static FieldList fields(auto) {
            return {field<&Result::shelves>("One row for each good."),
                    field<&Result::value>("What the stock on hand cost.")};
        }
    };
};

} // namespace barmkeep::contract
