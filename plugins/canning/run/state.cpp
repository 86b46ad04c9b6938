#include "plugins/canning/run/state.hpp"

#include "plugins/canning/process/check.hpp"
#include "plugins/canning/run/replay.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::HoldKind;

/// The deviations that stand after so many lines.
std::vector<std::string> deviations_after(const Run& run, const RunRules& rules,
                                          std::size_t lines) {
    std::vector<std::string> keys;
    for (const Warning& warning : replayed(run, rules, lines).standing(HoldKind::deviation_known))
        keys.push_back(warning.key);
    return keys;
}

bool strikes_a_step(const Run& run, const LogLine& line) {
    if (line.kind != LineKind::strike || !line.strikes)
        return false;
    const auto struck = static_cast<std::size_t>(*line.strikes);
    return struck >= 1 && struck <= run.log.size() && run.log[struck - 1].kind == LineKind::step;
}

void mark_struck_deviations(const Run& run, const RunRules& rules, RunState& state) {
    for (std::size_t i = 0; i < run.log.size(); ++i) {
        if (!strikes_a_step(run, run.log[i]))
            continue;
        const auto left = deviations_after(run, rules, i + 1);
        const auto is_gone = [&](const std::string& key) {
            return std::ranges::find(left, key) == left.end();
        };
        if (std::ranges::any_of(deviations_after(run, rules, i), is_gone))
            state.warnings.push_back({run.log[i].at, "struck_out",
                                      "Line " + std::to_string(*run.log[i].strikes) +
                                          " of the log, a step that went wrong, was struck out: " +
                                          run.log[i].note.value_or(""),
                                      HoldKind::evidence_missing});
    }
}

} // namespace

Level level_of(const RunDocument& run, brewing::GaugePressure shows) {
    if (shows < zero_pressure)
        return Level::zero;
    return shows + wire_step >= run.target ? Level::reached : Level::below;
}

std::vector<Warning> RunState::standing(HoldKind kind) const {
    std::vector<Warning> some;
    for (const Warning& warning : warnings)
        if (warning.holds == kind)
            some.push_back(warning);
    return some;
}

bool RunState::has_deviation() const {
    return !standing(HoldKind::deviation_known).empty();
}

bool RunState::is_complete() const {
    return std::ranges::none_of(warnings,
                                [](const Warning& warning) { return warning.holds.has_value(); });
}

std::optional<Instant> RunState::reading_due_by(const RunDocument& run,
                                                const RunRules& rules) const {
    if (phase != Phase::at_pressure || !last_reached ||
        *last_reached - since >= run.process.process.time)
        return std::nullopt;
    return *last_reached + rules.reading_gap_max;
}

RunState state_of(const Run& run, const RunRules& rules) {
    RunState state = replayed(run, rules, run.log.size());
    mark_struck_deviations(run, rules, state);
    return state;
}

} // namespace barmkeep::canning
