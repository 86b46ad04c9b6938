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
                field<&Line::quantity>("Change of the amount; negative when taken."),
                field<&Line::value>("Change of the value.")};
    }
};

/// What a weighing took beyond what was asked, because a scale could not tell it from nothing.
struct Swept {
    LotCode lot;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&Swept::lot>("The lot that is empty now."),
                field<&Swept::amount>("What was left of it, below a step of the scale.")};
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
                field<&Posted::lines>("What it changed."),
                field<&Posted::swept>("Rests that a scale cannot tell, which went with it.")
                    .defaulted(),
                field<&Posted::despite>("Holds that were released before.").defaulted()};
    }
};

struct StockBuy {
    static constexpr About about{"stock.buy", Access::keep, Effect::writes,
                                 "Records goods bought, as a new lot."};
    struct Params {
        std::string good;
        AmountGiven amount;
        Money paid;
        std::optional<std::string> supplier;
        std::optional<Date> day;
        std::optional<Date> packed;
        std::optional<Date> best_by;
        Facts facts;
        std::optional<std::string> memo;
        static FieldList fields(auto) {
            return {field<&Params::good>("The good bought.").positional().length(1, 60),
                    field<&Params::amount>("How much, with its unit.").positional().like("3 lb"),
                    field<&Params::paid>("What was paid for all of it, in the cellar's currency.")
                        .positional()
                        .at_least(0)
                        .like("18.50"),
                    field<&Params::supplier>("Who sold it.").length(1, 80),
                    field<&Params::day>("The day it was bought; today if left out."),
                    field<&Params::packed>("The day its maker packed it."),
                    field<&Params::best_by>("The last day it is good for."),
                    field<&Params::facts>("What is known of this lot.").defaulted(),
                    field<&Params::memo>("A note.").length(1, 400)};
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
    static constexpr About about{
        "stock.use", Access::keep, Effect::writes,
        "Takes stock: from the lot named, or else from the lots that expire first.  A brew day may "
        "use what it has set aside."};
    struct Params {
        std::string what;
        AmountGiven amount;
        std::optional<std::int64_t> brew;
        std::optional<Date> day;
        std::optional<std::string> memo;
        bool boiled = false;
        Links about;
        static FieldList fields(auto) {
            return {
                field<&Params::what>("A lot's code or a good's name.").positional().length(1, 60),
                field<&Params::amount>("How much.").positional().like("2"),
                field<&Params::brew>("The brew day it is for."),
                field<&Params::day>("The day; today if left out."),
                field<&Params::memo>("A note.").length(1, 400),
                field<&Params::boiled>("Confirms that a jar which may not stand on the shelf was "
                                       "kept cold and is boiled before use; its lot is named.")
                    .defaulted(),
                links_field<&Params::about>()};
        }
    };
    using Result = Posted;
};

struct StockDiscard {
    static constexpr About about{"stock.discard", Access::keep, Effect::writes,
                                 "Records stock thrown away, held or not."};
    struct Params {
        LotCode lot;
        std::optional<AmountGiven> amount;
        std::string reason;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot.").positional(),
                    field<&Params::amount>("How much; all of it if left out."),
                    field<&Params::reason>("Why.").length(1, 400).like("lid had come loose"),
                    links_field<&Params::about>()};
        }
    };
    using Result = Posted;
};

struct StockRecount {
    static constexpr About about{
        "stock.recount", Access::keep, Effect::writes,
        "Sets a lot to what was counted or weighed; the difference is posted.  What is found "
        "again comes without value, so a recount that was itself a slip is undone, not corrected "
        "by "
        "another one.  Jars of concentrate found so become a lot of their own, on hold: nobody "
        "knows how they were canned."};
    struct Params {
        LotCode lot;
        AmountGiven amount;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot.").positional(),
                    field<&Params::amount>("What there really is.").positional(),
                    field<&Params::reason>("What was found.").length(1, 400)};
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
        return {
            field<&ConvertOutput::good>("The good that comes out.").length(1, 60),
            field<&ConvertOutput::amount>("How much comes out, as a new lot."),
            field<&ConvertOutput::weight>(
                "Share of the value, against the other outputs' weights; by amount if left out.")
                .at_least(0),
            field<&ConvertOutput::canned>("The day it was canned."),
            field<&ConvertOutput::best_by>("The last day it is good for."),
            field<&ConvertOutput::facts>("What is known of the new lot.").defaulted(),
            field<&ConvertOutput::kept>("Where it is kept.").defaulted(),
            field<&ConvertOutput::holds>("Why it may not be used.").defaulted().length(0, 10),
            field<&ConvertOutput::lot>("An emptied lot of this good, from an entry undone, that is "
                                       "filled again; a new lot if left out.")};
    }
};

struct StockConvert {
    static constexpr About about{
        "stock.convert", Access::keep, Effect::writes,
        "Turns stock into other stock in one entry; what went in is worth what came out.  Pieces "
        "lost on the way are a loss that the good ones carry."};
    struct Params {
        std::vector<ConvertInput> inputs;
        std::vector<ConvertOutput> outputs;
        std::int64_t lost = 0;
        std::optional<Date> day;
        std::optional<std::string> memo;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::inputs>("What goes in.").length(1, 100),
                    field<&Params::outputs>("What comes out.").length(1, 20),
                    field<&Params::lost>(
                        "Pieces that were made and lost, such as jars that failed to seal.")
                        .defaulted()
                        .between(0, 10000),
                    field<&Params::day>("The day; today if left out."),
                    field<&Params::memo>("A note.").length(1, 400),
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
                    field<&Result::lines>("What it changed."),
                    field<&Result::swept>("Rests that a scale cannot tell.").defaulted(),
                    field<&Result::lots>("The new lots."),
                    field<&Result::value>("Value that went through."),
                    field<&Result::lost_value>(
                        "The part of it that the lost pieces would have carried.")};
        }
    };
};

/// One good on the shelf with its lots.
struct Shelf {
    std::string good;
    GoodClass goods = GoodClass::other;
    Amount on_hand;
    Amount set_aside;
    Amount free;
    Money value;
    std::optional<Date> best_by;
    std::vector<Lot> lots;
    static FieldList fields(auto) {
        return {field<&Shelf::good>("The good."),
                field<&Shelf::goods>("Its class."),
                field<&Shelf::on_hand>("What there is in all lots."),
                field<&Shelf::set_aside>("What brew days have set aside."),
                field<&Shelf::free>("What is left to use."),
                field<&Shelf::value>("What it cost."),
                field<&Shelf::best_by>("The first date at which some of it expires."),
                field<&Shelf::lots>("Its lots, first to expire first.")};
    }
};

struct StockList {
    static constexpr About about{"stock.list", Access::look, Effect::reads,
                                 "Shows the shelf: on hand, set aside and free, by good and lot."};
    struct Params {
        std::optional<std::string> good;
        std::optional<GoodClass> goods;
        bool all = false;
        static FieldList fields(auto) {
            return {field<&Params::good>("Only this good.").positional().length(1, 60),
                    field<&Params::goods>("Only goods of this class."),
                    field<&Params::all>("Also lots with nothing left.").defaulted()};
        }
    };
    struct Result {
        std::vector<Shelf> shelves;
        Money value;
        static FieldList fields(auto) {
            return {field<&Result::shelves>("One row for each good."),
                    field<&Result::value>("What all of it cost.")};
        }
    };
};

} // namespace barmkeep::contract
