// Lots: everything in the cellar is held by lot.
#pragma once

#include "sdk/contract/good.hpp"
#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

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
    Facts facts;
    std::optional<std::string> hold;
    std::int64_t origin = 0;

    static FieldList fields(auto) {
        return {
            field<&Lot::code>("The code on the lid or the bag."),
            field<&Lot::good>("The good."),
            field<&Lot::goods>("The good's class."),
            field<&Lot::on_hand>("What there is."),
            field<&Lot::set_aside>("What brew days have set aside."),
            field<&Lot::free>(
                "What is left to use: on hand less set aside; none while on hold, or of sealed "
                "jars and cans past their best by."),
            field<&Lot::value>("What the amount on hand cost."),
            field<&Lot::supplier>("Who sold it."),
            field<&Lot::bought>("The day it was bought."),
            field<&Lot::packed>("The day its maker packed it."),
            field<&Lot::canned>("The day it was canned."),
            field<&Lot::best_by>("The last day it is good for."),
            field<&Lot::facts>("What is known of it: the lot's own facts over the good's."),
            field<&Lot::hold>("Why it may not be used now."),
            field<&Lot::origin>("The entry that made it.")};
    }
};

/// Whether a lot is sealed food past its best by, which is never taken unless the lot is named.
[[nodiscard]] inline bool is_past_best_by(const Lot& lot, Date today) {
    return is_sealed_food(lot.goods) && lot.best_by && *lot.best_by < today;
}

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
        "Sets dates, supplier or facts of a lot, such as a measured gravity."};
    struct Params {
        LotCode code;
        std::optional<std::string> supplier;
        std::optional<Date> packed;
        std::optional<Date> canned;
        std::optional<Date> best_by;
        std::optional<Facts> facts;
        std::string reason;
        static FieldList fields(auto) {
            return {
                field<&Params::code>("The lot's code.").positional(),
                field<&Params::supplier>("Who sold it.").length(1, 80),
                field<&Params::packed>("The day its maker packed it."),
                field<&Params::canned>("The day it was canned."),
                field<&Params::best_by>("The last day it is good for."),
                field<&Params::facts>("Facts to set; those left out stay as they are."),
                field<&Params::reason>("Why: kept with the change.").length(1, 400)};
        }
    };
    using Result = Lot;
};

struct LotHold {
    static constexpr About about{
        "lot.hold", Access::keep, Effect::writes,
        "Puts a lot on hold: nothing is taken from it until it is released."};
    struct Params {
        LotCode code;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::code>("The lot's code.").positional(),
                              field<&Params::reason>("Why.").positional().length(1, 400)};
        }
    };
    using Result = Lot;
};

struct LotRelease {
    static constexpr About about{"lot.release", Access::keep, Effect::writes,
                                 "Takes a lot off hold."};
    using Params = LotHold::Params;
    using Result = Lot;
};

enum class LotDeed { changed, held, released };
constexpr auto enum_names(LotDeed) {
    using W = EnumName<LotDeed>;
    return std::array{W{LotDeed::changed, "changed"}, W{LotDeed::held, "held"},
                      W{LotDeed::released, "released"}};
}

/// One change of what is said of a lot.
struct LotPast {
    Instant at;
    std::string who;
    LotDeed change = LotDeed::changed;
    std::string reason;
    std::optional<json::object> was;
    std::optional<json::object> became;
    static FieldList fields(auto) {
        return {
            field<&LotPast::at>("When."),
            field<&LotPast::who>("Who changed it."),
            field<&LotPast::change>("Changed, held or released."),
            field<&LotPast::reason>("Why."),
            field<&LotPast::was>(
                "The members that changed, as they were before; null where there was nothing.  "
                "Left out of changes older than version 3 of the ledger's tables."),
            field<&LotPast::became>("The same members as they were afterwards.")};
    }
};

struct LotHistory {
    static constexpr About about{
        "lot.history", Access::look, Effect::reads,
        "Lists what was changed of a lot's dates, supplier, facts and hold, newest first."};
    struct Params : Page {
        LotCode code;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Params::code>("The lot's code.").positional()},
                                  Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<LotPast> changes;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::changes>("The changes.")},
                                  NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::contract
