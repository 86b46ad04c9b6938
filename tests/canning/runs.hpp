// A run to play with, and a hand to log on it, for tests of the pure core.
#pragma once

#include "plugins/canning/run/log.hpp"
#include "plugins/canning/run/view.hpp"

namespace barmkeep::canning::test {

inline constexpr Seconds minutes(std::int64_t count) {
    return Seconds{count * 60};
}
inline constexpr Seconds hours(std::int64_t count) {
    return Seconds{count * 3600};
}

/// Seven pints, dial gauge, 11 psi for twenty minutes; figures of the test's own, no process.
[[nodiscard]] Run sample_run();

/// Logs on a run, minute by minute.
class Hand {
public:
    explicit Hand(Run& run) : run_{run}, now_{run.begun.started} {}

    Hand& wait(Seconds time) {
        now_ += time;
        return *this;
    }
    Hand& step(Step step);
    Hand& shows(double psi);
    Hand& strike(std::int64_t line, const std::string& reason = "mistyped");
    Hand& log(LogLine line);
    /// So many minutes at a pressure, with a reading at the end of every fifth and of the last.
    Hand& keep_pressure(double psi, std::int64_t for_minutes);

    [[nodiscard]] Instant now() const { return now_; }
    [[nodiscard]] RunState state() const { return state_of(run_, RunRules{}); }
    [[nodiscard]] RunDetails shown() const { return details_of(run_, now_, RunRules{}); }
    [[nodiscard]] RunSummary seen() const { return summary_of(run_, now_, RunRules{}); }
    [[nodiscard]] Logging logging() const { return {"anna", {}, now_, run_.begun.session, {}}; }

    /// Vents by the book and brings the gauge to a pressure.
    Hand& up_to_pressure(double psi = 11.5);
    /// From the first jar filled to the canner opened, by the book.
    Hand& by_the_book();
    /// From heat off to the canner opened.
    Hand& cool_and_open();

private:
    Run& run_;
    Instant now_;
};

/// Whether a warning of that key is there, and whether it holds the jars for that reason.
[[nodiscard]] bool warned(const RunState& state, std::string_view key);
[[nodiscard]] bool deviates(const RunState& state, std::string_view key);
[[nodiscard]] bool lacks_evidence(const RunState& state, std::string_view key);

/// Runs what should throw an Error and answers it; fails the test if nothing is thrown.
template <class Work>
Error error_of(Work work) {
    try {
        work();
    } catch (const Error& error) {
        return error;
    }
    throw std::logic_error("no error was thrown");
}

} // namespace barmkeep::canning::test
