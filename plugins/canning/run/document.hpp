// A run as it is stored: what it started with, written once, and its log, which only grows.
// Everything else (the phase, the clocks, the warnings) is computed from these two, so a restart of
// the daemon loses nothing.
#pragma once

#include "plugins/canning/plan/messages.hpp"
#include "plugins/canning/process/messages.hpp"

namespace barmkeep::canning {

enum class Step { steam_flows, weight_on, heat_off, heat_on, forced_cooling, opened };
constexpr auto enum_names(Step) {
    using N = EnumName<Step>;
    return std::array{N{Step::steam_flows, "steam_flows"},
                      N{Step::weight_on, "weight_on"},
                      N{Step::heat_off, "heat_off"},
                      N{Step::heat_on, "heat_on"},
                      N{Step::forced_cooling, "forced_cooling"},
                      N{Step::opened, "opened"}};
}

/// What a line of the log is.
enum class LineKind {
    step,
    reading,
    strike, ///< takes an earlier step or reading out of what counts
    seal_test,
    seal_test_undone,
    measured,
    held,
    released,
    inspected,
    spoiled, ///< jars with a sign of spoilage, found in storage or at opening
    abandoned,
    unknown ///< written by a newer program
};
constexpr auto enum_names(LineKind) {
    using N = EnumName<LineKind>;
    return std::array{N{LineKind::step, "step"},
                      N{LineKind::reading, "reading"},
                      N{LineKind::strike, "strike"},
                      N{LineKind::seal_test, "seal_test"},
                      N{LineKind::seal_test_undone, "seal_test_undone"},
                      N{LineKind::measured, "measured"},
                      N{LineKind::held, "held"},
                      N{LineKind::released, "released"},
                      N{LineKind::inspected, "inspected"},
                      N{LineKind::spoiled, "spoiled"},
                      N{LineKind::abandoned, "abandoned"},
                      N{LineKind::unknown, "unknown"}};
}

/// Jars by the result of their seal test.
struct SealCounts {
    std::int64_t held = 0;
    std::int64_t failed = 0;
    std::int64_t lost_liquid = 0;
    std::int64_t lost_half = 0;
    std::int64_t broken = 0;
    [[nodiscard]] std::int64_t all() const {
        return held + failed + lost_liquid + lost_half + broken;
    }
    static FieldList fields(auto) {
        return {
            field<&SealCounts::held>("Number of jars whose seal held."),
            field<&SealCounts::failed>("Number of jars whose seal failed."),
            field<&SealCounts::lost_liquid>(
                "Number of sealed jars that lost less than half of their liquid."),
            field<&SealCounts::lost_half>("Number of jars that lost half of their liquid or more."),
            field<&SealCounts::broken>("Number of jars that broke.")};
    }
};

/// Where jars go whose seal failed.
enum class FailedTo { refrigerator, discard };
constexpr auto enum_names(FailedTo) {
    using N = EnumName<FailedTo>;
    return std::array{N{FailedTo::refrigerator, "refrigerator"}, N{FailedTo::discard, "discard"}};
}
/// Where the jars of a run go in which a step went wrong.
enum class DeviationTo { discard, refrigerator, freezer };
constexpr auto enum_names(DeviationTo) {
    using N = EnumName<DeviationTo>;
    return std::array{N{DeviationTo::discard, "discard"},
                      N{DeviationTo::refrigerator, "refrigerator"},
                      N{DeviationTo::freezer, "freezer"}};
}

/// The lots that a seal test makes, one of each at most.
enum class JarKind { sealed, lost_liquid, failed, deviating };
constexpr auto enum_names(JarKind) {
    using N = EnumName<JarKind>;
    return std::array{N{JarKind::sealed, "sealed"}, N{JarKind::lost_liquid, "lost_liquid"},
                      N{JarKind::failed, "failed"}, N{JarKind::deviating, "deviating"}};
}

/// A seal test as it was recorded.
struct SealTest {
    SealCounts seals;
    FailedTo failed_to = FailedTo::refrigerator;
    DeviationTo deviation_to = DeviationTo::discard;
    std::vector<JarKind> lots;
    Date canned;
    std::optional<Date> best_by;
    std::optional<Date> cold_until;
    static FieldList fields(auto) {
        return {
            field<&SealTest::seals>("Number of jars by the result of the test."),
            field<&SealTest::failed_to>("Where the jars went whose seal failed."),
            field<&SealTest::deviation_to>("Where the jars went if a step of the run went wrong."),
            field<&SealTest::lots>(
                "Kinds of jar lots that the test made, in the order of its entry."),
            field<&SealTest::canned>("Local day on which the heat went off."),
            field<&SealTest::best_by>(
                "Best by of the jars on the shelf. Left out if none went there."),
            field<&SealTest::cold_until>(
                "Last day of the jars in refrigerator or freezer. Left out if none went there.")};
    }
};

/// A start of the plugin. It stands on the first line logged after that start.
struct Session {
    std::string word;
    Instant began;
    static FieldList fields(auto) {
        return {field<&Session::word>("Word that no other start of the plugin has."),
                field<&Session::began>("When the plugin started.")};
    }
};

/// One line of the log; its number is its place, from 1.
struct LogLine {
    Instant at;
    LineKind kind = LineKind::unknown;
    std::string who;
    std::optional<Step> step;
    std::optional<brewing::GaugePressure> shows;
    std::optional<std::int64_t> strikes;
    std::optional<SealTest> seal_test;
    std::optional<std::vector<LotCode>> lots;
    std::optional<std::int64_t> jars;
    std::optional<Date> look_again;
    std::optional<std::string> note;
    std::optional<Instant> logged;
    std::optional<std::int64_t> uptime;
    std::optional<Session> session;

    /// When the line was written, by the host's clock.
    [[nodiscard]] Instant written() const { return logged.value_or(at); }
    static FieldList fields(auto) {
        return {field<&LogLine::at>("When it happened."),
                field<&LogLine::kind>("Kind of line."),
                field<&LogLine::who>("Who logged it."),
                field<&LogLine::step>("Step of the run. Left out if the line is no step."),
                field<&LogLine::shows>(
                    "Pressure that the gauge showed. Left out if the line is no reading."),
                field<&LogLine::strikes>(
                    "Number of the line that this one strikes out. Left out otherwise."),
                field<&LogLine::seal_test>("Result of the seal test. Left out otherwise."),
                field<&LogLine::lots>(
                    "Codes of the jar lots that the line is about. Left out if there are none."),
                field<&LogLine::jars>("Number of jars that the line is about. Left out otherwise."),
                field<&LogLine::look_again>(
                    "Day of the next inspection. Left out if the line is no inspection."),
                field<&LogLine::note>("Note or reason. Left out if none was given."),
                field<&LogLine::logged>(
                    "When it was logged. Left out if that is the time it happened."),
                field<&LogLine::uptime>("Time that the machine had run, in milliseconds. Left out "
                                        "with a clock set by hand."),
                field<&LogLine::session>(
                    "Start of the daemon, on the first line after it. Left out on all others.")};
    }
};

/// What a run was begun with.
struct RunDocument {
    Instant started;
    std::string started_by;
    Session session;
    ProcessRecord process;
    std::string canner;
    std::optional<brewing::GaugePressure> gauge_error;
    brewing::GaugePressure target; ///< what the gauge must show
    std::string good;              ///< of the jars that come out
    std::int64_t jars = 0;
    JarContent each;
    contract::Facts facts; ///< of one jar, as planned
    std::vector<CardLine> card;
    CardTotal total;
    std::vector<LotUse> lots;
    std::vector<GoodUse> used;
    static FieldList fields(auto) {
        return {field<&RunDocument::started>("When the run started."),
                field<&RunDocument::started_by>("Who started it."),
                field<&RunDocument::session>("Start of the plugin in which the run started."),
                field<&RunDocument::process>("Your process, as it was when the run started."),
                field<&RunDocument::canner>("Name of the canner."),
                field<&RunDocument::gauge_error>(
                    "What the dial reads above the true pressure. Left out if not known."),
                field<&RunDocument::target>("Pressure that the gauge must show."),
                field<&RunDocument::good>("Name of the good that the jars become."),
                field<&RunDocument::jars>("Number of jars in the load."),
                field<&RunDocument::each>("What one jar holds and makes."),
                field<&RunDocument::facts>("Facts of one jar, as planned."),
                field<&RunDocument::card>("Weighing card: what to weigh into which jars."),
                field<&RunDocument::total>("What all jars on the card take together."),
                field<&RunDocument::lots>("Extract taken from each lot."),
                field<&RunDocument::used>("Lids and nutrient.")};
    }
};

/// A run: its number, what it was begun with, and its log.
struct Run {
    std::int64_t number = 0;
    RunDocument begun;
    std::vector<LogLine> log;
};

} // namespace barmkeep::canning
