#include "sdk/brewing/canner_gauge.hpp"

#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/steam.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr double lowest_gauge = -50.0; // kPa
constexpr double highest_gauge = 350.0;
constexpr Length highest_published{10000.0, foot};

constexpr std::string_view all_agree = "published";
constexpr std::string_view extension_sources = "S1 S2 S3";

constexpr std::array<PressureBand, 7> bands{{
    {GaugeType::dial, 0.0 * foot, 2000.0 * foot, 11.0 * psi_gauge, all_agree, extension_sources},
    {GaugeType::dial, 2000.0 * foot, 4000.0 * foot, 12.0 * psi_gauge, all_agree, extension_sources},
    {GaugeType::dial, 4000.0 * foot, 6000.0 * foot, 13.0 * psi_gauge, all_agree, extension_sources},
    {GaugeType::dial, 6000.0 * foot, 8000.0 * foot, 14.0 * psi_gauge, all_agree, extension_sources},
    {GaugeType::dial, 8000.0 * foot, highest_published, 15.0 * psi_gauge,
     "published by a jar maker only; USDA tables end at 8000 ft", "S4"},
    {GaugeType::weighted, 0.0 * foot, 1000.0 * foot, 10.0 * psi_gauge, all_agree,
     extension_sources},
    {GaugeType::weighted, 1000.0 * foot, highest_published, 15.0 * psi_gauge,
     "published without an upper end; taken to end where the dial table does", extension_sources},
}};

void require_published_altitude(Length altitude) {
    require_within("altitude", altitude.in(foot), lowest_altitude.in(foot),
                   highest_published.in(foot), "ft",
                   "no process is published for a higher place: ask the local extension service");
}

void require_gauge(GaugePressure gauge) {
    require_within("gauge pressure", gauge.in(kilopascal_gauge), lowest_gauge, highest_gauge, "kPa",
                   "a canner works between 0 and 15 psi (103 kPa)");
}

void require_small_error(GaugePressure error) {
    const double limit = largest_dial_error.in(psi_gauge);
    require_within("error of the dial gauge", error.in(psi_gauge), -limit, limit, "psi",
                   "replace a gauge that is off by more, and have the new one tested each year");
}

} // namespace

Temperature steam_temperature(GaugePressure gauge, AbsolutePressure air) {
    require_gauge(gauge);
    require_within("pressure of the air", air.in(kilopascal), 20.0, 115.0, "kPa",
                   "give the station pressure of the barometer, or the altitude");
    return saturation_temperature(air + gauge);
}

Temperature steam_temperature(GaugePressure gauge, Length altitude) {
    return steam_temperature(gauge, standard_pressure(altitude));
}

GaugePressure gauge_pressure_for(Temperature steam, AbsolutePressure air) {
    require_within("temperature of the steam", steam.celsius(), 80.0, 140.0, "°C",
                   "a canner's steam is between 100 and 122 °C");
    return GaugePressure::of_canonical(saturation_pressure(steam).canonical() - air.canonical());
}

GaugePressure gauge_pressure_for(Temperature steam, Length altitude) {
    return gauge_pressure_for(steam, standard_pressure(altitude));
}

std::span<const PressureBand> pressure_bands() noexcept {
    return bands;
}

const PressureBand& published_band(GaugeType gauge, Length altitude) {
    require_published_altitude(altitude);
    return *std::find_if(bands.begin(), bands.end(), [&](const PressureBand& band) {
        return band.gauge == gauge && altitude <= band.to;
    });
}

GaugePressure true_pressure(GaugePressure reading, GaugePressure reads_high_by) {
    require_small_error(reads_high_by);
    require_within("reading of the gauge", reading.in(kilopascal_gauge), 0.0, highest_gauge, "kPa",
                   "read the dial in psi or kPa");
    return reading - reads_high_by;
}

GaugePressure dial_target(GaugePressure wanted, GaugePressure reads_high_by) {
    require_small_error(reads_high_by);
    require_gauge(wanted);
    return wanted + std::max(reads_high_by, GaugePressure{});
}

std::chrono::minutes caution_boil_time(Length altitude) {
    require_published_altitude(altitude);
    const double feet = altitude.in(foot);
    constexpr double rounding = 1e-9; // so that 304.8 m is 1000 ft and not a hair more
    const double extra = feet < 1000.0 - rounding ? 0.0 : std::ceil(feet / 1000.0 - rounding);
    return std::chrono::minutes{10 + static_cast<int>(extra)};
}

} // namespace barmkeep::brewing
