#include "plugins/canning/run/log.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

/// The steps that can be logged in each phase. What is against the guidance is among them: it
/// happened, so it belongs into the log.
std::vector<Step> steps_in(Phase phase) {
    using enum Step;
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

std::string listed(const std::vector<Step>& steps) {
    std::string text;
    for (const Step step : steps)
        text += (text.empty() ? "" : ", ") + std::string(to_string(step));
    return text;
}

/// The start of the plugin in which the last line was logged.
const Session& last_session(const Run& run) {
    for (auto line = run.log.rbegin(); line != run.log.rend(); ++line)
        if (line->session)
            return *line->session;
    return run.begun.session;
}

std::string named(const Run& run) {
    return "Run " + std::to_string(run.number);
}

std::string seal_test_next(const Run& run) {
    return "The seal test comes next: barm run seal-test " + std::to_string(run.number);
}

std::string in_words(Phase phase) {
    std::string words{to_string(phase)};
    std::ranges::replace(words, '_', ' ');
    return words;
}

} // namespace

LogLine new_line(const Run& run, LineKind kind, const Logging& logging) {
    LogLine line;
    line.kind = kind;
    line.who = logging.who;
    const Instant last = run.log.empty() ? run.begun.started : run.log.back().at;
    // One that was sent without a time may have waited while a later one was logged.
    line.at = logging.at.value_or(std::max(logging.now, last));
    if (logging.at && line.at > logging.now)
        throw Error(ErrorKind::params, "from_the_future",
                    to_text(line.at) + " is later than the daemon's clock, " +
                        to_text(logging.now) + ".",
                    "Set the clock of the sender, or leave --at out.", "/at");
    if (line.at < last)
        throw Error(ErrorKind::params, "out_of_order",
                    to_text(line.at) + " is before the last line of the log, " + to_text(last) +
                        ".",
                    "Log lines in the order in which they happened.", "/at");
    if (line.at != logging.now)
        line.logged = logging.now;
    line.uptime = logging.uptime;
    if (last_session(run).word != logging.session.word)
        line.session = logging.session;
    return line;
}

void require_open(const Run& run, const RunRules& rules) {
    const Phase phase = state_of(run, rules).phase;
    if (has_ended(phase))
        throw Error(ErrorKind::conflict, "already_ended",
                    named(run) + " has ended: it is " + in_words(phase) + ".",
                    "Nothing was changed. See the run: barm run show " + std::to_string(run.number),
                    "/run");
}

LogLine step_line(const Run& run, const RunRules& rules, Step step,
                  const std::optional<std::string>& note, const Logging& logging) {
    require_open(run, rules);
    const Phase phase = state_of(run, rules).phase;
    const auto possible = steps_in(phase);
    if (std::ranges::find(possible, step) == possible.end())
        throw Error(ErrorKind::conflict, "not_now",
                    named(run) + " is in the phase '" + in_words(phase) + "'. The step " +
                        std::string(to_string(step)) + " cannot come now.",
                    possible.empty() ? seal_test_next(run)
                                     : "These steps can come now: " + listed(possible) + ".",
                    "/step");
    LogLine line = new_line(run, LineKind::step, logging);
    line.step = step;
    line.note = note;
    return line;
}

LogLine reading_line(const Run& run, const RunRules& rules, brewing::GaugePressure shows,
                     const Logging& logging) {
    require_open(run, rules);
    if (state_of(run, rules).phase == Phase::seal_test)
        throw Error(ErrorKind::conflict, "not_now",
                    "The canner of run " + std::to_string(run.number) +
                        " is open, so it has no pressure.",
                    seal_test_next(run), "/run");
    if (run.log.size() >= log_lines_max)
        throw Error(ErrorKind::busy, "log_full",
                    "The log of run " + std::to_string(run.number) +
                        " is full: " + std::to_string(log_lines_max) + " lines.",
                    "Send readings less often; one every 30 seconds is enough.");
    LogLine line = new_line(run, LineKind::reading, logging);
    line.shows = shows;
    return line;
}

bool is_struck(const Run& run, std::int64_t number) {
    return std::ranges::any_of(run.log, [&](const LogLine& line) {
        return line.kind == LineKind::strike && line.strikes == number;
    });
}

LogLine strike_line(const Run& run, const RunRules& rules, std::int64_t number,
                    const std::string& reason, const Logging& logging) {
    require_open(run, rules);
    // What the jars were judged by must not change under them, not even while a count is put right.
    if (state_of(run, rules).seal_tests > 0)
        throw Error(ErrorKind::conflict, "counted",
                    "The seals of run " + std::to_string(run.number) +
                        " were counted, so its log cannot change.",
                    "Only the count itself can be undone: barm run undo-seal-test " +
                        std::to_string(run.number),
                    "/line");
    if (number < 1 || number > std::ssize(run.log))
        throw Error(ErrorKind::not_found, "unknown_line",
                    named(run) + " has no line " + std::to_string(number) + ".",
                    "See the numbers: barm run show " + std::to_string(run.number), "/line");
    const LogLine& struck = run.log[static_cast<std::size_t>(number - 1)];
    if (struck.kind != LineKind::step && struck.kind != LineKind::reading)
        throw Error(ErrorKind::conflict, "not_strikable",
                    "Line " + std::to_string(number) + " is neither a step nor a reading.",
                    "You can strike out only these. If a strike was wrong, log the line again.",
                    "/line");
    if (is_struck(run, number))
        throw Error(ErrorKind::conflict, "already_struck",
                    "Line " + std::to_string(number) + " is struck out already.",
                    "Nothing was changed.", "/line");
    LogLine line = note_line(run, LineKind::strike, reason, logging);
    line.strikes = number;
    return line;
}

brewing::GaugePressure pressure_read(const RunDocument& run,
                                     const std::optional<brewing::GaugePressure>& shows,
                                     const std::optional<bool>& rocking) {
    if (shows.has_value() == rocking.has_value())
        throw Error(
            ErrorKind::params, shows ? "too_much_said" : "missing",
            shows ? "You gave both what the gauge shows and whether the weight rocks."
                  : "The reading is missing: what the gauge shows, or whether the weight rocks.",
            "Give one of them, for example: barm run gauge RUN '12 psi'", "/shows");
    if (shows)
        return *shows;
    if (run.process.process.gauge != contract::Gauge::weighted)
        throw Error(ErrorKind::params, "no_weight",
                    "The canner '" + run.canner + "' has a dial, so its reading is a pressure.",
                    "Give what the dial shows, for example: barm run gauge RUN '12 psi'",
                    "/rocking");
    // A weight at rest says only that the pressure is below its own.
    return *rocking ? run.target : run.target * 0.5;
}

LogLine note_line(const Run& run, LineKind kind, const std::optional<std::string>& note,
                  const Logging& logging) {
    LogLine line = new_line(run, kind, logging);
    line.note = note;
    return line;
}

} // namespace barmkeep::canning
