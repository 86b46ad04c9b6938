#include "plugins/canning/run/view.hpp"

#include "plugins/canning/process/check.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

std::optional<Seconds> required_of(const RunDocument& run, const RunState& state) {
    switch (state.phase) {
    case Phase::venting:
        return vent_least;
    case Phase::at_pressure:
        return run.process.process.time;
    case Phase::seal_test:
        // Jars that never go on the shelf need no seals to be judged.
        return state.has_deviation() ? std::nullopt : std::optional{seal_test_earliest};
    default:
        return std::nullopt;
    }
}

/// "barm run log 3 opened".
std::string command(std::string_view word, const RunSummary& now, std::string_view rest = "") {
    std::string text = "barm run " + std::string(word) + " " + std::to_string(now.run);
    if (!rest.empty())
        text += " " + std::string(rest);
    return text;
}

std::string next_at_pressure(const RunSummary& now) {
    if (now.remaining && *now.remaining > Seconds{})
        return "Keep the gauge at or slightly above " + target_text(now.target) +
               ", and log readings: " + command("gauge", now);
    return "The time that you stated is over. Turn the heat off, and log it: " +
           command("log", now, "heat_off");
}

std::string next_in_cooling(const RunState& state, const RunSummary& now) {
    if (!state.zero_at)
        return "Let the canner cool by itself. Log a reading when it shows zero: " +
               command("gauge", now, "'0 psi'");
    return "Wait " + to_text(wait_after_zero) +
           " after zero, then open the canner, and log it: " + command("log", now, "opened");
}

/// The 24 hours for a jar that failed end before the jars have stood for as long: it shows both.
std::string next_in_seal_test(const RunState& state, const RunSummary& now) {
    if (state.has_deviation())
        return "Log where the jars go: " + command("seal-test", now) +
               " --deviation-to discard. They never go on the shelf.";
    if (*now.remaining > Seconds{})
        return "Leave the jars untouched. Test the seals after 12 to 24 hours, and within 24 "
               "hours of heat off. After that, a jar that failed can only be thrown out.";
    const Instant latest = state.heat_off.value_or(state.since) + failed_jar_latest;
    const Seconds left = std::chrono::floor<Seconds>(latest - now.at);
    return "Test every seal and log the counts: " + command("seal-test", now) + ". " +
           (left > Seconds{}
                ? "Put a jar that failed into the refrigerator within " + to_text(left) +
                      "; after that, throw it out."
                : "The heat went off more than 24 hours ago: throw out a jar that failed.");
}

Moment moment_of(Phase phase) {
    return phase == Phase::seal_test || phase == Phase::shelved ? Moment::sealing : Moment::running;
}

/// The newest of each key, of those that hold the jars or that the last line brought.
std::vector<Warning> new_or_standing(const Run& run, const RunState& state) {
    std::vector<Warning> some;
    const Instant last = run.log.empty() ? run.begun.started : run.log.back().at;
    for (auto warning = state.warnings.rbegin(); warning != state.warnings.rend(); ++warning)
        if ((warning->holds || warning->at == last) &&
            std::ranges::find(some, warning->key, &Warning::key) == some.end())
            some.push_back(*warning);
    std::ranges::reverse(some);
    return some;
}

/// What a slip of the hand would be undone by striking out.
std::optional<std::int64_t> strike_line_of(const Run& run, const RunState& state) {
    if (has_ended(state.phase) || state.seal_tests > 0)
        return std::nullopt;
    for (std::int64_t number = std::ssize(run.log); number > 0; --number) {
        const LogLine& line = run.log[static_cast<std::size_t>(number - 1)];
        const bool can_be = line.kind == LineKind::step || line.kind == LineKind::reading;
        if (can_be &&
            std::ranges::find(run.log, std::optional{number}, &LogLine::strikes) == run.log.end())
            return number;
    }
    return std::nullopt;
}

RunSummary summary_in(const Run& run, const RunState& state, Instant at, const RunRules& rules) {
    RunSummary now;
    now.run = run.number;
    now.phase = state.phase;
    now.at = at;
    now.elapsed = std::max(Seconds{}, std::chrono::floor<Seconds>(at - state.since));
    now.required = required_of(run.begun, state);
    if (now.required)
        now.remaining = std::max(Seconds{}, *now.required - now.elapsed);
    now.gauge = run.begun.process.process.gauge;
    now.target = run.begun.target;
    now.gauge_error = run.begun.gauge_error;
    now.last_reading = state.last_reading;
    now.reading_due_by = state.reading_due_by(run.begun, rules);
    now.heat_off = state.heat_off;
    now.zero_at = state.zero_at;
    now.restarts = state.restarts;
    now.warnings = new_or_standing(run, state);
    now.log_complete = state.is_complete();
    now.line = std::ssize(run.log);
    now.strike_line = strike_line_of(run, state);
    now.process_note = run.begun.process.process_note;
    now.next_step = next_step_of(state, now);
    now.countdown = countdown(now);
    now.alarm = alarm_in(run, state, at, rules);
    now.cautions = cautions(moment_of(state.phase));
    return now;
}

} // namespace

std::string next_step_of(const RunState& state, const RunSummary& now) {
    switch (state.phase) {
    case Phase::filling:
        return "Weigh and fill by the card, load the canner, and heat it. When steam flows freely, "
               "log "
               "it: " +
               command("log", now, "steam_flows");
    case Phase::venting:
        return *now.remaining > Seconds{} ? "Let steam flow freely."
                                          : "Put the weight on or close the petcock, and log it: " +
                                                command("log", now, "weight_on");
    case Phase::pressurising:
        return "Bring the gauge to " + target_text(now.target) +
               ", and log readings: " + command("gauge", now) +
               ". The time starts with the first reading there.";
    case Phase::at_pressure:
        return next_at_pressure(now);
    case Phase::cooling:
        return next_in_cooling(state, now);
    case Phase::seal_test:
        return next_in_seal_test(state, now);
    case Phase::shelved:
    case Phase::abandoned:
        break;
    }
    return "Nothing. The run has ended.";
}

std::string countdown(const RunSummary& now) {
    std::string words{to_string(now.phase)};
    std::ranges::replace(words, '_', ' ');
    if (has_ended(now.phase))
        return words;
    words += " " + to_text(now.elapsed);
    if (!now.remaining)
        return words;
    return words + (*now.remaining > Seconds{} ? ", " + to_text(*now.remaining) + " to go"
                                               : ", at least " + to_text(*now.required));
}

RunSummary summary_of(const Run& run, Instant at, const RunRules& rules) {
    return summary_in(run, state_of(run, rules), at, rules);
}

RunDetails details_of(const Run& run, Instant at, const RunRules& rules) {
    RunState state = state_of(run, rules);
    RunDetails view;
    static_cast<RunSummary&>(view) = summary_in(run, state, at, rules);
    view.process = run.begun.process.process;
    view.at_altitude = run.begun.process.at_altitude;
    view.canner = run.begun.canner;
    view.jar = run.begun.process.process.jar;
    view.jars = run.begun.jars;
    state.clocks.back().lasted = view.elapsed;
    view.clocks = std::move(state.clocks);
    view.warnings = std::move(state.warnings);
    view.gaps = std::move(state.gaps);
    view.card = run.begun.card;
    view.total = run.begun.total;
    if (state.seal_test)
        view.seals = state.seal_test->seals;
    return view;
}

} // namespace barmkeep::canning
