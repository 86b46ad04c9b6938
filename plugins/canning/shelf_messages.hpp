// Messages from the seal test on: jars to the shelf, measured, held, inspected, opened.
#pragma once

#include "plugins/canning/run_messages.hpp"

namespace barmkeep::canning {

/// run.seal
struct RunSeal {
    static constexpr About about{
        "run.seal", Access::keep, Effect::writes,
        "Ends a run with its seal test: one conversion entry turns extract and lids into jars.  "
        "Unsealed jars go to the refrigerator or are processed again; what they cost is carried "
        "by the good ones."};
    struct Params {
        std::int64_t run = 0;
        std::int64_t held = 0;
        std::int64_t failed = 0;
        std::int64_t lost_liquid = 0;
        std::int64_t broken = 0;
        FailedTo failed_to = FailedTo::refrigerator;
        std::optional<Date> best_by;
        std::optional<std::string> reason;
        static FieldList fields(auto) {
            return {
                field<&Params::run>("The run.").positional().at_least(1),
                field<&Params::held>("Jars whose seal held.").positional().between(0, 1000),
                field<&Params::failed>("Jars whose seal failed.").defaulted().between(0, 1000),
                field<&Params::lost_liquid>("Jars that are sealed but lost liquid.")
                    .defaulted()
                    .between(0, 1000),
                field<&Params::broken>("Jars that broke.").defaulted().between(0, 1000),
                field<&Params::failed_to>("Where the failed ones go.").defaulted(),
                field<&Params::best_by>("Best by, where it is not the usual."),
                field<&Params::reason>("Why another best by: kept with the run.").length(1, 400)};
        }
    };
    struct Result {
        RunShown run;
        std::optional<std::int64_t> entry;
        std::vector<contract::Lot> lots;
        Money value;
        Money lost_value;
        std::vector<std::string> held_because;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::run>("The run."),
                field<&Result::entry>("Number of the conversion entry."),
                field<&Result::lots>("The new lots."),
                field<&Result::value>("What the load cost."),
                field<&Result::lost_value>(
                    "What failed and broken jars would have carried; the good ones carry it."),
                field<&Result::held_because>("Why the jars are on hold; empty if they are not."),
                field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

/// run.measure
struct RunMeasure {
    static constexpr About about{
        "run.measure", Access::keep, Effect::writes,
        "Takes gravity and fill measured in one or more jars of a lot as the lot's own; every "
        "plan uses them from then on."};
    struct Params {
        LotCode lot;
        std::vector<brewing::Gravity> gravity;
        std::vector<brewing::Volume> fill;
        bool correct_extract = false;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot of jars.").positional(),
                field<&Params::gravity>("Gravities measured, one a jar.")
                    .defaulted()
                    .length(0, 100),
                field<&Params::fill>("Fills measured, one a jar.").defaulted().length(0, 100),
                field<&Params::correct_extract>(
                    "Also set the potential of the extract lot, where the run used one only.")
                    .defaulted()};
        }
    };
    struct Result {
        contract::Lot lot;
        std::optional<brewing::Gravity> planned_gravity;
        brewing::Gravity gravity;
        brewing::Volume fill;
        brewing::Mass extract;
        std::optional<double> points_found;
        std::optional<LotCode> extract_lot;
        bool extract_corrected = false;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::lot>("The lot as it is known now."),
                field<&Result::planned_gravity>("What the plan said."),
                field<&Result::gravity>("The mean of the gravities."),
                field<&Result::fill>("The mean of the fills."),
                field<&Result::extract>("Extract in one jar, from both."),
                field<&Result::points_found>(
                    "The potential this means for the extract: points of a pound in a gallon."),
                field<&Result::extract_lot>("The lot of extract it means."),
                field<&Result::extract_corrected>("Whether that lot was corrected."),
                field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

/// What run.hold and run.release take and answer.
struct RunDecision {
    std::int64_t run = 0;
    std::string reason;
    static FieldList fields(auto) {
        return {field<&RunDecision::run>("The run.").positional().at_least(1),
                          field<&RunDecision::reason>("Why.").positional().length(1, 400)};
    }
};
struct RunDecided {
    RunShown run;
    std::vector<contract::Lot> lots;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&RunDecided::run>("The run."),
                          field<&RunDecided::lots>("Its lots that are not empty."),
                          field<&RunDecided::cautions>("The cautions of canning.")};
    }
};

/// run.hold
struct RunHold {
    static constexpr About about{"run.hold", Access::keep, Effect::writes,
                                 "Puts all jars of a run on hold."};
    using Params = RunDecision;
    using Result = RunDecided;
};
/// run.release
struct RunRelease {
    static constexpr About about{
        "run.release", Access::keep, Effect::writes,
        "Takes all jars of a run off hold: the brewer's own decision, kept with its reason."};
    using Params = RunDecision;
    using Result = RunDecided;
};

/// What a jar may show that means: throw it out.
enum class Sign {
    swollen_lid,
    unsealed_lid,
    leaking,
    dried_streaks,
    rising_bubbles,
    unnatural_colour,
    spurting,
    off_odour,
    mould,
    hissing,
    other
};
constexpr auto enum_names(Sign) {
    using W = EnumName<Sign>;
    return std::array{W{Sign::swollen_lid, "swollen_lid"},
                      W{Sign::unsealed_lid, "unsealed_lid"},
                      W{Sign::leaking, "leaking"},
                      W{Sign::dried_streaks, "dried_streaks"},
                      W{Sign::rising_bubbles, "rising_bubbles"},
                      W{Sign::unnatural_colour, "unnatural_colour"},
                      W{Sign::spurting, "spurting"},
                      W{Sign::off_odour, "off_odour"},
                      W{Sign::mould, "mould"},
                      W{Sign::hissing, "hissing"},
                      W{Sign::other, "other"}};
}

/// store.inspect
struct StoreInspect {
    static constexpr About about{
        "store.inspect", Access::keep, Effect::writes,
        "Logs that stored jars of a lot were looked at; suspect ones are discarded."};
    struct Params {
        LotCode lot;
        std::int64_t discard = 0;
        std::vector<Sign> signs;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot of jars.").positional(),
                field<&Params::discard>("Jars thrown out.").defaulted().between(0, 1000),
                field<&Params::signs>("What was seen on them.").defaulted().length(0, 20),
                field<&Params::note>("A note; needed with the sign `other`.").length(1, 400)};
        }
    };
    struct Result {
        LotCode lot;
        std::int64_t discarded = 0;
        std::optional<Date> look_again;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::lot>("The lot."), field<&Result::discarded>("Jars thrown out."),
                field<&Result::look_again>("When to look again; absent when none are left."),
                field<&Result::cautions>("The cautions of storing and throwing out.")};
        }
    };
};

struct StoreReading {
    Instant at;
    brewing::Temperature temperature;
    std::string who;
    static FieldList fields(auto) {
        return {field<&StoreReading::at>("When."),
                          field<&StoreReading::temperature>("The store's temperature."),
                          field<&StoreReading::who>("Who read it.")};
    }
};

/// store.temperature
struct StoreTemperature {
    static constexpr About about{"store.temperature", Access::keep, Effect::writes,
                                 "Logs the temperature of the place where jars are kept."};
    struct Params {
        brewing::Temperature temperature;
        std::optional<Instant> at;
        static FieldList fields(auto) {
            return {field<&Params::temperature>("The temperature.")
                                  .positional()
                                  .between(-40, 60)
                                  .like("16 C"),
                              field<&Params::at>("When it was read; now if left out.")};
        }
    };
    struct Result {
        StoreReading reading;
        std::vector<std::string> warnings;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::reading>("What was logged."),
                              field<&Result::warnings>("What it means for the jars."),
                              field<&Result::cautions>("The cautions of storing.")};
        }
    };
};

/// store.show
struct StoreShow {
    static constexpr About about{
        "store.show", Access::look, Effect::reads,
        "Shows the store: temperatures logged and jars that are past best by or on hold."};
    using Params = Nothing;
    struct Result {
        std::vector<StoreReading> temperatures;
        std::vector<contract::Lot> lots;
        std::vector<std::string> concerns;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::temperatures>("The last readings, newest first, at most 100."),
                field<&Result::lots>("Lots of jars that are not empty."),
                field<&Result::concerns>("What to see to."),
                field<&Result::cautions>("The cautions of storing.")};
        }
    };
};

/// One step of the checklist before a jar is opened.
struct CheckStep {
    std::int64_t step = 0;
    std::string what;
    static FieldList fields(auto) {
        return {field<&CheckStep::step>("Its number."),
                          field<&CheckStep::what>("What to do.")};
    }
};

/// opening.show
struct OpeningShow {
    static constexpr About about{"opening.show", Access::look, Effect::reads,
                                 "Gives the checklist to go through before a jar is opened."};
    struct Params {
        LotCode lot;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot of jars.").positional()};
        }
    };
    struct Result {
        contract::Lot lot;
        std::vector<std::string> stops;
        std::vector<CheckStep> checklist;
        std::optional<std::string> boil_before_use;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::lot>("The lot."),
                field<&Result::stops>("Why its jars should not be opened at all."),
                field<&Result::checklist>("What to do, in order."),
                field<&Result::boil_before_use>(
                    "The published caution's boiling time at this altitude for low-acid jars "
                    "without a tested process; absent while the altitude is not known."),
                field<&Result::cautions>("The cautions of opening.")};
        }
    };
};

/// opening.record
struct OpeningRecord {
    static constexpr About about{
        "opening.record", Access::keep, Effect::writes,
        "Records jars opened, with the checks made: used if all is well, discarded at any sign."};
    struct Params {
        LotCode lot;
        std::int64_t jars = 1;
        bool looked = false;
        bool listened = false;
        bool smelled = false;
        std::vector<Sign> signs;
        std::optional<std::int64_t> brew;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {
                field<&Params::lot>("The lot of jars.").positional(),
                field<&Params::jars>("How many.").positional().defaulted().between(1, 1000),
                field<&Params::looked>("Looked at lid, jar and liquid.").defaulted(),
                field<&Params::listened>("Listened while opening.").defaulted(),
                field<&Params::smelled>("Smelled, and never tasted.").defaulted(),
                field<&Params::signs>("What was found.").defaulted().length(0, 20),
                field<&Params::brew>("The brew day it is for.").at_least(1),
                field<&Params::note>("A note; needed with the sign `other`.").length(1, 400)};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        bool used = false;
        std::string what_now;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::entry>("Number of the journal entry."),
                              field<&Result::used>("Used, or else discarded."),
                              field<&Result::what_now>("What to do with it now."),
                              field<&Result::cautions>("The cautions of opening.")};
        }
    };
};

} // namespace barmkeep::canning
