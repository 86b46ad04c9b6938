// Where a run is: computed from its log, every time it is asked, and kept nowhere.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run_messages.hpp"

namespace barmkeep::canning {

// What is published, with its sources in docs/safety.md.
inline constexpr Seconds vent_least{10 * 60};           // S14 S15 S3
inline constexpr Seconds pressurise_usual{5 * 60};      // S14 S15: the next 3 to 5 minutes
inline constexpr Seconds cooling_quickest{20 * 60};     // S17 S18 S3: 20 to 30 min, thin walls
inline constexpr Seconds wait_after_zero{10 * 60};      // S3 S16; 2 minutes in the text of 1994
inline constexpr Seconds seal_test_earliest{12 * 3600}; // S19
inline constexpr Seconds seal_test_latest{24 * 3600};   // S19
inline constexpr Seconds failed_jar_latest{24 * 3600};  // S20 S21

/// What counts as zero pressure on a gauge: below half a psi.
inline constexpr brewing::GaugePressure zero_pressure{0.5, brewing::psi_gauge};

/// Settings of the house that are no published figures.
struct Rules {
    /// The longest stretch at pressure without a reading that still counts as watched.
    Seconds reading_gap_max{10 * 60};
};

/// On which side of what matters a reading lies.
enum class Level { zero, below, reached };
[[nodiscard]] Level level_of(const RunDocument& run, brewing::GaugePressure shows);

/// A run's state.
struct RunState {
    Phase phase = Phase::filling;
    Instant since;
    std::vector<PhaseClock> clocks; ///< the open one has no `until`
    std::int64_t restarts = 0;
    std::vector<Warning> warnings;
    std::vector<Gap> gaps;
    std::optional<brewing::GaugePressure> last_reading;
    std::optional<Instant> last_reached; ///< last reading at the target in this hold
    std::optional<Instant> heat_off;
    std::optional<Instant> zero_at;
    std::optional<Instant> opened;
    bool time_completed = false; ///< the process's time, unbroken, before the heat went off

    /// What keeps the log from being complete, one sentence each.
    [[nodiscard]] std::vector<std::string> missing() const;
};

[[nodiscard]] RunState state_of(const RunDocument& run, const Rules& rules);

/// The state with its clocks at an instant, as it is shown.
[[nodiscard]] RunShown shown(const RunDocument& run, Instant at, const Rules& rules);
/// "at pressure 12 min 30 s, 7 min 30 s to go".
[[nodiscard]] std::string countdown(const RunShown& run);

} // namespace barmkeep::canning
