// Messages of the guided run: start, steps, readings, and what is shown of it.
#pragma once

#include "plugins/canning/run/document.hpp"
#include "sdk/contract/hold.hpp"
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
        return {field<&PhaseClock::phase>("The phase."), field<&PhaseClock::from>("When it began."),
                field<&PhaseClock::until>("When it ended."),
                field<&PhaseClock::lasted>("How long it lasted, or has so far.")};
    }
};

/// Something that went otherwise than the guidance.
struct Warning {
    Instant at;
    std::string key;
    std::string text;
    std::optional<contract::HoldKind> holds;
    static FieldList fields(auto) {
        return {field<&Warning::at>("When."), field<&Warning::key>("A stable word for it."),
                field<&Warning::text>("What happened."),
                field<&Warning::holds>(
                    "What the jars will be held for; left out if they will not, or no longer.")};
    }
};

/// A stretch in which the daemon was down.
struct Gap {
    Instant from;
    Instant until;
    Seconds lasted{};
    static FieldList fields(auto) {
        return {field<&Gap::from>("The last line logged before."),
                field<&Gap::until>("When the daemon was back."), field<&Gap::lasted>("How long.")};
    }
};

/// A mistake, said while something can still be done about it.
struct Wrong {
    std::string text;
    std::string what_now;
    static FieldList fields(auto) {
        return {field<&Wrong::text>("What is wrong."), field<&Wrong::what_now>("What to do now.")};
    }
};

/// Where a run is: of the same size however long its log is.
struct RunNow {
    std::optional<Wrong> wrong;
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Instant at;
    Seconds elapsed{};
    std::optional<Seconds> wanted;
    std::optional<Seconds> remaining;
    std::string countdown;
    std::string next_step;
    brewing::GaugePressure target;
    std::optional<brewing::GaugePressure> last_reading;
    std::optional<Instant> reading_due_by;
    std::int64_t restarts = 0;
    std::vector<Warning> warnings;
    bool log_complete = false;
    std::int64_t line = 0;
    std::optional<std::string> process_caution;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&RunNow::wrong>("What is wrong and what to do now; left out if nothing is."),
                field<&RunNow::run>("The run's number."),
                field<&RunNow::phase>("Where it is."),
                field<&RunNow::at>("The instant this was computed for."),
                field<&RunNow::elapsed>("Time in this phase; at pressure, without a drop."),
                field<&RunNow::wanted>("What this phase is to last at least."),
                field<&RunNow::remaining>("What is left of that."),
                field<&RunNow::countdown>("The clock as a line of text."),
                field<&RunNow::next_step>("What to do next."),
                field<&RunNow::target>("What the gauge must show."),
                field<&RunNow::last_reading>("What it showed last."),
                field<&RunNow::reading_due_by>("By when the next reading of the gauge is due."),
                field<&RunNow::restarts>("How often the time began again."),
                field<&RunNow::warnings>("What is new, and what the jars will be held for."),
                field<&RunNow::log_complete>("Whether nothing so far would put the jars on hold."),
                field<&RunNow::line>("The number of the log's last line, for run.strike."),
                field<&RunNow::process_caution>("What must be said of the process's time."),
                field<&RunNow::cautions>("The cautions of canning.")};
    }
};

/// All that is known of a run but its log.  `warnings` are all there were.
struct RunShown : RunNow {
    Process process;
    AtAltitude at_altitude;
    std::optional<brewing::GaugePressure> gauge_error;
    std::string canner;
    std::string jar;
    std::int64_t jars = 0;
    std::vector<PhaseClock> clocks;
    std::vector<Gap> gaps;
    std::vector<CardLine> card;
    CardTotal total;
    std::optional<SealCounts> seals;
    static FieldList fields(auto) {
        return joined(
            RunNow::fields(0),
            {field<&RunShown::process>("The brewer's process."),
             field<&RunShown::at_altitude>("Altitude, published band and steam temperature."),
             field<&RunShown::gauge_error>("What the dial reads above the true pressure."),
             field<&RunShown::canner>("The canner."), field<&RunShown::jar>("The jar size."),
             field<&RunShown::jars>("Jars in the load."),
             field<&RunShown::clocks>("The phases and their clocks."),
             field<&RunShown::gaps>("Stretches in which the daemon was down."),
             field<&RunShown::card>("The weighing card."),
             field<&RunShown::total>("All that is on the card."),
             field<&RunShown::seals>("Jars by seal.")});
    }
};

/// Names one run.
struct RunNumber {
    std::int64_t run = 0;
    static FieldList fields(auto) {
        return {field<&RunNumber::run>("The run.").positional().at_least(1)};
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
        static FieldList fields(auto) {
            return joined(
                Wanted::fields(0),
                {field<&Params::process>("Name of the brewer's process.").length(1, 60),
                 field<&Params::good>("The good that the jars are; the only concentrate if left "
                                      "out.")
                     .length(1, 60)});
        }
    };
    using Result = RunShown;
};

/// run.log
struct RunLog {
    static constexpr About about{
        "run.log",
        Access::keep,
        Effect::writes,
        "Logs a step of the run.  What goes wrong is logged all the same, and the answer begins "
        "with what to do about it.",
        false,
        Lane::log};
    struct Params {
        std::int64_t run = 0;
        Step step = Step::steam_flows;
        std::optional<Instant> at;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::step>("What happened.").positional(),
                    field<&Params::at>("When; now if left out."),
                    field<&Params::note>("A note.").length(1, 400)};
        }
    };
    using Result = RunNow;
};

/// run.gauge
struct RunGauge {
    static constexpr About about{
        "run.gauge",
        Access::keep,
        Effect::writes,
        "Logs what the gauge shows, sent by a person or a gauge reader.  Below the target the "
        "time begins again.",
        false,
        Lane::log};
    struct Params {
        std::int64_t run = 0;
        std::optional<brewing::GaugePressure> shows;
        std::optional<bool> rocking;
        std::optional<Instant> at;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::shows>("What the gauge shows.")
                        .positional()
                        .between(0, 350)
                        .like("12 psi"),
                    field<&Params::rocking>(
                        "For a weighted gauge: whether the weight rocks as its maker says."),
                    field<&Params::at>("When it was read; now if left out.")};
        }
    };
    using Result = RunNow;
};

/// run.strike
struct RunStrike {
    static constexpr About about{"run.strike",
                                 Access::keep,
                                 Effect::writes,
                                 "Strikes out a mistyped step or reading by a later line; the line "
                                 "itself stays in the log.  "
                                 "Not after the first seal test; a strike cannot be struck out.",
                                 false,
                                 Lane::log};
    struct Params {
        std::int64_t run = 0;
        std::int64_t line = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::line>("The number of the line, as run.show prints it.")
                        .positional()
                        .at_least(1),
                    field<&Params::reason>("What was wrong with it.").length(1, 400)};
        }
    };
    using Result = RunNow;
};

/// A line of the log as it is shown.
struct LogLineShown : LogLine {
    std::int64_t number = 0;
    bool struck = false;
    static FieldList fields(auto) {
        return joined({field<&LogLineShown::number>("Its number."),
                       field<&LogLineShown::struck>("Whether a later line strikes it out.")},
                      LogLine::fields(0));
    }
};

/// run.show
struct RunShow {
    static constexpr About about{"run.show", Access::look, Effect::reads,
                                 "Shows a run: phase, countdown, what to do next, the log."};
    using Params = RunNumber;
    struct Result : RunShown {
        std::vector<LogLineShown> log;
        static FieldList fields(auto) {
            return joined(RunShown::fields(0), {field<&Result::log>("The log.")});
        }
    };
};

/// run.status
struct RunStatus {
    static constexpr About about{
        "run.status", Access::look, Effect::reads,
        "Shows where a run is, in short.  Answers at once: ask as often as the countdown is to be "
        "seen."};
    using Params = RunNumber;
    using Result = RunNow;
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
            return joined(FieldList{field<&Params::all>("Also runs that have ended.").defaulted()},
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
            return {field<&Params::run>("The run.").positional().at_least(1),
                    field<&Params::reason>("Why.").positional().length(1, 400),
                    field<&Params::thrown_out>("Whether what was weighed in is gone.").defaulted()};
        }
    };
    using Result = RunNow;
};

} // namespace barmkeep::canning
