// A run as it is kept: what it was begun with, and its log.  Everything else (the phase, the
// clocks, the warnings) is computed from these two, so a restart of the daemon loses nothing.
#pragma once

#include "plugins/canning/plan_messages.hpp"
#include "plugins/canning/process_messages.hpp"

namespace barmkeep::canning {

enum class Turn { steam_flows, weight_on, heat_off, heat_on, forced_cooling, opened };
constexpr auto enum_names(Turn) {
    using W = EnumName<Turn>;
    return std::array{W{Turn::steam_flows, "steam_flows"},
                      W{Turn::weight_on, "weight_on"},
                      W{Turn::heat_off, "heat_off"},
                      W{Turn::heat_on, "heat_on"},
                      W{Turn::forced_cooling, "forced_cooling"},
                      W{Turn::opened, "opened"}};
}

/// What a line of the log tells.
enum class Told {
    turn,
    reading,
    interrupted,
    sealed,
    measured,
    held,
    released,
    inspected,
    abandoned
};
constexpr auto enum_names(Told) {
    using W = EnumName<Told>;
    return std::array{W{Told::turn, "turn"},
                      W{Told::reading, "reading"},
                      W{Told::interrupted, "interrupted"},
                      W{Told::sealed, "sealed"},
                      W{Told::measured, "measured"},
                      W{Told::held, "held"},
                      W{Told::released, "released"},
                      W{Told::inspected, "inspected"},
                      W{Told::abandoned, "abandoned"}};
}

/// One line of the log.  Readings that come close together from one sender, on the same side of
/// the target, share a line with their first and last instant and their lowest and highest value.
struct LogLine {
    Instant at;
    Told told = Told::turn;
    std::optional<Turn> turn;
    std::optional<brewing::GaugePressure> lowest;
    std::optional<brewing::GaugePressure> highest;
    std::optional<std::int64_t> count;
    std::optional<Instant> until;
    std::string who;
    std::optional<std::string> note;

    [[nodiscard]] Instant end() const { return until.value_or(at); }
    static FieldList fields(auto) {
        return {
            field<&LogLine::at>("When."),
            field<&LogLine::told>("What it tells."),
            field<&LogLine::turn>("The turn of the run."),
            field<&LogLine::lowest>("What the gauge showed; the lowest of several readings."),
            field<&LogLine::highest>("The highest of several readings."),
            field<&LogLine::count>("How many readings."),
            field<&LogLine::until>("The last of several readings; the end of an interruption."),
            field<&LogLine::who>("Who logged it."),
            field<&LogLine::note>("A note.")};
    }
};

/// Jars by the result of their seal test.
struct SealCounts {
    std::int64_t held = 0;
    std::int64_t failed = 0;
    std::int64_t lost_liquid = 0;
    std::int64_t broken = 0;
    [[nodiscard]] std::int64_t all() const { return held + failed + lost_liquid + broken; }
    static FieldList fields(auto) {
        return {field<&SealCounts::held>("Jars whose seal held."),
                          field<&SealCounts::failed>("Jars whose seal failed."),
                          field<&SealCounts::lost_liquid>("Sealed jars that lost liquid."),
                          field<&SealCounts::broken>("Jars that broke.")};
    }
};

/// Where jars go whose seal failed.
enum class FailedTo { refrigerator, reprocess, discard };
constexpr auto enum_names(FailedTo) {
    using W = EnumName<FailedTo>;
    return std::array{W{FailedTo::refrigerator, "refrigerator"},
                      W{FailedTo::reprocess, "reprocess"}, W{FailedTo::discard, "discard"}};
}

/// What goes into the one conversion, apart from the extract of the card.
struct Used {
    std::string good;
    Amount amount;
    static FieldList fields(auto) {
        return {field<&Used::good>("The good."), field<&Used::amount>("How much.")};
    }
};

struct RunDocument {
    std::int64_t run = 0;
    Instant started;
    std::string started_by;
    std::string session; ///< the plugin's own start in which the last line was logged
    Process process;
    AtAltitude at_altitude;
    std::string canner;
    std::optional<brewing::GaugePressure> gauge_error;
    brewing::GaugePressure target; ///< what the gauge must show
    std::string good;              ///< of the jars that come out
    std::int64_t jars = 0;
    std::optional<JarContent> each;
    contract::Facts facts; ///< of one jar, as planned
    std::vector<CardLine> card;
    CardTotal total;
    std::vector<Taken> lots;
    std::vector<Used> used;
    std::optional<LotCode> again; ///< the lot of unsealed jars that is processed a second time
    std::optional<Date> canned;   ///< local day on which the heat went off
    std::optional<SealCounts> seals;
    std::optional<std::int64_t> conversion; ///< absent in what the first version kept
    std::optional<FailedTo> failed_to;
    std::optional<Date> best_by;
    bool abandoned = false;
    std::vector<LogLine> log;
    static FieldList fields(auto) {
        return {
            field<&RunDocument::run>("Its number."),
            field<&RunDocument::started>("When it began."),
            field<&RunDocument::started_by>("Who began it."),
            field<&RunDocument::session>("The plugin's start in which it was last changed."),
            field<&RunDocument::process>("The brewer's process."),
            field<&RunDocument::at_altitude>("What is known of its pressure."),
            field<&RunDocument::canner>("The canner."),
            field<&RunDocument::gauge_error>("What the dial reads above the true pressure."),
            field<&RunDocument::target>("What the gauge must show."),
            field<&RunDocument::good>("The good that the jars are."),
            field<&RunDocument::jars>("Jars in the load."),
            field<&RunDocument::each>("What one jar holds and makes."),
            field<&RunDocument::facts>("Facts of one jar, as planned."),
            field<&RunDocument::card>("The weighing card."),
            field<&RunDocument::total>("All that is on the card."),
            field<&RunDocument::lots>("Extract by lot."),
            field<&RunDocument::used>("Lids and nutrient."),
            field<&RunDocument::again>("The lot of unsealed jars processed again."),
            field<&RunDocument::canned>("The day of the process."),
            field<&RunDocument::seals>("Jars by seal."),
            field<&RunDocument::conversion>("The journal entry that made its jars."),
            field<&RunDocument::failed_to>("Where unsealed jars went."),
            field<&RunDocument::best_by>("Best by."),
            field<&RunDocument::abandoned>("Whether it was given up."),
            field<&RunDocument::log>("The log.")};
    }
};

} // namespace barmkeep::canning
