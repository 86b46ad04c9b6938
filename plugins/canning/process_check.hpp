// Checks of the brewer's process against what is published, and of the canner that is to run it.
//
// Nothing here approves a process: a pressure that passes is only not below the published band for
// low-acid food, and no process for wort is published at all.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/process_messages.hpp"
#include "sdk/contract/cellar.hpp"

namespace barmkeep::canning {

/// A dial gauge is tested every year before use (S29, S30).
inline constexpr int gauge_test_days_max = 365;

/// Pressures travel rounded to this, so one given in psi may come back this much smaller.
inline constexpr brewing::GaugePressure wire_step{0.001, brewing::kilopascal_gauge};

/// The cellar's altitude.  Throws Error(conflict, "altitude_missing").
[[nodiscard]] brewing::Length altitude_of(const contract::Cellar& cellar);

/// Band and steam temperature for a pressure.
/// Throws Error(conflict, "altitude_unpublished") above the highest published altitude.
[[nodiscard]] AtAltitude at_altitude(contract::Gauge gauge, brewing::GaugePressure pressure,
                                     brewing::Length altitude);

/// Refuses, with Error(params): a boiling-water bath, by its pressure or by the words of its
/// source ("boiling_water_bath"); a pressure below the published band ("below_published_band").
void check_process(const Process& process, brewing::Length altitude);

/// Refuses, with Error(conflict): a process for another kind of gauge or jar; a dial gauge that was
/// never tested, or over a year ago, or is off by more than 2 psi.
void check_canner(const contract::Canner& canner, const Process& process, std::string_view jar,
                  Date today);

/// What the gauge of this canner must show for the pressure of the process.
[[nodiscard]] brewing::GaugePressure target_of(const contract::Canner& canner,
                                               const Process& process);

/// Rules of thumb beside what they really come to; `altitude` is the cellar's, if known.
[[nodiscard]] std::vector<Practice> common_practice(std::optional<brewing::Length> altitude);

/// "11 psi (75.84 kPa)".
[[nodiscard]] std::string pressure_text(brewing::GaugePressure pressure);
/// The same for a pressure to be reached: rounded up, so that who reads it off and obeys is there.
[[nodiscard]] std::string target_text(brewing::GaugePressure pressure);
/// "240.1 F (115.6 C)".
[[nodiscard]] std::string temperature_text(brewing::Temperature temperature);

} // namespace barmkeep::canning
