// Checks of the brewer's process against what is published, and of the canner that is to run it.
//
// Nothing here approves a process: a pressure that passes is only not below the published band for
// low-acid food, a time that passes is only not below that of another food, and no process for wort
// is published at all.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/process/messages.hpp"
#include "sdk/contract/cellar.hpp"

namespace barmkeep::canning {

/// A dial gauge is tested every year before use (S29, S30).
inline constexpr int gauge_test_days_max = 365;

/// Pressures travel rounded to this, so one given in psi may come back this much smaller.
inline constexpr brewing::GaugePressure wire_step{0.001, brewing::kilopascal_gauge};

/// What Barmkeep says about a time below the shortest published one, wherever it shows.
inline constexpr std::string_view shorter_than_published =
    "shorter than any low-acid process published for this jar (meat stock, not wort); longer "
    "proves nothing";

/// The cellar's altitude. Throws Error(conflict, "altitude_missing").
[[nodiscard]] brewing::Length altitude_of(const contract::Cellar& cellar);

/// Band and steam temperature for a pressure.
/// Throws Error(conflict, "altitude_unpublished") above the highest published altitude.
[[nodiscard]] AtAltitude at_altitude(contract::Gauge gauge, brewing::GaugePressure pressure,
                                     brewing::Length altitude);

/// The size that a jar counts as. Throws Error(conflict): "jar_size_missing" if it is not stated,
/// "jar_too_large" above a quart or 946 mL, "jar_size_too_small" if the jar takes more than a jar
/// of that size holds.
[[nodiscard]] contract::JarClass jar_class_of(const contract::JarSize& jar);

/// The shortest time that is published for low-acid food in a jar of that size: meat stock (S1 S2;
/// a half-pint takes the time of a pint, S34). It is no process for wort.
/// REQUIRES: not `larger`.
[[nodiscard]] Seconds shortest_published(contract::JarClass size);

/// Refuses, with Error(params): every appliance but a pressure canner, by its field, its pressure
/// or the words of source and note (the reason is the appliance's name); a pressure below the
/// published band ("below_published_band").
void check_process(const Process& process, brewing::Length altitude);

/// The confirmation of a process whose time is shorter than any published; nothing if it is not.
/// Throws Error(params, "not_confirmed") unless `typed` is the process's name.
[[nodiscard]] std::optional<Confirmation> confirmation_of(const Process& process,
                                                          contract::JarClass size,
                                                          const std::optional<std::string>& typed,
                                                          const std::string& who, Instant at);

/// Refuses, with Error(conflict): a process for another kind of gauge or jar; a dial gauge that was
/// never tested, or over a year ago, or is off by more than 2 psi.
void check_canner(const contract::Canner& canner, const Process& process, std::string_view jar,
                  Date today);

/// What the gauge of this canner must show for the pressure of the process.
[[nodiscard]] brewing::GaugePressure target_of(const contract::Canner& canner,
                                               const Process& process);

/// Published figures, computed ones and common practice, each with its source, for
/// process.reference; `altitude` is the cellar's, if known. No process and no process time.
[[nodiscard]] std::vector<std::string> reference_lines(std::optional<brewing::Length> altitude);

/// "11 psi (75.8 kPa)", whatever the program's locale.
[[nodiscard]] std::string pressure_text(brewing::GaugePressure pressure);
/// The same for a pressure to be reached: rounded up, so that a gauge that shows it has reached it.
[[nodiscard]] std::string target_text(brewing::GaugePressure pressure);
/// "240.1 F (115.6 C)".
[[nodiscard]] std::string temperature_text(brewing::Temperature temperature);

} // namespace barmkeep::canning
