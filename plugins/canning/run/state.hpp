// Where a run is: computed from its log, every time it is asked, and kept nowhere.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run/messages.hpp"
#include "plugins/canning/settings.hpp"

namespace barmkeep::canning {

// What is published, with its sources in docs/safety.md.
inline constexpr Seconds vent_least{10 * 60};           // S14 S15 S3
inline constexpr Seconds cooling_quickest{20 * 60};     // S17 S18 S3: 20 to 30 min, thin walls
inline constexpr Seconds wait_after_zero{10 * 60};      // S3 S16 S90; 2 minutes in the text of 1994
inline constexpr Seconds seal_test_earliest{12 * 3600}; // S19
inline constexpr Seconds failed_jar_latest{24 * 3600};  // S20 S75, from heat off
inline constexpr Seconds deviation_window{2 * 3600};    // S74, from the opening of the canner
inline constexpr int deviation_cold_days = 2;           // S75

/// How far the host's clock and the machine's uptime may differ between two lines.
inline constexpr std::chrono::milliseconds clock_tolerance{2000};

/// What counts as zero pressure on a gauge: below half a psi.
inline constexpr brewing::GaugePressure zero_pressure{0.5, brewing::psi_gauge};

/// On which side of what matters a reading lies.
enum class Level { zero, below, reached };
[[nodiscard]] Level level_of(const RunDocument& run, brewing::GaugePressure shows);

/// A run's state.
struct RunState {
    Phase phase = Phase::filling;
    Instant since;
    std::vector<PhaseClock> clocks; ///< the open one has no `until`
    std::int64_t restarts = 0;
    std::int64_t readings = 0;
    std::vector<Warning> warnings;
    std::vector<Gap> gaps;
    std::optional<brewing::GaugePressure> last_reading;
    std::optional<Instant> last_reached; ///< last reading at the target since it was reached
    std::optional<Instant> heat_off;
    std::optional<Instant> zero_at;
    std::optional<Instant> opened;
    bool time_completed = false; ///< the process's time, unbroken, before the heat went off
    std::optional<SealTest> seal_test;
    std::int64_t seal_tests = 0; ///< those undone since count too
    std::int64_t spoiled = 0;    ///< jars found spoiled

    /// The warnings of a kind that stand, oldest first.
    [[nodiscard]] std::vector<Warning> standing(contract::HoldKind kind) const;
    [[nodiscard]] bool has_deviation() const;
    [[nodiscard]] bool is_complete() const; ///< nothing stands that would hold the jars
    /// By when the next reading is due; nothing while none is.
    [[nodiscard]] std::optional<Instant> reading_due_by(const RunDocument& run,
                                                        const RunRules& rules) const;
};

/// The state after all lines, those left out that a later line strikes out.
///
/// A strike does not remove a deviation without a trace: if a deviation goes with a step that is
/// struck out, the log no longer shows what happened, and the jars are held for missing evidence.
[[nodiscard]] RunState state_of(const Run& run, const RunRules& rules);

} // namespace barmkeep::canning
