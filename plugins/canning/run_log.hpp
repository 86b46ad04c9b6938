// Adding to a run's log: what may be logged when, and in what order.
//
// Thread safety: pure functions over the caller's own document.
#pragma once

#include "plugins/canning/run_state.hpp"

namespace barmkeep::canning {

/// Who logs, when it happened, and what the clock says now.
struct Logging {
    std::string who;
    std::optional<Instant> at; ///< now, if absent
    Instant now;
    std::string_view session; ///< the plugin's own start
    Instant session_began;
};

/// Readings of one sender that follow each other so closely, on one side of the target, share a
/// line, so that a gauge reader that sends every second does not overflow the log.
inline constexpr Seconds reading_merge_within{15};
/// Readings end here, so that the run fits into one record; turns are always taken.
inline constexpr std::size_t log_lines_max = 1200;

/// Checks the order of time: throws Error(params) "from_the_future" for what is later than now, and
/// "out_of_order" for what is before the last line.  Marks the gap first, if the plugin was started
/// anew since the last line.  Answers the instant to log.
[[nodiscard]] Instant begin_line(RunDocument& run, const Logging& logging);

/// Throws Error(conflict, "not_now") for a turn that cannot come here, and "already_ended".
void log_turn(RunDocument& run, const Rules& rules, Turn turn,
              const std::optional<std::string>& note, const Logging& logging);

/// Throws Error(conflict) where the run has no pressure any more.
void log_reading(RunDocument& run, const Rules& rules, brewing::GaugePressure shows,
                 const Logging& logging);

/// What a reading says: the pressure shown, or for a weighted gauge whether its weight rocks.
/// Throws Error(params).
[[nodiscard]] brewing::GaugePressure
pressure_read(const RunDocument& run, const std::optional<brewing::GaugePressure>& shows,
              const std::optional<bool>& rocking);

/// A line that is no turn and no reading.
void log_note(RunDocument& run, Told told, const std::optional<std::string>& note,
              const Logging& logging);

/// Throws Error(conflict, "already_ended") for a run that is shelved or abandoned.
void require_open(const RunDocument& run, const Rules& rules);

} // namespace barmkeep::canning
