#include "plugins/canning/run/replay.hpp"

#include <algorithm>
#include <set>

namespace barmkeep::canning {
namespace {

using contract::HoldKind;

Seconds whole_seconds(Instant from, Instant until) {
    return std::chrono::floor<Seconds>(until - from);
}

class Replay {
public:
    Replay(const Run& run, const RunRules& rules, std::size_t lines)
        : run_{run}, rules_{rules}, lines_{std::min(lines, run.log.size())} {
        state_.since = run.begun.started;
        state_.clocks.push_back({Phase::filling, run.begun.started, std::nullopt, {}});
        for (std::size_t i = 0; i < lines_; ++i)
            if (run.log[i].kind == LineKind::strike && run.log[i].strikes)
                struck_.insert(static_cast<std::size_t>(*run.log[i].strikes));
    }

    RunState to_the_end() {
        const LogLine* before = nullptr;
        for (std::size_t i = 0; i < lines_; ++i) {
            const LogLine& line = run_.log[i];
            check_session(line,
                          before); // of a line struck out too: the daemon was down all the same
            check_clocks(line, before);
            if (!struck_.contains(i + 1))
                take(line);
            before = &line;
        }
        return std::move(state_);
    }

private:
    void take(const LogLine& line) {
        switch (line.kind) {
        case LineKind::step:
            take_step(line);
            break;
        case LineKind::reading:
            take_reading(line);
            break;
        case LineKind::seal_test:
            state_.seal_test = line.seal_test;
            ++state_.seal_tests;
            enter(Phase::shelved, line.at);
            break;
        case LineKind::seal_test_undone:
            state_.seal_test.reset();
            return_to_seal_test();
            break;
        case LineKind::spoiled:
            state_.spoiled += line.jars.value_or(1);
            break;
        case LineKind::abandoned:
            enter(Phase::abandoned, line.at);
            break;
        default:
            break; // strikes and what happens on the shelf: no step of the run
        }
    }

    void take_step(const LogLine& line) {
        switch (line.step.value_or(Step::steam_flows)) {
        case Step::steam_flows:
            leave_pressure();
            enter(Phase::venting, line.at);
            break;
        case Step::weight_on:
            close_vent(line.at);
            enter(Phase::pressurising, line.at);
            break;
        case Step::heat_off:
            end_heat(line.at);
            enter(Phase::cooling, line.at);
            break;
        case Step::heat_on:
            heat_again(line.at);
            enter(Phase::pressurising, line.at);
            break;
        case Step::forced_cooling:
            deviation(line.at, "forced_cooling",
                      "The canner was cooled by force. It must cool by itself. [S78]");
            break;
        case Step::opened:
            open(line.at);
            enter(Phase::seal_test, line.at);
            break;
        }
    }

    void close_vent(Instant at) {
        clear("vented_short");
        clear("vent_skipped");
        if (state_.phase != Phase::venting)
            deviation(at, "vent_skipped", "No venting was logged before the weight went on. [S89]");
        else if (at - state_.since < vent_least)
            deviation(at, "vented_short",
                      "Vented for " + to_text(whole_seconds(state_.since, at)) +
                          " only. Steam must flow freely for " + to_text(vent_least) +
                          ". [S14 S15 S3 S89]");
    }

    void take_reading(const LogLine& line) {
        const auto shows = line.shows.value_or(brewing::GaugePressure{});
        ++state_.readings;
        state_.last_reading = shows;
        const Level level = level_of(run_.begun, shows);
        if (state_.phase == Phase::pressurising && level == Level::reached) {
            enter(Phase::at_pressure, line.at);
            state_.last_reached = line.at;
        } else if (state_.phase == Phase::at_pressure) {
            level == Level::reached ? stay(line) : drop(line.at);
        } else if (state_.phase == Phase::cooling && level == Level::zero && !state_.zero_at) {
            reach_zero(line.at);
        }
    }

    void stay(const LogLine& line) {
        note_gap(line.at);
        state_.last_reached = line.at;
    }

    [[nodiscard]] bool time_is_open() const {
        return *state_.last_reached - state_.since < run_.begun.process.process.time;
    }

    /// Only what was seen at the target counts: a time that had run out by the last good reading
    /// is not undone by a later drop.
    void drop(Instant at) {
        if (!time_is_open())
            return;
        warn(at, "pressure_dropped",
             "The pressure fell below the target. The time starts again from zero. [S15 S16]");
        leave_pressure();
        enter(Phase::pressurising, at);
    }

    /// A time at pressure that is left does not count, and what was missing in it no longer
    /// matters.
    void leave_pressure() {
        if (state_.phase != Phase::at_pressure)
            return;
        ++state_.restarts;
        clear("readings_far_apart");
        clear("interrupted");
        state_.last_reached.reset();
    }

    void note_gap(Instant at) {
        if (time_is_open() && at - *state_.last_reached > rules_.reading_gap_max)
            evidence(at, "readings_far_apart",
                     "No reading for " + to_text(whole_seconds(*state_.last_reached, at)) +
                         " while at pressure. The longest gap allowed is " +
                         to_text(rules_.reading_gap_max) + ".");
    }

    void end_heat(Instant at) {
        state_.heat_off = at;
        state_.zero_at.reset();
        const bool at_pressure = state_.phase == Phase::at_pressure;
        const Seconds held = at_pressure ? whole_seconds(state_.since, at) : Seconds{};
        if (at_pressure)
            note_gap(at);
        state_.time_completed = held >= run_.begun.process.process.time;
        if (!state_.time_completed)
            note_short_time(at, held);
    }

    void note_short_time(Instant at, Seconds held) {
        // Who logged no reading at all left no evidence of anything; who did, is known to be short.
        if (state_.readings == 0 && state_.restarts == 0) {
            evidence(at, "no_readings", "The log has no gauge reading.");
            return;
        }
        deviation(at, "time_not_completed",
                  "The heat went off after " + to_text(held) + " at pressure. Your process says " +
                      to_text(run_.begun.process.process.time) + ". [S87]");
    }

    void heat_again(Instant at) {
        clear("time_not_completed");
        clear("no_readings");
        clear("readings_far_apart");
        clear("interrupted");
        warn(at, "heated_again",
             "Heated again after the heat went off. The time starts again from zero. [S87]");
        ++state_.restarts;
        state_.last_reached.reset();
        state_.heat_off.reset();
        state_.zero_at.reset();
        state_.time_completed = false;
    }

    void reach_zero(Instant at) {
        state_.zero_at = at;
        if (state_.heat_off && at - *state_.heat_off < cooling_quickest)
            warn(at, "cooled_quickly",
                 "Zero pressure after " + to_text(whole_seconds(*state_.heat_off, at)) +
                     ", sooner than any published time of cooling by itself (" +
                     to_text(cooling_quickest) + "). [S17 S18 S3]");
    }

    void open(Instant at) {
        state_.opened = at;
        if (!state_.heat_off)
            note_no_heat_off(at);
        if (!state_.zero_at)
            deviation(at, "opened_before_zero",
                      "The canner was opened before a reading of zero pressure. [S14 S17]");
        else if (at - *state_.zero_at < wait_after_zero)
            warn(at, "opened_soon",
                 "Opened " + to_text(whole_seconds(*state_.zero_at, at)) +
                     " after zero pressure; wait " + to_text(wait_after_zero) + ". [S3 S16 S90]");
    }

    void note_no_heat_off(Instant at) {
        state_.time_completed =
            state_.phase == Phase::at_pressure && state_.last_reached && !time_is_open();
        if (state_.time_completed)
            evidence(at, "heat_off_missing",
                     "The canner was opened, but no heat off is in the log.");
        else
            deviation(at, "time_not_completed",
                      "The canner was opened before the whole time at pressure was over. [S87]");
    }

    /// The daemon was started again since the line before. Nobody knows what the clock did in
    /// between, so a stretch at pressure that no later line lies in is missing.
    void check_session(const LogLine& line, const LogLine* before) {
        if (!line.session)
            return;
        const Instant last = before == nullptr ? run_.begun.started : before->at;
        // A clock set by hand may begin before the last line; then all that is known is that the
        // daemon was back by now.
        const Instant back = line.session->began > last ? line.session->began : line.written();
        if (back <= last)
            return;
        const Seconds lasted = whole_seconds(last, back);
        state_.gaps.push_back({last, back, lasted});
        const bool is_filled = line.at < back; // a sender kept its readings meanwhile
        const std::string text = "The daemon was down for " + to_text(lasted) + ".";
        if (state_.phase == Phase::at_pressure && time_is_open() && !is_filled)
            evidence(line.at, "interrupted", text);
        else
            warn(line.at, "interrupted", text);
    }

    /// The host's clock and the machine's uptime go alike, or one of them was set: then the log
    /// does not show how long anything took.
    void check_clocks(const LogLine& line, const LogLine* before) {
        if (before == nullptr || line.session || !before->uptime || !line.uptime)
            return;
        const auto by_clock = line.written() - before->written();
        const auto by_uptime = std::chrono::milliseconds{*line.uptime - *before->uptime};
        const auto apart = by_clock > by_uptime ? by_clock - by_uptime : by_uptime - by_clock;
        if (apart <= clock_tolerance || state_.phase >= Phase::seal_test)
            return;
        if (state_.phase == Phase::at_pressure) {
            leave_pressure();
            enter(Phase::pressurising, line.at);
        }
        evidence(line.at, "clock_changed",
                 "The clock was set by " + to_text(std::chrono::ceil<Seconds>(apart)) +
                     " during the run. The time at pressure starts again from zero.");
    }

    void warn(Instant at, std::string key, std::string text) {
        state_.warnings.push_back({at, std::move(key), std::move(text), std::nullopt});
    }
    void evidence(Instant at, std::string key, std::string text) {
        state_.warnings.push_back(
            {at, std::move(key), std::move(text), HoldKind::evidence_missing});
    }
    void deviation(Instant at, std::string key, std::string text) {
        state_.warnings.push_back({at, std::move(key), std::move(text), HoldKind::deviation_known});
    }

    /// Warnings stay in the log, but those made good no longer hold the jars.
    void clear(std::string_view key) {
        for (Warning& warning : state_.warnings)
            if (warning.key == key)
                warning.holds.reset();
    }

    void enter(Phase phase, Instant at) {
        PhaseClock& open = state_.clocks.back();
        open.until = at;
        open.lasted = whole_seconds(open.from, at);
        state_.phase = phase;
        state_.since = at;
        state_.clocks.push_back({phase, at, std::nullopt, {}});
    }

    /// The jars stand there since the canner was opened, whatever was counted meanwhile.
    void return_to_seal_test() {
        const Instant opened = state_.opened.value_or(state_.since);
        state_.clocks.pop_back();
        state_.clocks.back().until.reset();
        state_.phase = Phase::seal_test;
        state_.since = opened;
    }

    const Run& run_;
    const RunRules& rules_;
    std::size_t lines_;
    std::set<std::size_t> struck_;
    RunState state_;
};

} // namespace

RunState replayed(const Run& run, const RunRules& rules, std::size_t lines) {
    return Replay{run, rules, lines}.to_the_end();
}

} // namespace barmkeep::canning
