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
    GoodClass goods = GoodClass::other;
    Amount on_hand;
    Amount set_aside;
    Amount free;
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
        return {field<&Lot::code>("The code on the lid or the bag."),
                field<&Lot::good>("The good."),
                field<&Lot::goods>("The good's class."),
                field<&Lot::on_hand>("What there is."),
                field<&Lot::set_aside>("What brew days have set aside."),
                field<&Lot::free>("What is left to use: on hand less set aside; none of a lot that "
                                  "is held or, of sealed food, past its best by."),
                field<&Lot::value>("What the amount on hand cost."),
                field<&Lot::supplier>("Who sold it."),
                field<&Lot::bought>("The day it was bought."),
                field<&Lot::packed>("The day its maker packed it."),
                field<&Lot::canned>("The day it was canned."),
                field<&Lot::best_by>("The last day it is good for."),
                field<&Lot::kept>("Where it is kept.").defaulted(),
                field<&Lot::facts>("What is known of it: the lot's own facts over the good's."),
                field<&Lot::holds>("Why it may not be used now; empty if it may.").defaulted(),
                field<&Lot::released>("Holds that were released with a reason, shown at each use.")
                    .defaulted(),
                field<&Lot::about>("What it comes from, such as a canning run.").defaulted(),
                field<&Lot::origin>("The entry that made it.")};
    }
};

struct LotShow {
    static constexpr About about{"lot.show", Access::look, Effect::reads, "Shows one lot."};
    struct Params {
        LotCode code;
        static FieldList fields(auto) {
            return {field<&Params::code>("The lot's code.").positional()};
        }
    };
    using Result = Lot;
};

struct LotChange {
    static constexpr About about{
        "lot.change", Access::keep, Effect::writes,
        "Sets dates, supplier, place or facts of a lot, such as a measured gravity."};
    struct Params {
        LotCode code;
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
                field<&Params::code>("The lot's code.").positional(),
                field<&Params::supplier>("Who sold it; stays as it is if left out.").length(1, 80),
                field<&Params::packed>("The day its maker packed it."),
                field<&Params::canned>("The day it was canned."),
                field<&Params::best_by>("The last day it is good for."),
                field<&Params::kept>("Where it is kept now."),
                field<&Params::facts>("Facts to set; those left out stay as they are."),
                clear_field<&Params::clear>(),
                field<&Params::reason>("Why: kept with the change.").length(1, 400)};
        }
    };
    using Result = Lot;
};

struct LotHold {
    static constexpr About about{
        "lot.hold", Access::keep, Effect::writes,
        "Puts a lot on hold: nothing is taken from it while the hold is in force.  With an amount, "
        "that part becomes a lot of its own, which is held."};
    struct Params {
        LotCode code;
        std::string note;
        HoldKind kind = HoldKind::quarantine;
        std::optional<AmountGiven> amount;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::code>("The lot's code.").positional().from_batch(),
                    field<&Params::note>("What happened.").positional().length(1, 400),
                    field<&Params::kind>("Why it is held; this decides how the hold can end.")
                        .defaulted(),
                    field<&Params::amount>("How much of it; all of it if left out."),
                    links_field<&Params::about>()};
        }
    };
    using Result = Lot;
};

struct LotRelease {
    static constexpr About about{
        "lot.release", Access::keep, Effect::writes,
        "Ends a hold by the brewer's own decision.  Refused for a known deviation and a failed "
        "seal, which never become shelf stock, and for an unknown process (lot.vouch)."};
    struct Params {
        LotCode code;
        std::string reason;
        std::optional<HoldKind> kind;
        static FieldList fields(auto) {
            return {field<&Params::code>("The lot's code.").positional(),
                    field<&Params::reason>("Why: shown at every later use.")
                        .positional()
                        .length(1, 400),
                    field<&Params::kind>(
                        "Which hold, where there are several; all that can be released if left "
                        "out.")};
        }
    };
    using Result = Lot;
};

struct LotVouch {
    static constexpr About about{
        "lot.vouch", Access::keep, Effect::writes,
        "Ends the hold of jars whose process was unknown, by the brewer's own record of how and "
        "when they were canned.  The record is shown at every later use."};
    struct Params {
        LotCode code;
        std::string process;
        Date canned;
        std::string confirm;
        static FieldList fields(auto) {
            return {field<&Params::code>("The lot's code.").positional(),
                    field<&Params::process>("How they were canned, and who says so.")
                        .length(3, 200)
                        .like("25 min at 12 psi, neighbour's notebook"),
                    field<&Params::canned>("The day they were canned."),
                    field<&Params::confirm>("The lot's code once more, as a confirmation.")
                        .length(1, 20)};
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
        return {field<&LotPast::at>("When."),
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
        "Lists what was changed of a lot's dates, supplier, facts and holds, newest first."};
    struct Params : Page {
        LotCode code;
        static FieldList fields(auto) {
            return joined({field<&Params::code>("The lot's code.").positional()}, Page::fields(0));
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
