#include "plugins/canning/run_log.hpp"

#include "sdk/method/nearest.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

/// The turns that can be logged in each phase.  What is against the guidance is among them: it
/// happened, so it belongs into the log.
std::vector<Turn> turns_in(Phase phase) {
    using enum Turn;
    switch (phase) {
    case Phase::filling:
        return {steam_flows, weight_on};
    case Phase::venting:
        return {weight_on, heat_off, opened};
    case Phase::pressurising:
    case Phase::at_pressure:
        return {steam_flows, heat_off, forced_cooling, opened};
    case Phase::cooling:
        return {heat_on, forced_cooling, opened};
    default:
        return {};
    }
}

std::string listed(const std::vector<Turn>& turns) {
    std::string text;
    for (const Turn turn : turns)
        text += (text.empty() ? "" : ", ") + std::string(to_string(turn));
    return text;
}

Instant last_instant(const RunDocument& run) {
    return run.log.empty() ? run.started : run.log.back().end();
}

void mark_gap(RunDocument& run, const Logging& logging) {
    if (run.session == logging.session)
        return;
    run.session = logging.session;
    const Instant last = last_instant(run);
    // A clock set by hand may begin before the last line; then all that is known is that the daemon
    // was back by now.
    const Instant back = logging.session_began > last ? logging.session_began : logging.now;
    if (back <= last)
        return;
    LogLine line;
    line.at = last;
    line.told = Told::interrupted;
    line.until = back;
    line.who = "canning";
    run.log.push_back(std::move(line));
}

LogLine& add_line(RunDocument& run, Told told, Instant at, const Logging& logging) {
    if (told == Told::reading && run.log.size() >= log_lines_max)
        throw Error(ErrorKind::busy, "log_full",
                    "The log of run " + std::to_string(run.run) + " is full.",
                    "Send readings less often: one every half minute is plenty.");
    LogLine line;
    line.at = at;
    line.told = told;
    line.who = logging.who;
    return run.log.emplace_back(std::move(line));
}

bool merges(const RunDocument& run, brewing::GaugePressure shows, Instant at,
            const Logging& logging) {
    if (run.log.empty())
        return false;
    const LogLine& last = run.log.back();
    return last.told == Told::reading && last.who == logging.who &&
           at - last.end() <= reading_merge_within &&
           level_of(run, *last.lowest) == level_of(run, shows);
}

} // namespace

Instant begin_line(RunDocument& run, const Logging& logging) {
    // A line before the mark of a gap lies inside it: it was noted while the daemon was down.
    const bool after_gap = !run.log.empty() && run.log.back().told == Told::interrupted;
    const Instant last = after_gap ? run.log.back().at : last_instant(run);
    // One that was sent without a time may have waited while a later one was logged.
    const Instant at = logging.at.value_or(std::max(logging.now, last));
    if (logging.at && at > logging.now)
        throw Error(ErrorKind::params, "from_the_future",
                    to_text(at) + " is later than the daemon's clock, " + to_text(logging.now) +
                        ".",
                    "Set the clock of the sender, or leave `at` out.", "/at");
    if (at < last)
        throw Error(ErrorKind::params, "out_of_order",
                    to_text(at) + " is before the last line of the log, " + to_text(last) + ".",
                    "Send lines in the order in which they happened.", "/at");
    mark_gap(run, logging);
    return at;
}

void require_open(const RunDocument& run, const Rules& rules) {
    const Phase phase = state_of(run, rules).phase;
    if (has_ended(phase))
        throw Error(ErrorKind::conflict, "already_ended",
                    "Run " + std::to_string(run.run) + " has ended already: it is " +
                        std::string(to_string(phase)) + ".",
                    "run.show tells how; nothing was changed.", "/run");
}

void log_turn(RunDocument& run, const Rules& rules, Turn turn,
              const std::optional<std::string>& note, const Logging& logging) {
    require_open(run, rules);
    const Phase phase = state_of(run, rules).phase;
    const auto possible = turns_in(phase);
    if (std::ranges::find(possible, turn) == possible.end())
        throw Error(ErrorKind::conflict, "not_now",
                    "Run " + std::to_string(run.run) + " is in its phase " +
                        std::string(to_string(phase)) + "; '" + std::string(to_string(turn)) +
                        "' cannot come now.",
                    possible.empty() ? "The seal test comes next (run.seal)."
                                     : "What can come: " + listed(possible) + ".",
                    "/turn");
    const Instant at = begin_line(run, logging);
    LogLine& line = add_line(run, Told::turn, at, logging);
    line.turn = turn;
    line.note = note;
}

void log_reading(RunDocument& run, const Rules& rules, brewing::GaugePressure shows,
                 const Logging& logging) {
    require_open(run, rules);
    if (state_of(run, rules).phase == Phase::seal_test)
        throw Error(ErrorKind::conflict, "not_now",
                    "The canner of run " + std::to_string(run.run) +
                        " is open; there is no pressure to read.",
                    "The seal test comes next (run.seal).", "/run");
    const Instant at = begin_line(run, logging);
    if (merges(run, shows, at, logging)) {
        LogLine& last = run.log.back();
        last.lowest = std::min(*last.lowest, shows);
        last.highest = std::max(last.highest.value_or(shows), shows);
        last.until = at;
        last.count = last.count.value_or(1) + 1;
        return;
    }
    LogLine& line = add_line(run, Told::reading, at, logging);
    line.lowest = shows;
    line.highest = shows;
}

brewing::GaugePressure pressure_read(const RunDocument& run,
                                     const std::optional<brewing::GaugePressure>& shows,
                                     const std::optional<bool>& rocking) {
    if (shows.has_value() == rocking.has_value())
        throw Error(ErrorKind::params, shows ? "too_much_said" : "missing",
                    "A reading is what the gauge shows, or whether the weight rocks.",
                    "Give `shows` or `rocking`.", "/shows");
    if (shows)
        return *shows;
    if (run.process.gauge != contract::Gauge::weighted)
        throw Error(ErrorKind::params, "no_weight",
                    "The canner '" + run.canner + "' has a dial; it shows a pressure.",
                    "Give `shows`.", "/rocking");
    // A weight at rest tells only that the pressure is below its own.
    return *rocking ? run.target : run.target * 0.5;
}

void log_note(RunDocument& run, Told told, const std::optional<std::string>& note,
              const Logging& logging) {
    const Instant at = begin_line(run, logging);
    add_line(run, told, at, logging).note = note;
}

} // namespace barmkeep::canning
