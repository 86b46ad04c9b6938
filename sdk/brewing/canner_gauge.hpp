// A pressure canner's gauge: what it means at an altitude, and what is published about it.
//
// None of this makes a process.  No tested process for wort exists (docs/safety.md); the steam
// temperature shows what a gauge reading is worth, no more, and nothing here turns time and
// temperature into a judgement of safety, on purpose.
//
// Thread safety: pure functions over constant tables.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <chrono>
#include <span>
#include <string_view>

namespace barmkeep::brewing {

enum class GaugeType : unsigned char { dial, weighted };

/// Temperature of saturated steam at a gauge pressure, all air having been vented.  Air left in
/// the canner makes it colder than this at the same reading.
/// @param air pressure of the air around; standard_pressure() gives it by altitude
/// @throws OutOfRange below -50 kPa (-7 psi) or above 350 kPa (50 psi), beyond any canner.
[[nodiscard]] Temperature steam_temperature(GaugePressure gauge, AbsolutePressure air);
[[nodiscard]] Temperature steam_temperature(GaugePressure gauge, Length altitude);

/// The gauge pressure at which saturated steam has a temperature: the inverse.
/// @throws OutOfRange outside 80 to 140 C.
[[nodiscard]] GaugePressure gauge_pressure_for(Temperature steam, AbsolutePressure air);
[[nodiscard]] GaugePressure gauge_pressure_for(Temperature steam, Length altitude);

/// One line of the published tables of gauge pressure by altitude for low-acid food.
struct PressureBand {
    GaugeType gauge;
    Length from; ///< above this altitude (the first band begins at the sea)
    Length to;   ///< up to and with this altitude
    GaugePressure pressure;
    std::string_view status;  ///< how it is published, where that is less than all sources agreeing
    std::string_view sources; ///< source keys in docs/safety.md
};

/// All bands, dial first, by rising altitude.
[[nodiscard]] std::span<const PressureBand> pressure_bands() noexcept;

/// The band for a gauge and an altitude.  Below the sea, down to -500 m, the first band serves: the
/// air is heavier there, and the steam hotter at the same reading.
/// @throws OutOfRange above 10 000 ft (3048 m), where none is published.
[[nodiscard]] const PressureBand& published_band(GaugeType gauge, Length altitude);

/// The largest error of a dial gauge that may be allowed for; beyond it the published advice is to
/// replace the gauge (S29, S30).
inline constexpr GaugePressure largest_dial_error{2.0, psi_gauge};

/// What the canner holds when a dial that reads `reads_high_by` too high shows `reading`.
/// A dial that reads low has a negative error.
/// @throws OutOfRange for an error beyond largest_dial_error either way, or a reading that is not
///         0 to 350 kPa.
[[nodiscard]] GaugePressure true_pressure(GaugePressure reading, GaugePressure reads_high_by);

/// What such a dial must show for the canner to hold `wanted`: more, if it reads high (S31).  A
/// dial that reads low is given no credit, so the answer is never below `wanted`.
/// @throws OutOfRange as true_pressure().
[[nodiscard]] GaugePressure dial_target(GaugePressure wanted, GaugePressure reads_high_by);

/// The published caution for home-canned low-acid food that was not processed as recommended: boil
/// it 10 minutes, and one more for each 1000 ft (S6).  Between whole thousands the next is taken.
/// It is repeated here because that caution is often asked for; food that shows any sign of
/// spoilage is never to be eaten, boiled or not, and never tasted.
/// @throws OutOfRange outside -500 m to 10 000 ft.
[[nodiscard]] std::chrono::minutes caution_boil_time(Length altitude);

} // namespace barmkeep::brewing
