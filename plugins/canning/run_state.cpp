#include "plugins/canning/run_state.hpp"

#include "plugins/canning/process_check.hpp"

namespace barmkeep::canning {
namespace {

Seconds whole_seconds(Instant from, Instant until) {
    return std::chrono::floor<Seconds>(until - from);
}

/// Walks the log from its first line to its last.
class Walk {
public:
    Walk(const RunDocument& run, const Rules& rules) : run_{run}, rules_{rules} {
        state_.since = run.started;
        state_.clocks.push_back({Phase::filling, run.started, std::nullopt, {}});
    }

    RunState to_the_end() {
        for (const LogLine& line : run_.log)
            take(line);
        return std::move(state_);
    }

private:
    void take(const LogLine& line) {
        switch (line.told) {
        case Told::turn:
            take_turn(line);
            break;
        case Told::reading:
            take_reading(line);
            break;
        case Told::interrupted:
            state_.gaps.push_back({line.at, line.end(), whole_seconds(line.at, line.end())});
            warn(line.at, "interrupted", false,
                 "The daemon was down for " + to_text(state_.gaps.back().lasted) + ".");
            break;
        case Told::sealed:
            enter(Phase::shelved, line.at);
            break;
        case Told::abandoned:
            enter(Phase::abandoned, line.at);
            break;
        default:
            break; // measured, held, released, inspected: no turn of the run
        }
    }

    void take_turn(const LogLine& line) {
        switch (line.turn.value_or(Turn::steam_flows)) {
        case Turn::steam_flows:
            leave_hold();
            enter(Phase::venting, line.at);
            break;
        case Turn::weight_on:
            close_vent(line.at);
            enter(Phase::pressurising, line.at);
            break;
        case Turn::heat_off:
            end_heat(line.at);
            enter(Phase::cooling, line.at);
            break;
        case Turn::heat_on:
            heat_again(line.at);
            enter(Phase::pressurising, line.at);
            break;
        case Turn::forced_cooling:
            warn(line.at, "forced_cooling", true,
                 "The canner was cooled by force; it should cool by itself to zero.");
            break;
        case Turn::opened:
            open(line.at);
            enter(Phase::seal_test, line.at);
            break;
        }
    }

    void close_vent(Instant at) {
        clear("vented_short", "vent_skipped");
        if (state_.phase != Phase::venting)
            warn(at, "vent_skipped", true, "No venting was logged before the weight went on.");
        else if (at - state_.since < vent_least)
            warn(at, "vented_short", true,
                 "Vented for " + to_text(whole_seconds(state_.since, at)) + " only; steam should " +
                     "flow freely for " + to_text(vent_least) + ".");
    }

    void take_reading(const LogLine& line) {
        state_.last_reading = line.lowest;
        const Level level = level_of(run_, line.lowest.value_or(brewing::GaugePressure{}));
        if (state_.phase == Phase::pressurising && level == Level::reached) {
            enter(Phase::at_pressure, line.at);
            state_.last_reached = line.end();
        } else if (state_.phase == Phase::at_pressure) {
            level == Level::reached ? hold(line) : drop(line.at);
        } else if (state_.phase == Phase::cooling && level == Level::zero && !state_.zero_at) {
            reach_zero(line.at);
        }
    }

    void hold(const LogLine& line) {
        note_gap(line.at);
        state_.last_reached = line.end();
    }

    /// Only what was seen at the target counts: a time that had run out by the last good reading
    /// is not undone by a later drop.
    void drop(Instant at) {
        if (*state_.last_reached - state_.since >= run_.process.time)
            return;
        warn(at, "pressure_dropped", false,
             "The pressure fell below the target; the time begins again from zero.");
        leave_hold();
        enter(Phase::pressurising, at);
    }

    /// If a hold is being left, its time does not count, and what was amiss in it matters no
    /// longer.
    void leave_hold() {
        if (state_.phase != Phase::at_pressure)
            return;
        ++state_.restarts;
        clear("readings_far_apart", {});
        state_.last_reached.reset();
    }

    void note_gap(Instant at) {
        const bool time_was_open = *state_.last_reached - state_.since < run_.process.time;
        if (time_was_open && at - *state_.last_reached > rules_.reading_gap_max)
            warn(at, "readings_far_apart", true,
                 "No reading for " + to_text(whole_seconds(*state_.last_reached, at)) +
                     " while at pressure; at most " + to_text(rules_.reading_gap_max) +
                     " count as watched.");
    }

    void end_heat(Instant at) {
        state_.heat_off = at;
        const Seconds held =
            state_.phase == Phase::at_pressure ? whole_seconds(state_.since, at) : Seconds{};
        if (state_.phase == Phase::at_pressure)
            note_gap(at);
        state_.time_completed = held >= run_.process.time;
        if (!state_.time_completed)
            warn(at, "time_not_completed", true,
                 "The heat went off after " + to_text(held) + " at pressure; the process says " +
                     to_text(run_.process.time) + ".");
    }

    void heat_again(Instant at) {
        clear("time_not_completed", "readings_far_apart");
        clear("forced_cooling", {});
        warn(at, "heated_again", false,
             "Heated again after the heat went off; the time begins again from zero.");
        ++state_.restarts;
        state_.heat_off.reset();
        state_.zero_at.reset();
        state_.time_completed = false;
    }

    void reach_zero(Instant at) {
        state_.zero_at = at;
        if (state_.heat_off && at - *state_.heat_off < cooling_quickest)
            warn(at, "cooled_quickly", false,
                 "Zero pressure after " + to_text(whole_seconds(*state_.heat_off, at)) +
                     ", sooner than any published time of cooling by itself (" +
                     to_text(cooling_quickest) + ").");
    }

    void open(Instant at) {
        state_.opened = at;
        if (!state_.heat_off)
            warn(at, "heat_off_missing", true, "It was opened, and no heat off was logged.");
        if (!state_.zero_at)
            warn(at, "opened_before_zero", true,
                 "The canner was opened before a reading of zero pressure.");
        else if (at - *state_.zero_at < wait_after_zero)
            warn(at, "opened_soon", false,
                 "Opened " + to_text(whole_seconds(*state_.zero_at, at)) +
                     " after zero pressure; newer manuals wait " + to_text(wait_after_zero) + ".");
    }

    void warn(Instant at, std::string key, bool holds, std::string text) {
        state_.warnings.push_back({at, std::move(key), std::move(text), holds});
    }

    /// Warnings stay in the log, but those made good no longer hold the jars.
    void clear(std::string_view key, std::string_view other) {
        for (Warning& warning : state_.warnings)
            if (warning.key == key || warning.key == other)
                warning.holds = false;
    }

    void enter(Phase phase, Instant at) {
        PhaseClock& open = state_.clocks.back();
        open.until = at;
        open.lasted = whole_seconds(open.from, at);
        state_.phase = phase;
        state_.since = at;
        state_.clocks.push_back({phase, at, std::nullopt, {}});
    }

    const RunDocument& run_;
    const Rules& rules_;
    RunState state_;
};

} // namespace

Level level_of(const RunDocument& run, brewing::GaugePressure shows) {
    if (shows < zero_pressure)
        return Level::zero;
    return shows + wire_step >= run.target ? Level::reached : Level::below;
}

std::vector<std::string> RunState::missing() const {
    std::vector<std::string> sentences;
    for (const Warning& warning : warnings)
        if (warning.holds)
            sentences.push_back(warning.text);
    return sentences;
}

RunState state_of(const RunDocument& run, const Rules& rules) {
    return Walk{run, rules}.to_the_end();
}

} // namespace barmkeep::canning
