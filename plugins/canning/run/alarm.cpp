// Alarms: mistakes, reported while you can still put them right.
#include "plugins/canning/process/check.hpp"
#include "plugins/canning/run/view.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::HoldKind;

const Warning* standing(const RunState& state, std::string_view key) {
    const auto found = std::ranges::find_if(state.warnings, [&](const Warning& warning) {
        return warning.key == key && warning.holds.has_value();
    });
    return found == state.warnings.end() ? nullptr : &*found;
}

bool is_heated(Phase phase) {
    return phase == Phase::pressurising || phase == Phase::at_pressure;
}

std::optional<Alarm> vented_alarm(const RunState& state) {
    const Warning* vent = standing(state, "vented_short");
    if (vent == nullptr)
        vent = standing(state, "vent_skipped");
    if (vent == nullptr || !(is_heated(state.phase) || state.phase == Phase::cooling))
        return std::nullopt;
    const bool at_zero = state.phase == Phase::pressurising && !state.last_reached &&
                         state.last_reading.value_or(brewing::GaugePressure{}) < zero_pressure;
    return Alarm{vent->key, vent->text,
                 std::string(at_zero ? "Open the vent again now"
                                     : "Turn the heat off, let the canner cool by itself to zero, "
                                       "and turn it on again") +
                     ". Let steam flow freely for the full " + to_text(vent_least) +
                     ", then run the whole time. Otherwise these jars never go on the shelf."};
}

std::optional<Alarm> short_time_alarm(const RunState& state, std::int64_t run) {
    const Warning* short_time = standing(state, "time_not_completed");
    if (short_time == nullptr)
        short_time = standing(state, "no_readings");
    if (short_time == nullptr || state.phase != Phase::cooling)
        return std::nullopt;
    return Alarm{short_time->key, short_time->text,
                 "Do not open the canner. Turn the heat on again and log it: barm run log " +
                     std::to_string(run) +
                     " heat_on. The whole time starts again from zero. Otherwise these jars may "
                     "not go on the shelf."};
}

std::optional<Alarm> pressure_alarm(const Run& run, const RunState& state, Instant at,
                                    const RunRules& rules) {
    const bool has_dropped = state.phase == Phase::pressurising && !state.warnings.empty() &&
                             state.warnings.back().key == "pressure_dropped" &&
                             state.since == state.warnings.back().at;
    if (has_dropped)
        return Alarm{state.warnings.back().key, state.warnings.back().text,
                     "Turn the heat up and bring the gauge back to " +
                         target_text(run.begun.target) +
                         ". The whole time starts again from zero."};
    const auto due = state.reading_due_by(run.begun, rules);
    if (due && at > *due)
        return Alarm{"reading_late", "The gauge reading is late.",
                     "Read the gauge and log it now: barm run gauge " + std::to_string(run.number) +
                         ". Without readings, evidence is missing and the jars go on hold."};
    return std::nullopt;
}

std::optional<Alarm> cooling_alarm(const RunState& state) {
    const Warning* forced = standing(state, "forced_cooling");
    if (forced == nullptr || state.phase == Phase::seal_test)
        return std::nullopt;
    return Alarm{forced->key, forced->text,
                 "Stop it, and let the canner cool by itself. These jars never go on the shelf."};
}

/// The canner is open: nothing can be put right any more, but two hours count.
std::optional<Alarm> opened_alarm(const RunState& state, std::int64_t run, Instant at) {
    if (state.phase != Phase::seal_test || !state.has_deviation())
        return std::nullopt;
    std::string text;
    for (const Warning& warning : state.standing(HoldKind::deviation_known))
        text += (text.empty() ? "" : " ") + warning.text;
    const Seconds left =
        std::chrono::floor<Seconds>(state.opened.value_or(state.since) + deviation_window - at);
    const std::string log_it = "barm run seal-test " + std::to_string(run);
    const std::string opened_key = "opened_after_deviation";
    const std::string never = "These jars never go on the shelf. Throw them out";
    if (left <= Seconds{})
        return Alarm{opened_key, text,
                     never + " and log it: " + log_it + " --deviation-to discard. [S86]"};
    return Alarm{opened_key, text,
                 never + ", or put them into the refrigerator (2 days) or the freezer within " +
                     to_text(left) + ", and log it: " + log_it +
                     " --deviation-to refrigerator. [S86 S74] A looser source allows 24 "
                     "hours. [S75]"};
}

} // namespace

std::optional<Alarm> alarm_in(const Run& run, const RunState& state, Instant at,
                              const RunRules& rules) {
    if (auto alarm = opened_alarm(state, run.number, at))
        return alarm;
    if (auto alarm = short_time_alarm(state, run.number))
        return alarm;
    if (auto alarm = cooling_alarm(state))
        return alarm;
    if (auto alarm = pressure_alarm(run, state, at, rules))
        return alarm;
    return vented_alarm(state);
}

} // namespace barmkeep::canning
