// Messages of the guided run: start, turns, readings, and what is shown of it.
#pragma once

#include "plugins/canning/run_document.hpp"
#include "sdk/contract/listing.hpp"

namespace barmkeep::canning {

enum class Phase {
    filling,
    venting,
    pressurising,
    at_pressure,
    cooling,
    seal_test,
    shelved,
    abandoned
};
constexpr auto enum_names(Phase) {
    using W = EnumName<Phase>;
    return std::array{W{Phase::filling, "filling"},           W{Phase::venting, "venting"},
                      W{Phase::pressurising, "pressurising"}, W{Phase::at_pressure, "at_pressure"},
                      W{Phase::cooling, "cooling"},           W{Phase::seal_test, "seal_test"},
                      W{Phase::shelved, "shelved"},           W{Phase::abandoned, "abandoned"}};
}

/// Whether a run in that phase is over: its stock is taken, or free again.
[[nodiscard]] constexpr bool has_ended(Phase phase) noexcept {
    return phase == Phase::shelved || phase == Phase::abandoned;
}

/// How long a phase lasted.
struct PhaseClock {
    Phase phase = Phase::filling;
    Instant from;
    std::optional<Instant> until;
    Seconds lasted{};
    static FieldList fields(auto) {
        return {field<&PhaseClock::phase>("The phase."),
                          field<&PhaseClock::from>("When it began."),
                          field<&PhaseClock::until>("When it ended."),
                          field<&PhaseClock::lasted>("How long it lasted, or has so far.")};
    }
};

/// Something that went otherwise than the guidance.
struct Warning {
    Instant at;
    std::string key;
    std::string text;
    bool holds = false;
    static FieldList fields(auto) {
        return {
            field<&Warning::at>("When."), field<&Warning::key>("A stable word for it."),
            field<&Warning::text>("What happened."),
            field<&Warning::holds>("Whether it makes the log incomplete, so that jars are held.")};
    }
};

/// A stretch in which the daemon was down.
struct Gap {
    Instant from;
    Instant until;
    Seconds lasted{};
    static FieldList fields(auto) {
        return {field<&Gap::from>("The last line logged before."),
                          field<&Gap::until>("When the daemon was back."),
                          field<&Gap::lasted>("How long.")};
    }
};

struct RunShown {
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Instant at;
    Seconds elapsed{};
    std::optional<Seconds> wanted;
    std::optional<Seconds> remaining;
    std::string countdown;
    std::string next_step;
    Process process;
    AtAltitude at_altitude;
    std::optional<brewing::GaugePressure> gauge_error;
    brewing::GaugePressure target;
    std::optional<brewing::GaugePressure> last_reading;
    std::string canner;
    std::string jar;
    std::int64_t jars = 0;
    std::int64_t restarts = 0;
    std::vector<PhaseClock> clocks;
    std::vector<Warning> warnings;
    std::vector<Gap> gaps;
    bool log_complete = false;
    std::vector<CardLine> card;
    CardTotal total;
    std::optional<SealCounts> seals;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {
            field<&RunShown::run>("The run's number."),
            field<&RunShown::phase>("Where it is."),
            field<&RunShown::at>("The instant this was computed for."),
            field<&RunShown::elapsed>("Time in this phase; at pressure, without a drop."),
            field<&RunShown::wanted>("What this phase is to last at least."),
            field<&RunShown::remaining>("What is left of that."),
            field<&RunShown::countdown>("The clock as a line of text."),
            field<&RunShown::next_step>("What to do next."),
            field<&RunShown::process>("The brewer's process."),
            field<&RunShown::at_altitude>("Altitude, published band and steam temperature."),
            field<&RunShown::gauge_error>("What the dial reads above the true pressure."),
            field<&RunShown::target>("What the gauge must show."),
            field<&RunShown::last_reading>("What it showed last."),
            field<&RunShown::canner>("The canner."),
            field<&RunShown::jar>("The jar size."),
            field<&RunShown::jars>("Jars in the load."),
            field<&RunShown::restarts>("How often the clock began again after a drop."),
            field<&RunShown::clocks>("The phases and their clocks."),
            field<&RunShown::warnings>("What went otherwise than the guidance."),
            field<&RunShown::gaps>("Stretches in which the daemon was down."),
            field<&RunShown::log_complete>(
                "Whether the log, so far, has all that keeps jars off hold."),
            field<&RunShown::card>("The weighing card."),
            field<&RunShown::total>("All that is on the card."),
            field<&RunShown::seals>("Jars by seal."),
            field<&RunShown::cautions>("The cautions of canning.")};
    }
};

/// run.start
struct RunStart {
    static constexpr About about{
        "run.start", Access::keep, Effect::writes,
        "Begins a run: checks canner, gauge, altitude, process and stock, and gives the card."};
    struct Params : Wanted {
        std::string process;
        std::optional<std::string> good;
        std::optional<LotCode> again;
        static FieldList fields(auto) {
            return joined(
                Wanted::fields(0),
                FieldList{
                    field<&Params::process>("Name of the brewer's process.").length(1, 60),
                    field<&Params::good>(
                        "The good that the jars are; the only concentrate if left out.")
                        .length(1, 60),
                    field<&Params::again>("The lot of unsealed jars to process again, within 24 "
                                          "hours and with new lids.")});
        }
    };
    using Result = RunShown;
};

/// run.turn
struct RunTurn {
    static constexpr About about{
        "run.turn", Access::keep, Effect::writes,
        "Logs a turn of the run: steam_flows, weight_on, heat_off, heat_on, forced_cooling, "
        "opened.  What is against the guidance is warned of and logged all the same.",
        false, Lane::log};
    struct Params {
        std::int64_t run = 0;
        Turn turn = Turn::steam_flows;
        std::optional<Instant> at;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1),
                              field<&Params::turn>("What happened.").positional(),
                              field<&Params::at>("When; now if left out."),
                              field<&Params::note>("A note.").length(1, 400)};
        }
    };
    using Result = RunShown;
};

/// run.reading
struct RunReading {
    static constexpr About about{
        "run.reading", Access::keep, Effect::writes,
        "Logs what the gauge shows, sent by a person or a gauge reader.  Below the target the "
        "clock begins again.",
        false, Lane::log};
    struct Params {
        std::int64_t run = 0;
        std::optional<brewing::GaugePressure> shows;
        std::optional<bool> rocking;
        std::optional<Instant> at;
        static FieldList fields(auto) {
            return {
                field<&Params::run>("The run.").positional().at_least(1),
                field<&Params::shows>("What the gauge shows.")
                    .positional()
                    .between(0, 350)
                    .like("12 psi"),
                field<&Params::rocking>(
                    "For a weighted gauge: whether the weight rocks as its maker says."),
                field<&Params::at>("When it was read; now if left out.")};
        }
    };
    using Result = RunShown;
};

/// run.show
struct RunShow {
    static constexpr About about{"run.show", Access::look, Effect::reads,
                                 "Shows a run: phase, countdown, what to do next, the log."};
    struct Params {
        std::int64_t run = 0;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1)};
        }
    };
    struct Result : RunShown {
        std::vector<LogLine> log;
        static FieldList fields(auto) {
            return joined(RunShown::fields(0), FieldList{field<&Result::log>("The log.")});
        }
    };
};

/// One line of the list of runs.
struct RunRow {
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Instant started;
    std::string jar;
    std::int64_t jars = 0;
    std::string countdown;
    static FieldList fields(auto) {
        return {field<&RunRow::run>("Its number."),
                          field<&RunRow::phase>("Where it is."),
                          field<&RunRow::started>("When it began."),
                          field<&RunRow::jar>("The jar size."),
                          field<&RunRow::jars>("Jars."),
                          field<&RunRow::countdown>("Its clock.")};
    }
};

/// run.list
struct RunList {
    static constexpr About about{
        "run.list", Access::look, Effect::reads,
        "Lists canning runs under way, newest first; with `all` also those that have ended."};
    struct Params : contract::Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::all>("Also runs that have ended.").defaulted()},
                Page::fields(0));
        }
    };
    struct Result : contract::NextPage {
        std::vector<RunRow> runs;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::runs>("The runs.")}, NextPage::fields(0),
                                  FieldList{field<&Result::cautions>("The cautions of canning.")});
        }
    };
};

/// run.abandon
struct RunAbandon {
    static constexpr About about{
        "run.abandon", Access::keep, Effect::writes,
        "Gives a run up before its jars are shelved.  With `thrown_out` what was weighed in is "
        "taken from stock."};
    struct Params {
        std::int64_t run = 0;
        std::string reason;
        bool thrown_out = false;
        static FieldList fields(auto) {
            return {
                field<&Params::run>("The run.").positional().at_least(1),
                field<&Params::reason>("Why.").positional().length(1, 400),
                field<&Params::thrown_out>("Whether what was weighed in is gone.").defaulted()};
        }
    };
    using Result = RunShown;
};

} // namespace barmkeep::canning
