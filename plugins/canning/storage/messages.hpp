// Messages about stored jars: inspections, storage temperatures, opening.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/stock.hpp"

namespace barmkeep::canning {

/// A sign of spoilage: a jar that shows one is thrown out.
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
        "Logs an inspection of the jars of a lot. Jars with a sign of spoilage are thrown out, and "
        "the other jars of their run go on hold."};
    struct Params {
        LotCode lot;
        std::int64_t discard = 0;
        std::vector<Sign> signs;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::lot>("Code of the jar lot.").positional(),
                    field<&Params::discard>("Number of jars to throw out. None if left out.")
                        .defaulted()
                        .between(0, 1000),
                    field<&Params::signs>(
                        "Signs of spoilage on the jars that you throw out. None if left out.")
                        .defaulted()
                        .length(0, 20),
                    field<&Params::note>(
                        "Your own note. None if left out, but the sign other needs one.")
                        .length(1, 400)};
        }
    };
    struct Result {
        LotCode lot;
        std::int64_t discarded = 0;
        std::vector<LotCode> held;
        std::optional<Date> look_again;
        std::vector<std::string> notes;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::lot>("Code of the lot."),
                field<&Result::discarded>("Number of jars thrown out."),
                field<&Result::held>("Codes of the run's lots that are now on hold for it."),
                field<&Result::look_again>(
                    "Day of the next inspection. Left out if no jars are left."),
                field<&Result::notes>("What you must know about the lot, such as a short process."),
                field<&Result::cautions>("The cautions of storing jars and of throwing them out.")};
        }
    };
};

struct StorageReading {
    Instant at;
    brewing::Temperature temperature;
    std::string who;
    static FieldList fields(auto) {
        return {field<&StorageReading::at>("When it was read."),
                field<&StorageReading::temperature>("Temperature in the storage."),
                field<&StorageReading::who>("Who read it.")};
    }
};

/// storage.temperature
struct StorageTemperature {
    static constexpr About about{"storage.temperature", Access::keep, Effect::writes,
                                 "Logs the temperature in the storage."};
    struct Params {
        brewing::Temperature temperature;
        std::optional<Instant> at;
        static FieldList fields(auto) {
            return {field<&Params::temperature>("Temperature in the storage.")
                        .positional()
                        .between(-40, 60)
                        .like("16 C"),
                    field<&Params::at>("When it was read. Now if left out.")};
        }
    };
    struct Result {
        StorageReading reading;
        std::vector<std::string> warnings;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::reading>("The reading that was logged."),
                    field<&Result::warnings>(
                        "What the temperature means for the jars. Empty if it is fine."),
                    field<&Result::cautions>("The cautions of storing jars.")};
        }
    };
};

/// storage.show
struct StorageShow {
    static constexpr About about{
        "storage.show", Access::look, Effect::reads,
        "Shows the storage: its temperatures, the jar lots in it, and what needs your attention."};
    using Params = Nothing;
    struct Result {
        std::vector<StorageReading> temperatures;
        std::vector<contract::Lot> lots;
        std::vector<std::string> warnings;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::temperatures>("The last readings, newest first, at most 100."),
                    field<&Result::lots>("All jar lots with jars left."),
                    field<&Result::warnings>(
                        "What needs your attention: the temperature, and jars that are on hold, "
                        "past their best by or of a short process."),
                    field<&Result::cautions>("The cautions of storing jars.")};
        }
    };
};

/// One step of the checklist before a jar is opened.
struct CheckStep {
    std::int64_t step = 0;
    std::string what;
    static FieldList fields(auto) {
        return {field<&CheckStep::step>("Number of the step."),
                field<&CheckStep::what>("What to do.")};
    }
};

/// opening.show
struct OpeningShow {
    static constexpr About about{"opening.show", Access::look, Effect::reads,
                                 "Shows the checklist to follow before you open a jar."};
    struct Params {
        LotCode lot;
        static FieldList fields(auto) {
            return {field<&Params::lot>("Code of the jar lot.").positional()};
        }
    };
    struct Result {
        contract::Lot lot;
        std::vector<std::string> stops;
        std::vector<std::string> notes;
        std::vector<CheckStep> checklist;
        std::optional<std::string> boil_before_use;
        std::optional<Seconds> boil_for;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::lot>("The lot."),
                    field<&Result::stops>("Why you must not open these jars for use. Empty if "
                                          "nothing speaks against it."),
                    field<&Result::notes>("What you must know about the lot: holds that were "
                                          "released and why, a short process, jars kept cold."),
                    field<&Result::checklist>("What to do, in this order."),
                    field<&Result::boil_before_use>(
                        "Published boiling time at the cellar's altitude, as an extra for jars "
                        "without any sign of a fault. Left out if the altitude is not known."),
                    field<&Result::boil_for>(
                        "The same time alone. Left out if the altitude is not known."),
                    field<&Result::cautions>("The cautions of opening a jar.")};
        }
    };
};

/// opening.record
struct OpeningRecord {
    static constexpr About about{
        "opening.record", Access::keep, Effect::writes,
        "Records jars that you opened. They are used if you made every check and found no sign, "
        "and thrown out at any sign."};
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
                field<&Params::lot>("Code of the jar lot.").positional(),
                field<&Params::jars>("Number of jars that you opened. One if left out.")
                    .positional()
                    .defaulted()
                    .between(1, 1000),
                field<&Params::looked>(
                    "Confirms that you looked at lid, jar and liquid. Not confirmed if left out.")
                    .defaulted(),
                field<&Params::listened>(
                    "Confirms that you listened while opening. Not confirmed if left out.")
                    .defaulted(),
                field<&Params::smelled>("Confirms that you smelled the wort and did not taste it. "
                                        "Not confirmed if left out.")
                    .defaulted(),
                field<&Params::boiled>("Confirms that you boil a jar from refrigerator or freezer "
                                       "before use. Not confirmed if left out.")
                    .defaulted(),
                field<&Params::signs>("Signs of spoilage that you found. None if left out.")
                    .defaulted()
                    .length(0, 20),
                field<&Params::brew>(
                    "Number of the brew day that the jars are for. None if left out.")
                    .at_least(1),
                field<&Params::note>(
                    "Your own note. None if left out, but the sign other needs one.")
                    .length(1, 400)};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        bool used = false;
        std::vector<contract::UsedDespite> despite;
        std::vector<LotCode> held;
        std::string what_now;
        std::vector<std::string> notes;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {
                field<&Result::entry>("Number of the journal entry."),
                field<&Result::used>("Whether the jars were used. If not, they were thrown out."),
                field<&Result::despite>("Holds that were released before, and why."),
                field<&Result::held>("Codes of the run's lots that are now on hold for it."),
                field<&Result::what_now>("What to do with the jars now."),
                field<&Result::notes>("What you must know about the lot, such as a short process."),
                field<&Result::cautions>("The cautions of opening a jar.")};
        }
    };
};

} // namespace barmkeep::canning
