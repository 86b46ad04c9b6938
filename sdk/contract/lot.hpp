// Lots: everything in the cellar is held by lot.
#pragma once

#include "sdk/contract/clearing.hpp"
#include "sdk/contract/good.hpp"
#include "sdk/contract/hold.hpp"
#include "sdk/method/money.hpp"

namespace barmkeep::contract {

/// Where a lot is kept.  Only what stands on the shelf can be shelf stock.
enum class Keeping { shelf, refrigerator, freezer };
constexpr auto enum_names(Keeping) {
    using N = EnumName<Keeping>;
    return std::array{N{Keeping::shelf, "shelf"}, N{Keeping::refrigerator, "refrigerator"},
                      N{Keeping::freezer, "freezer"}};
}

struct Lot {
    LotCode code;
    std::string good;
    Category category = Category::other;
    Amount on_hand;
    Amount reserved;
    Amount available;
    Money value;
    std::optional<std::string> supplier;
    std::optional<Date> bought;
    std::optional<Date> packed;
    std::optional<Date> canned;
    std::optional<Date> best_by;
    Keeping kept = Keeping::shelf;
    Facts facts;
    std::vector<Hold> holds;
    std::vector<Hold> released;
    Links about;
    std::int64_t origin = 0;

    static FieldList fields(auto) {
        return {
            field<&Lot::code>("The code on the lid or the bag."),
            field<&Lot::good>("The good."),
            field<&Lot::category>("The category of its good."),
            field<&Lot::on_hand>("What there is."),
            field<&Lot::reserved>("How much brew days have reserved."),
            field<&Lot::available>("How much you can use: on hand less reserved. Nothing of a lot "
                                   "on hold, or of sealed food past its best-by day."),
            field<&Lot::value>("What the amount on hand cost."),
            field<&Lot::supplier>("Who sold it."),
            field<&Lot::bought>("The day on which it was bought."),
            field<&Lot::packed>("The day on which its maker packed it."),
            field<&Lot::canned>("The day on which it was canned."),
            field<&Lot::best_by>("Its best-by day: the last day on which it counts as stock."),
            field<&Lot::kept>("Where it is kept.").defaulted(),
            field<&Lot::facts>("Its facts: the lot's own, and the good's where the lot has none."),
            field<&Lot::holds>("The holds in force. Empty if you may use it.").defaulted(),
            field<&Lot::released>(
                "Holds that were released with a reason. They are shown at each use.")
                .defaulted(),
            field<&Lot::about>("What it comes from, such as a canning run.").defaulted(),
            field<&Lot::origin>("The journal entry that made it.")};
    }
};

struct LotShow {
    static constexpr About about{"lot.show", Access::look, Effect::reads,
                                 "Shows one lot: amounts, dates, facts and holds."};
    struct Params {
        LotCode lot;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot's code.").positional()};
        }
    };
    using Result = Lot;
};

struct LotChange {
    static constexpr About about{"lot.change", Access::keep, Effect::writes,
                                 "Sets dates, supplier, place or facts of a lot, such as a "
                                 "measured gravity. What you leave out stays as it is."};
    struct Params {
        LotCode lot;
        std::optional<std::string> supplier;
        std::optional<Date> packed;
        std::optional<Date> canned;
        std::optional<Date> best_by;
        std::optional<Keeping> kept;
        std::optional<Facts> facts;
        std::vector<std::string> clear;
        std::string reason;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot's code.").positional(),
                field<&Params::supplier>("Who sold it. It stays as it is if left out.")
                    .length(1, 80),
                field<&Params::packed>(
                    "The day on which its maker packed it. It stays as it is if left out."),
                field<&Params::canned>(
                    "The day on which it was canned. It stays as it is if left out."),
                field<&Params::best_by>("Its best-by day: the last day on which it counts as "
                                        "stock. It stays as it is if left out."),
                field<&Params::kept>("Where it is kept now. It stays as it is if left out."),
                field<&Params::facts>("Facts to set. Facts that you leave out stay as they are."),
                clear_field<&Params::clear>("best_by"),
                field<&Params::reason>("Why you change it. The reason is kept with the change.")
                    .length(1, 400)};
        }
    };
    using Result = Lot;
};

struct LotHold {
    static constexpr About about{
        "lot.hold", Access::keep, Effect::writes,
        "Puts a lot on hold: nothing can be taken from it while the hold is in force. With an "
        "amount, that part becomes a lot of its own, and that lot is held."};
    struct Params {
        LotCode lot;
        std::string note;
        HoldKind kind = HoldKind::quarantine;
        std::optional<AmountGiven> amount;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot's code.").positional().from_batch(),
                    field<&Params::note>("What happened.").positional().length(1, 400),
                    field<&Params::kind>("The kind of hold. It decides how the hold can end.")
                        .defaulted(),
                    field<&Params::amount>("How much of the lot. All of it if left out."),
                    links_field<&Params::about>()};
        }
    };
    using Result = Lot;
};

struct LotRelease {
    static constexpr About about{
        "lot.release", Access::keep, Effect::writes,
        "Ends a hold because you decide so. It is refused for a known deviation and for a failed "
        "seal, because such jars never become shelf stock. It is refused for an unknown process "
        "too: state the process instead (lot.vouch)."};
    struct Params {
        LotCode lot;
        std::string reason;
        std::optional<HoldKind> kind;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot's code.").positional(),
                field<&Params::reason>("Why you end it. The reason is shown at every later use.")
                    .positional()
                    .length(1, 400),
                field<&Params::kind>(
                    "Which kind of hold to end. All that can be released if left out.")};
        }
    };
    using Result = Lot;
};

struct LotVouch {
    static constexpr About about{
        "lot.vouch", Access::keep, Effect::writes,
        "Ends the hold of jars with an unknown process: you state how and when they were canned. "
        "The statement is shown at every later use."};
    struct Params {
        LotCode lot;
        std::string process;
        Date canned;
        std::string confirm;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot's code.").positional(),
                field<&Params::process>("How they were canned, and who says so.")
                    .length(3, 200)
                    .like("25 min at 12 psi, neighbour's notebook"),
                field<&Params::canned>("The day on which they were canned."),
                field<&Params::confirm>("The lot's code again, as a confirmation.").length(1, 20)};
        }
    };
    using Result = Lot;
};

enum class LotDeed { changed, held, released };
constexpr auto enum_names(LotDeed) {
    using N = EnumName<LotDeed>;
    return std::array{N{LotDeed::changed, "changed"}, N{LotDeed::held, "held"},
                      N{LotDeed::released, "released"}};
}

/// One change of what is said of a lot.
struct LotPast {
    Instant at;
    std::string who;
    LotDeed change = LotDeed::changed;
    std::string reason;
    json::object was;
    json::object became;
    static FieldList fields(auto) {
        return {field<&LotPast::at>("When it happened."),
                field<&LotPast::who>("Who changed it."),
                field<&LotPast::change>("Changed, held or released."),
                field<&LotPast::reason>("Why."),
                field<&LotPast::was>(
                    "The members that changed, as they were before; null where there was nothing."),
                field<&LotPast::became>("The same members as they were afterwards.")};
    }
};

struct LotHistory {
    static constexpr About about{
        "lot.history", Access::look, Effect::reads,
        "Lists the changes of a lot's dates, supplier, facts and holds, newest first."};
    struct Params : Page {
        LotCode lot;
        static FieldList fields(auto) {
            return joined({field<&Params::lot>("The lot's code.").positional()}, Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<LotPast> changes;
        static FieldList fields(auto) {
            return joined({field<&Result::changes>("The changes.")}, NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::contract
