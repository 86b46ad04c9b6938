// New lines of a run's log: what may be logged when, and in what order.
//
// Thread safety: pure functions; none changes the run, they answer the line to append.
#pragma once

#include "plugins/canning/run/state.hpp"

namespace barmkeep::canning {

/// Who logs, when it happened, and what the clocks say now.
struct Logging {
    std::string who;
    std::optional<Instant> at; ///< now, if absent
    Instant now;
    Session session; ///< the plugin's own start
    std::optional<std::int64_t> uptime;
};

/// Steps are always taken; readings and what follows the seal test end here, so that a gauge reader
/// that runs wild does not fill the cellar.
inline constexpr std::size_t log_lines_max = 10'000;

/// A line with its instant. Throws Error(params): "from_the_future" for what is later than now,
/// "out_of_order" for what is before the last line.
[[nodiscard]] LogLine new_line(const Run& run, LineKind kind, const Logging& logging);

/// Throws Error(conflict): "not_now" for a step that cannot come here, "already_ended".
[[nodiscard]] LogLine step_line(const Run& run, const RunRules& rules, Step step,
                                const std::optional<std::string>& note, const Logging& logging);

/// Throws Error(conflict) where the run has no pressure any more, Error(busy, "log_full").
[[nodiscard]] LogLine reading_line(const Run& run, const RunRules& rules,
                                   brewing::GaugePressure shows, const Logging& logging);

/// Throws Error(not_found, "unknown_line"), and Error(conflict): "already_ended", "counted" after
/// the first seal test, "not_strikable" for a line that is no step or reading, "already_struck".
[[nodiscard]] LogLine strike_line(const Run& run, const RunRules& rules, std::int64_t number,
                                  const std::string& reason, const Logging& logging);

/// A line that is no step and no reading.
[[nodiscard]] LogLine note_line(const Run& run, LineKind kind,
                                const std::optional<std::string>& note, const Logging& logging);

/// What a reading says: the pressure shown, or for a weighted gauge whether its weight rocks.
/// Throws Error(params).
[[nodiscard]] brewing::GaugePressure
pressure_read(const RunDocument& run, const std::optional<brewing::GaugePressure>& shows,
              const std::optional<bool>& rocking);

/// Throws Error(conflict, "already_ended") for a run that is shelved or abandoned.
void require_open(const Run& run, const RunRules& rules);

/// Whether a later line strikes out a line, by its number.
[[nodiscard]] bool is_struck(const Run& run, std::int64_t number);

} // namespace barmkeep::canning
