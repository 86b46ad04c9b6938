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
        return {field<&PhaseClock::phase>("The phase."),
                field<&PhaseClock::from>("When the phase began."),
                field<&PhaseClock::until>("When it ended. Left out while it lasts."),
                field<&PhaseClock::lasted>("How long it lasted, or has lasted so far.")};
    }
};

/// Something that differs from the guidance.
struct Warning {
    Instant at;
    std::string key;
    std::string text;
    std::optional<contract::HoldKind> holds;
    static FieldList fields(auto) {
        return {field<&Warning::at>("When it happened."),
                field<&Warning::key>("Word for it that programs can rely on."),
                field<&Warning::text>("What happened."),
                field<&Warning::holds>("Kind of hold that the jars get for it. Left out if they "
                                       "get none, or if it was put right.")};
    }
};

/// A stretch in which the daemon was down.
struct Gap {
    Instant from;
    Instant until;
    Seconds lasted{};
    static FieldList fields(auto) {
        return {field<&Gap::from>("Time of the last line before it."),
                field<&Gap::until>("When the daemon ran again."),
                field<&Gap::lasted>("How long it lasted.")};
    }
};

/// A mistake that needs action now.
struct Alarm {
    std::string key;
    std::string text;
    std::string what_now;
    static FieldList fields(auto) {
        return {field<&Alarm::key>("Word for it that programs can rely on."),
                field<&Alarm::text>("What is wrong."), field<&Alarm::what_now>("What to do now.")};
    }
};

/// Where a run is. Its size does not grow with the log.
struct RunSummary {
    std::optional<Alarm> alarm;
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Instant at;
    Seconds elapsed{};
    std::optional<Seconds> required;
    std::optional<Seconds> remaining;
    std::string countdown;
    std::string next_step;
    contract::Gauge gauge = contract::Gauge::dial;
    brewing::GaugePressure target;
    std::optional<brewing::GaugePressure> gauge_error;
    std::optional<brewing::GaugePressure> last_reading;
    std::optional<Instant> reading_due_by;
    std::optional<Instant> heat_off;
    std::optional<Instant> zero_at;
    std::int64_t restarts = 0;
    std::vector<Warning> warnings;
    bool log_complete = false;
    std::int64_t line = 0;
    std::optional<std::int64_t> strike_line;
    std::optional<std::string> process_note;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {
            field<&RunSummary::alarm>("What is wrong, and what to do now. Left out if nothing is."),
            field<&RunSummary::run>("Number of the run."),
            field<&RunSummary::phase>("Phase that the run is in."),
            field<&RunSummary::at>("Time for which this answer holds."),
            field<&RunSummary::elapsed>("Time in this phase. At pressure: since the last drop."),
            field<&RunSummary::required>("Shortest time for this phase. Left out if it has none."),
            field<&RunSummary::remaining>(
                "Time left until then. Left out if the phase has no shortest time."),
            field<&RunSummary::countdown>("The clock in words."),
            field<&RunSummary::next_step>("What to do next."),
            field<&RunSummary::gauge>("Kind of gauge of the canner: dial or weighted."),
            field<&RunSummary::target>("Pressure that the gauge must show."),
            field<&RunSummary::gauge_error>(
                "What the dial reads above the true pressure. Left out if not known."),
            field<&RunSummary::last_reading>(
                "Pressure that the gauge showed last. Left out before the first reading."),
            field<&RunSummary::reading_due_by>(
                "Latest time for the next gauge reading. Left out if none is due."),
            field<&RunSummary::heat_off>("When the heat went off. Left out while it is on."),
            field<&RunSummary::zero_at>(
                "When the gauge showed zero after that. Left out before such a reading."),
            field<&RunSummary::restarts>("How often the time at pressure started again from zero."),
            field<&RunSummary::warnings>("Warnings that the last log line brought, and those for "
                                         "which the jars will be on hold."),
            field<&RunSummary::log_complete>("Whether nothing so far would put the jars on hold."),
            field<&RunSummary::line>("Number of the last line in the log."),
            field<&RunSummary::strike_line>("Number of the last step or reading that you can "
                                            "strike out. Left out if there is none."),
            field<&RunSummary::process_note>("What Barmkeep says about the process of this run. "
                                             "Left out if there is nothing to say."),
            field<&RunSummary::cautions>("The cautions of this phase.")};
    }
};

/// Everything about a run except its log. `warnings` are all there were.
struct RunDetails : RunSummary {
    Process process;
    AtAltitude at_altitude;
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
            RunSummary::fields(0),
            {field<&RunDetails::process>("Your process."),
             field<&RunDetails::at_altitude>(
                 "What is published for the cellar's altitude, and the steam temperature."),
             field<&RunDetails::canner>("Name of the canner."),
             field<&RunDetails::jar>("Name of the jar size."),
             field<&RunDetails::jars>("Number of jars in the load."),
             field<&RunDetails::clocks>("The phases so far, with their times."),
             field<&RunDetails::gaps>("Times in which the daemon was down."),
             field<&RunDetails::card>("Weighing card: what to weigh into which jars."),
             field<&RunDetails::total>("What all jars on the card take together."),
             field<&RunDetails::seals>(
                 "Number of jars by the result of the seal test. Left out before the test.")});
    }
};

/// Names one run.
struct RunNumber {
    std::int64_t run = 0;
    static FieldList fields(auto) {
        return {field<&RunNumber::run>("Number of the run; barm run list shows it.")
                    .positional()
                    .at_least(1)};
    }
};

/// run.start
struct RunStart {
    static constexpr About about{
        "run.start", Access::keep, Effect::writes,
        "Starts a run: checks canner, gauge, altitude, process and stock, and shows the weighing "
        "card."};
    struct Params : LoadRequest {
        std::string process;
        std::optional<std::string> good;
        static FieldList fields(auto) {
            return joined(LoadRequest::fields(0),
                          {field<&Params::process>(
                               "Name of your process, as you recorded it with barm process set.")
                               .length(1, 60),
                           field<&Params::good>("Name of the good that the jars become. The only "
                                                "concentrate you have if left out.")
                               .length(1, 60)});
        }
    };
    using Result = RunDetails;
};

/// run.log
struct RunLog {
    static constexpr About about{
        "run.log",
        Access::keep,
        Effect::writes,
        "Logs a step of the run. It also logs a step that is wrong, and then first shows what to "
        "do now.",
        false,
        Lane::log};
    struct Params {
        std::int64_t run = 0;
        Step step = Step::steam_flows;
        std::optional<Instant> at;
        std::optional<std::string> note;
        static FieldList fields(auto) {
            return {field<&Params::run>("Number of the run.").positional().at_least(1),
                    field<&Params::step>("Step that happened.").positional(),
                    field<&Params::at>("When it happened. Now if left out. It cannot be before the "
                                       "last line of the log."),
                    field<&Params::note>("Your own note. None if left out.").length(1, 400)};
        }
    };
    using Result = RunSummary;
};

/// run.gauge
struct RunGauge {
    static constexpr About about{
        "run.gauge",
        Access::keep,
        Effect::writes,
        "Logs what the gauge shows. A pressure below the target starts the time at pressure again "
        "from zero.",
        false,
        Lane::log};
    struct Params {
        std::int64_t run = 0;
        std::optional<brewing::GaugePressure> shows;
        std::optional<bool> rocking;
        std::optional<Instant> at;
        static FieldList fields(auto) {
            return {
                field<&Params::run>("Number of the run.").positional().at_least(1),
                field<&Params::shows>("Pressure that the gauge shows. Give --shows or --rocking.")
                    .positional()
                    .between(0, 350)
                    .like("12 psi"),
                field<&Params::rocking>("For a weighted gauge: whether the weight rocks as its "
                                        "manual says. Give --rocking or --shows."),
                field<&Params::at>("When the gauge was read. Now if left out. It cannot be "
                                   "before the last line of the log.")};
        }
    };
    using Result = RunSummary;
};

/// run.strike
struct RunStrike {
    static constexpr About about{"run.strike",
                                 Access::keep,
                                 Effect::writes,
                                 "Strikes out a mistyped step or reading. Both lines stay in the "
                                 "log. It works until the first seal test; a strike cannot be "
                                 "struck out.",
                                 false,
                                 Lane::log};
    struct Params {
        std::int64_t run = 0;
        std::int64_t line = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::run>("Number of the run.").positional().at_least(1),
                    field<&Params::line>("Number of the line; barm run show prints it.")
                        .positional()
                        .at_least(1),
                    field<&Params::reason>("What was wrong with the line.").length(1, 400)};
        }
    };
    using Result = RunSummary;
};

/// A line of the log as it is shown.
struct LogLineShown : LogLine {
    std::int64_t number = 0;
    bool struck = false;
    static FieldList fields(auto) {
        return joined({field<&LogLineShown::number>("Number of the line."),
                       field<&LogLineShown::struck>("Whether a later line strikes it out.")},
                      LogLine::fields(0));
    }
};

/// run.show
struct RunShow {
    static constexpr About about{
        "run.show", Access::look, Effect::reads,
        "Shows a run: phase, countdown, next step, weighing card and log."};
    using Params = RunNumber;
    struct Result : RunDetails {
        std::vector<LogLineShown> log;
        static FieldList fields(auto) {
            return joined(RunDetails::fields(0),
                          {field<&Result::log>("The log, oldest line first.")});
        }
    };
};

/// run.status
struct RunStatus {
    static constexpr About about{
        "run.status", Access::look, Effect::reads,
        "Shows the phase, the countdown and the next step of a run. You can ask every second."};
    using Params = RunNumber;
    using Result = RunSummary;
};

/// One line of the list of runs.
struct RunRow {
    std::int64_t run = 0;
    Phase phase = Phase::filling;
    Instant started;
    std::string jar;
    std::int64_t jars = 0;
    std::string countdown;
    std::optional<Alarm> alarm;
    static FieldList fields(auto) {
        return {
            field<&RunRow::run>("Number of the run."),
            field<&RunRow::phase>("Phase that the run is in."),
            field<&RunRow::started>("When it started."),
            field<&RunRow::jar>("Name of the jar size."),
            field<&RunRow::jars>("Number of jars."),
            field<&RunRow::countdown>("The clock in words."),
            field<&RunRow::alarm>("What is wrong, and what to do now. Left out if nothing is.")};
    }
};

/// run.list
struct RunList {
    static constexpr About about{
        "run.list", Access::look, Effect::reads,
        "Lists open canning runs, newest first. With all, it also lists runs that have ended."};
    struct Params : contract::Page {
        bool all = false;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::all>(
                              "List runs that have ended too. Only open runs if left out.")
                              .defaulted()},
                Page::fields(0));
        }
    };
    struct Result : contract::NextPage {
        std::vector<RunRow> runs;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::runs>("The runs, newest first.")},
                          NextPage::fields(0),
                          FieldList{field<&Result::cautions>("The cautions of a run.")});
        }
    };
};

/// run.abandon
struct RunAbandon {
    static constexpr About about{
        "run.abandon", Access::keep, Effect::writes,
        "Abandons a run before its jars are shelved. With thrown_out, it takes what was weighed "
        "in from stock."};
    struct Params {
        std::int64_t run = 0;
        std::string reason;
        bool thrown_out = false;
        static FieldList fields(auto) {
            return {field<&Params::run>("Number of the run.").positional().at_least(1),
                    field<&Params::reason>("Why you abandon the run.").positional().length(1, 400),
                    field<&Params::thrown_out>(
                        "Whether extract, lids and nutrient of the run are gone: then they are "
                        "taken from stock. If left out, they stay in stock.")
                        .defaulted()};
        }
    };
    using Result = RunSummary;
};

} // namespace barmkeep::canning
