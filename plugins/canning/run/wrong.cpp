// Mistakes, said while they can still be put right.
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

std::optional<Wrong> vented_wrong(const RunState& state) {
    const Warning* vent = standing(state, "vented_short");
    if (vent == nullptr)
        vent = standing(state, "vent_skipped");
    if (vent == nullptr || !(is_heated(state.phase) || state.phase == Phase::cooling))
        return std::nullopt;
    const bool at_zero = state.phase == Phase::pressurising && !state.last_reached &&
                         state.last_reading.value_or(brewing::GaugePressure{}) < zero_pressure;
    return Wrong{vent->text,
                 std::string(at_zero ? "Open the vent again now"
                                     : "Turn the heat off, let the canner cool by itself to zero, "
                                       "turn it on again") +
                     ", let steam flow freely for the full " + to_text(vent_least) +
                     ", then run the whole time.  Otherwise these jars never go on the shelf."};
}

std::optional<Wrong> short_time_wrong(const RunState& state) {
    const Warning* short_time = standing(state, "time_not_completed");
    if (short_time == nullptr)
        short_time = standing(state, "no_readings");
    if (short_time == nullptr || state.phase != Phase::cooling)
        return std::nullopt;
    return Wrong{short_time->text,
                 "Do not open the canner.  Turn the heat on again and log it (heat_on): the whole "
                 "time starts again from zero.  Otherwise these jars may not be shelved."};
}

std::optional<Wrong> pressure_wrong(const Run& run, const RunState& state, Instant at,
                                    const RunRules& rules) {
    const bool has_dropped = state.phase == Phase::pressurising && !state.warnings.empty() &&
                             state.warnings.back().key == "pressure_dropped" &&
                             state.since == state.warnings.back().at;
    if (has_dropped)
        return Wrong{state.warnings.back().text, "Turn the heat up and bring the gauge back to " +
                                                     target_text(run.begun.target) +
                                                     ": the whole time starts again from zero."};
    const auto due = state.reading_due_by(run.begun, rules);
    if (due && at > *due)
        return Wrong{"The reading of the gauge is late.",
                     "Read the gauge and log it now.  A stretch without a reading is missing "
                     "evidence, and the jars are held for it."};
    return std::nullopt;
}

std::optional<Wrong> cooling_wrong(const RunState& state) {
    const Warning* forced = standing(state, "forced_cooling");
    if (forced == nullptr || state.phase == Phase::seal_test)
        return std::nullopt;
    return Wrong{forced->text,
                 "Stop it and let the canner cool by itself.  These jars never go on the shelf."};
}

/// The canner is open: nothing can be put right any more, but two hours count.
std::optional<Wrong> opened_wrong(const RunState& state, Instant at) {
    if (state.phase != Phase::seal_test || !state.has_deviation())
        return std::nullopt;
    std::string text;
    for (const Warning& warning : state.standing(HoldKind::deviation_known))
        text += (text.empty() ? "" : " ") + warning.text;
    const Seconds left =
        std::chrono::floor<Seconds>(state.opened.value_or(state.since) + deviation_window - at);
    const std::string never = "These jars never go on the shelf.  Throw them out";
    if (left <= Seconds{})
        return Wrong{text, never + " and log it: barm run seal-test.  [S86]"};
    return Wrong{text, never +
                           ", or put them into the refrigerator (2 days) or the freezer within " +
                           to_text(left) +
                           ", and log it: barm run seal-test --deviation-to refrigerator.  [S86 "
                           "S74]; a looser source allows 24 hours [S75]."};
}

} // namespace

std::optional<Wrong> wrong_in(const Run& run, const RunState& state, Instant at,
                              const RunRules& rules) {
    if (auto wrong = opened_wrong(state, at))
        return wrong;
    if (auto wrong = short_time_wrong(state))
        return wrong;
    if (auto wrong = cooling_wrong(state))
        return wrong;
    if (auto wrong = pressure_wrong(run, state, at, rules))
        return wrong;
    return vented_wrong(state);
}

} // namespace barmkeep::canning
