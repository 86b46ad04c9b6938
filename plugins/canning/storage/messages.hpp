// Messages of stored jars: inspected, kept at a temperature, opened.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

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

/// storage.inspect
struct StorageInspect {
    static constexpr About about{
        "storage.inspect", Access::keep, Effect::writes,
        "Logs that stored jars of a lot were looked at.  Jars with a sign of spoilage are thrown "
        "out, and the rest of their run is put on hold."};
    struct Params {
        LotCode lot;
        std::int64_t discard = 0;
        std::vector<Sign> signs;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::lot>("The lot of jars.").positional(),
                    field<&Params::discard>("Jars thrown out.").defaulted().between(0, 1000),
                    field<&Params::signs>("What was seen on them.").defaulted().length(0, 20),
                    field<&Params::note>("A note; needed with the sign `other`.").length(1, 400)};
        }
    };
    struct Result {
        LotCode lot;
        std::int64_t discarded = 0;
        std::vector<LotCode> held;
        std::optional<Date> look_again;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::lot>("The lot."), field<&Result::discarded>("Jars thrown out."),
                    field<&Result::held>("Lots of the run that are on hold for it now."),
                    field<&Result::look_again>("When to look again; absent when none are left."),
                    field<&Result::cautions>("The cautions of storing and throwing out.")};
        }
    };
};

struct StorageReading {
    Instant at;
    brewing::Temperature temperature;
    std::string who;
    static FieldList fields(auto) {
        return {field<&StorageReading::at>("When."),
                field<&StorageReading::temperature>("The temperature of the storage place."),
                field<&StorageReading::who>("Who read it.")};
    }
};

/// storage.temperature
struct StorageTemperature {
    static constexpr About about{"storage.temperature", Access::keep, Effect::writes,
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
        StorageReading reading;
        std::vector<std::string> warnings;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::reading>("What was logged."),
                    field<&Result::warnings>("What it means for the jars."),
                    field<&Result::cautions>("The cautions of storing.")};
        }
    };
};

/// storage.show
struct StorageShow {
    static constexpr About about{
        "storage.show", Access::look, Effect::reads,
        "Shows the storage place: temperatures logged and jars that are past best by or on hold."};
    using Params = Nothing;
    struct Result {
        std::vector<StorageReading> temperatures;
        std::vector<contract::Lot> lots;
        std::vector<std::string> concerns;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::temperatures>("The last readings, newest first, at most 100."),
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
        return {field<&CheckStep::step>("Its number."), field<&CheckStep::what>("What to do.")};
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
        std::vector<std::string> notes;
        std::vector<CheckStep> checklist;
        std::optional<std::string> boil_before_use;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::lot>("The lot."),
                    field<&Result::stops>("Why its jars must not be opened for use."),
                    field<&Result::notes>("What must be said of them: holds that were released and "
                                          "why, the time of their process."),
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
        bool boiled = false;
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
                field<&Params::boiled>("Confirms that a jar from the refrigerator or freezer, "
                                       "which may not stand on the shelf, is boiled before use.")
                    .defaulted(),
                field<&Params::signs>("What was found.").defaulted().length(0, 20),
                field<&Params::brew>("The brew day it is for.").at_least(1),
                field<&Params::note>("A note; needed with the sign `other`.").length(1, 400)};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        bool used = false;
        std::vector<contract::UsedDespite> despite;
        std::vector<LotCode> held;
        std::string what_now;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::entry>("Number of the journal entry."),
                    field<&Result::used>("Used, or else discarded."),
                    field<&Result::despite>("Holds that were released before, and why."),
                    field<&Result::held>("Lots of the run that are on hold for it now."),
                    field<&Result::what_now>("What to do with it now."),
                    field<&Result::cautions>("The cautions of opening.")};
        }
    };
};

} // namespace barmkeep::canning
