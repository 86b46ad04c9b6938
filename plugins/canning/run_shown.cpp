#include "plugins/canning/run_state.hpp"

#include "plugins/canning/process_check.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

std::optional<Seconds> wanted_of(const RunDocument& run, const RunState& state) {
    switch (state.phase) {
    case Phase::venting:
        return vent_least;
    case Phase::at_pressure:
        return run.process.time;
    case Phase::seal_test:
        return seal_test_earliest;
    default:
        return std::nullopt;
    }
}

std::string next_in_hold(const RunShown& shown) {
    const std::string keep = "Keep the gauge at or slightly above " + target_text(shown.target);
    if (shown.remaining && *shown.remaining > Seconds{})
        return keep + ", and send readings (run.reading).";
    return "The time that you stated is over: turn the heat off and log it (run.turn heat_off).";
}

std::string next_in_cooling(const RunState& state) {
    if (!state.zero_at)
        return "Let the canner cool by itself; send a reading when it shows zero.";
    return "Zero reached: wait " + to_text(wait_after_zero) +
           ", then open the canner, and log it (run.turn opened).";
}

/// The 24 hours for a jar that failed end before the jars have stood for as long, so both are told.
std::string next_in_seal_test(const RunState& state, const RunShown& shown) {
    if (*shown.remaining > Seconds{})
        return "Leave the jars untouched; test the seals after 12 to 24 hours, and within 24 hours "
               "of heat off, for a jar that failed can only be thrown out after that.";
    const Instant latest = state.heat_off.value_or(state.since) + failed_jar_latest;
    const Seconds left = std::chrono::floor<Seconds>(latest - shown.at);
    return "Test every seal and log the counts (run.seal).  " +
           (left > Seconds{}
                ? "A jar that failed goes into the refrigerator or is processed again within " +
                      to_text(left) + "; after that it can only be thrown out."
                : "The process ended more than 24 hours ago: a jar that failed can only be thrown "
                  "out.");
}

std::string step_after(const RunState& state, const RunShown& shown) {
    switch (state.phase) {
    case Phase::filling:
        return "Weigh and fill by the card, load the canner, heat it; when steam flows freely log "
               "it (run.turn steam_flows).";
    case Phase::venting:
        return *shown.remaining > Seconds{}
                   ? "Let steam flow freely."
                   : "Vented: put the weight on or close the petcock (run.turn weight_on).";
    case Phase::pressurising:
        return "Bring the gauge to " + target_text(shown.target) +
               " and send readings; the time begins with the first one there.";
    case Phase::at_pressure:
        return next_in_hold(shown);
    case Phase::cooling:
        return next_in_cooling(state);
    case Phase::seal_test:
        return next_in_seal_test(state, shown);
    case Phase::shelved:
    case Phase::abandoned:
        break;
    }
    return "Nothing: the run has ended.";
}

Moment moment_of(Phase phase) {
    return phase == Phase::seal_test || phase == Phase::shelved ? Moment::sealing : Moment::running;
}

} // namespace

std::string countdown(const RunShown& run) {
    std::string words{to_string(run.phase)};
    std::replace(words.begin(), words.end(), '_', ' ');
    if (has_ended(run.phase))
        return words;
    words += " " + to_text(run.elapsed);
    if (!run.remaining)
        return words;
    return words + (*run.remaining > Seconds{} ? ", " + to_text(*run.remaining) + " to go"
                                               : ", of " + to_text(*run.wanted) + " wanted");
}

RunShown shown(const RunDocument& run, Instant at, const Rules& rules) {
    RunState state = state_of(run, rules);
    RunShown view;
    view.run = run.run;
    view.phase = state.phase;
    view.at = at;
    view.elapsed = std::max(Seconds{}, std::chrono::floor<Seconds>(at - state.since));
    view.wanted = wanted_of(run, state);
    if (view.wanted)
        view.remaining = std::max(Seconds{}, *view.wanted - view.elapsed);
    view.process = run.process;
    view.at_altitude = run.at_altitude;
    view.gauge_error = run.gauge_error;
    view.target = run.target;
    view.last_reading = state.last_reading;
    view.canner = run.canner;
    view.jar = run.process.jar;
    view.jars = run.jars;
    view.restarts = state.restarts;
    view.next_step = step_after(state, view);
    view.countdown = countdown(view);
    state.clocks.back().lasted = view.elapsed;
    view.log_complete = state.missing().empty();
    view.clocks = std::move(state.clocks);
    view.warnings = std::move(state.warnings);
    view.gaps = std::move(state.gaps);
    view.card = run.card;
    view.total = run.total;
    view.seals = run.seals;
    view.cautions = cautions(moment_of(state.phase));
    return view;
}

} // namespace barmkeep::canning
