// A run to play with, and a hand to log on it, for tests of the pure core.
#pragma once

#include "plugins/canning/run_log.hpp"

namespace barmkeep::canning::test {

inline constexpr Seconds minutes(std::int64_t count) {
    return Seconds{count * 60};
}

/// Seven pints, dial gauge, 11 psi for twenty minutes; figures of the test's own, no process.
[[nodiscard]] RunDocument sample_run();

/// Logs on a run, minute by minute.
class Hand {
public:
    explicit Hand(RunDocument& run) : run_{run}, now_{run.started} {}

    Hand& wait(Seconds time) {
        now_ += time;
        return *this;
    }
    Hand& turn(Turn turn);
    Hand& shows(double psi);
    /// So many minutes at a pressure, with a reading at the end of every fifth and of the last.
    Hand& hold(double psi, std::int64_t for_minutes);

    [[nodiscard]] Instant now() const { return now_; }
    [[nodiscard]] RunState state() const { return state_of(run_, Rules{}); }
    [[nodiscard]] RunShown shown() const { return canning::shown(run_, now_, Rules{}); }
    [[nodiscard]] Logging logging() const { return {"anna", {}, now_, "first", run_.started}; }

    /// From the first jar filled to the canner opened, by the book.
    Hand& by_the_book();

private:
    RunDocument& run_;
    Instant now_;
};

/// Whether a warning of that key is there, and whether it holds the jars.
[[nodiscard]] bool warned(const RunState& state, std::string_view key);
[[nodiscard]] bool holds(const RunState& state, std::string_view key);

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
