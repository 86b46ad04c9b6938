#include "plugins/canning/process_check.hpp"

#include "plugins/canning/sources.hpp"
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace barmkeep::canning {
namespace {

using brewing::GaugePressure;
using brewing::GaugeType;
using contract::Gauge;

constexpr GaugeType type_of(Gauge gauge) {
    return gauge == Gauge::dial ? GaugeType::dial : GaugeType::weighted;
}

std::string one_decimal(double value) {
    const double rounded = std::round(value * 10) / 10;
    std::string text = std::to_string(rounded);
    text.resize(text.find('.') + 2);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

/// Words by which people name a boiling-water bath.
bool names_water_bath(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char letter) {
        return letter == '-' ? ' ' : static_cast<char>(std::tolower(letter));
    });
    return text.find("water bath") != std::string::npos ||
           text.find("boiling water") != std::string::npos;
}

[[noreturn]] void refuse_water_bath(std::string_view pointer) {
    throw Error(ErrorKind::params, "boiling_water_bath",
                "A boiling-water bath is no process for wort: it is a low-acid food (above pH "
                "4.6), and boiling water does not kill the spores of Clostridium botulinum.",
                "Use a pressure canner, or keep starter wort frozen instead.", pointer);
}

} // namespace

std::string pressure_text(GaugePressure pressure) {
    return one_decimal(pressure.in(brewing::psi_gauge)) + " psi (" +
           one_decimal(pressure.in(brewing::kilopascal_gauge)) + " kPa)";
}

std::string target_text(GaugePressure pressure) {
    const auto up = [](double value) {
        constexpr double hair = 1e-6; // a conversion's, not the brewer's
        return one_decimal(std::ceil(value * 10.0 - hair) / 10.0);
    };
    return up(pressure.in(brewing::psi_gauge)) + " psi (" +
           up(pressure.in(brewing::kilopascal_gauge)) + " kPa)";
}

std::string temperature_text(brewing::Temperature temperature) {
    return one_decimal(temperature.fahrenheit()) + " F (" + one_decimal(temperature.celsius()) +
           " C)";
}

brewing::Length altitude_of(const contract::Cellar& cellar) {
    if (!cellar.altitude)
        throw Error(ErrorKind::conflict, "altitude_missing",
                    "The cellar's altitude is not known, and canning pressure depends on it.",
                    "Set it with cellar.set, for example: barm cellar set --altitude '520 m'.");
    return *cellar.altitude;
}

AtAltitude at_altitude(Gauge gauge, GaugePressure pressure, brewing::Length altitude) {
    try {
        const auto& band = brewing::published_band(type_of(gauge), altitude);
        return {altitude, band.pressure, resolved(band.sources),
                brewing::steam_temperature(pressure, altitude)};
    } catch (const brewing::OutOfRange& fault) {
        throw Error(ErrorKind::conflict, "altitude_unpublished", fault.finding(), fault.advice());
    }
}

void check_process(const Process& process, brewing::Length altitude) {
    if (process.pressure <= GaugePressure{})
        refuse_water_bath("/pressure");
    if (names_water_bath(process.source))
        refuse_water_bath("/source");
    if (process.note && names_water_bath(*process.note))
        refuse_water_bath("/note");
    const AtAltitude known = at_altitude(process.gauge, process.pressure, altitude);
    if (process.pressure + wire_step < known.band)
        throw Error(ErrorKind::params, "below_published_band",
                    pressure_text(process.pressure) + " is below the pressure published for " +
                        "low-acid food with a " + std::string(to_string(process.gauge)) +
                        " gauge at " + brewing::print(altitude, brewing::System::metric) + " (" +
                        brewing::print(altitude, brewing::System::us) +
                        "): " + pressure_text(known.band) + ".",
                    "Published by: " + known.band_source +
                        ".  Ask your source for the pressure at your altitude.",
                    "/pressure");
}

void check_canner(const contract::Canner& canner, const Process& process, std::string_view jar,
                  Date today) {
    if (process.jar != jar)
        throw Error(ErrorKind::conflict, "other_jar",
                    "The process '" + process.name + "' is for '" + process.jar + "' jars, not '" +
                        std::string(jar) + "'.",
                    "No rule leads from one jar size to another; name a process for this one.",
                    "/process");
    if (process.gauge != canner.gauge)
        throw Error(ErrorKind::conflict, "other_gauge",
                    "The process '" + process.name + "' is for a " +
                        std::string(to_string(process.gauge)) + " gauge, and the canner '" +
                        canner.name + "' has a " + std::string(to_string(canner.gauge)) + " one.",
                    "Name a process for this gauge.", "/process");
    if (canner.gauge != Gauge::dial)
        return;
    if (!canner.gauge_tested || days_between(*canner.gauge_tested, today) > gauge_test_days_max)
        throw Error(ErrorKind::conflict, "gauge_untested",
                    "The dial of the canner '" + canner.name + "' was " +
                        (canner.gauge_tested ? "last tested on " + to_text(*canner.gauge_tested)
                                             : std::string("never tested")) +
                        "; a dial gauge is tested every year before use.",
                    "Have it tested, then record the day and the error with canner.set.",
                    "/canner");
    const auto error = canner.gauge_error.value_or(GaugePressure{});
    if (std::max(error, -error) > brewing::largest_dial_error + wire_step)
        throw Error(ErrorKind::conflict, "gauge_off",
                    "The dial of the canner '" + canner.name + "' is off by " +
                        pressure_text(error) + ", more than 2 psi.",
                    "Replace the gauge; no correction is allowed for so large an error.",
                    "/canner");
}

GaugePressure target_of(const contract::Canner& canner, const Process& process) {
    if (canner.gauge != Gauge::dial)
        return process.pressure;
    return brewing::dial_target(process.pressure, canner.gauge_error.value_or(GaugePressure{}));
}

} // namespace barmkeep::canning
