#include "plugins/canning/process/check.hpp"

#include "plugins/canning/process/appliance.hpp"
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <array>
#include <charconv>
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
    std::array<char, 40> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value,
                                   std::chars_format::fixed, 1)
                         .ptr;
    std::string text(digits.data(), end);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

void require_no_other_appliance(std::string_view text, std::string_view pointer) {
    if (const auto named = appliance_named_in(text))
        require_pressure_canner(*named, pointer);
}

/// The most that a jar of a size holds (S34): US measure, exact.
brewing::Volume volume_of(contract::JarClass size) {
    constexpr double quart_in_litres = 0.946352946;
    switch (size) {
    case contract::JarClass::half_pint:
        return quart_in_litres / 4 * brewing::litre;
    case contract::JarClass::pint:
        return quart_in_litres / 2 * brewing::litre;
    default:
        return quart_in_litres * brewing::litre;
    }
}

} // namespace

std::string pressure_text(GaugePressure pressure) {
    return one_decimal(pressure.in(brewing::psi_gauge)) + " psi (" +
           one_decimal(pressure.in(brewing::kilopascal_gauge)) + " kPa)";
}

std::string target_text(GaugePressure pressure) {
    const auto up = [](double value) {
        constexpr double tolerance = 1e-6; // of a conversion, not of the brewer
        return one_decimal(std::ceil(value * 10.0 - tolerance) / 10.0);
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
                    "The cellar's altitude is not known, and the pressure depends on it.",
                    "Set it, for example: barm cellar set --altitude '520 m'");
    return *cellar.altitude;
}

AtAltitude at_altitude(Gauge gauge, GaugePressure pressure, brewing::Length altitude) {
    try {
        const auto& band = brewing::published_band(type_of(gauge), altitude);
        return {altitude, band.pressure, "[" + std::string(band.sources) + "]",
                brewing::steam_temperature(pressure, altitude)};
    } catch (const brewing::OutOfRange& fault) {
        throw Error(ErrorKind::conflict, "altitude_unpublished", fault.finding(), fault.advice());
    }
}

contract::JarClass jar_class_of(const contract::JarSize& jar) {
    using contract::JarClass;
    if (!jar.size)
        throw Error(ErrorKind::conflict, "jar_size_missing",
                    "The jar '" + jar.name + "' has no size: half_pint, pint or quart.",
                    "State it, for a jar between two sizes the larger one: barm jar set '" +
                        jar.name + "' --size pint",
                    "/jar");
    if (*jar.size == JarClass::larger || jar.fill > volume_of(JarClass::quart))
        throw Error(
            ErrorKind::conflict, "jar_too_large",
            "The jar '" + jar.name +
                "' is larger than a quart (946 mL). No process for low-acid food is published "
                "for such a jar, and none can be worked out from a smaller one. [S92 S35]",
            "Use jars of a quart or less.", "/jar");
    if (jar.fill > volume_of(*jar.size))
        throw Error(ErrorKind::conflict, "jar_size_too_small",
                    "The jar '" + jar.name + "' takes " +
                        brewing::print(jar.fill, brewing::System::metric) +
                        ", more than a jar of the size " + std::string(to_string(*jar.size)) +
                        " holds.",
                    "A jar between two sizes counts as the larger one: barm jar set '" + jar.name +
                        "' --size with the next larger size.",
                    "/jar");
    return *jar.size;
}

Seconds shortest_published(contract::JarClass size) {
    constexpr std::int64_t pint_minutes = 20;
    constexpr std::int64_t quart_minutes = 25;
    return Seconds{60 * (size == contract::JarClass::quart ? quart_minutes : pint_minutes)};
}

void check_process(const Process& process, brewing::Length altitude) {
    require_pressure_canner(process.appliance, "/appliance");
    if (process.pressure <= GaugePressure{})
        require_pressure_canner(Appliance::boiling_water_bath, "/pressure");
    require_no_other_appliance(process.source, "/source");
    if (process.note)
        require_no_other_appliance(*process.note, "/note");
    const AtAltitude known = at_altitude(process.gauge, process.pressure, altitude);
    if (process.pressure + wire_step < known.band)
        throw Error(
            ErrorKind::params, "below_published_band",
            pressure_text(process.pressure) + " is below the pressure published for " +
                "low-acid food with a " + std::string(to_string(process.gauge)) + " gauge at " +
                brewing::print(altitude, brewing::System::metric) + " (" +
                brewing::print(altitude, brewing::System::us) + "): " + pressure_text(known.band) +
                ". " + known.band_source,
            "Look up the pressure for your altitude in your source, then record it again: barm "
            "process set.",
            "/pressure");
}

std::optional<Confirmation> confirmation_of(const Process& process, contract::JarClass size,
                                            const std::optional<std::string>& typed,
                                            const std::string& who, Instant at) {
    if (process.time >= shortest_published(size))
        return std::nullopt;
    if (typed != process.name)
        throw Error(ErrorKind::params, "not_confirmed",
                    to_text(process.time) + " is " + std::string(shorter_than_published) +
                        ". [S1 S2]",
                    "Check your source again. If you mean this time, confirm it with --confirm '" +
                        process.name + "'. Its jars say so at every use.",
                    "/confirm");
    return Confirmation{process.name, who, at};
}

void check_canner(const contract::Canner& canner, const Process& process, std::string_view jar,
                  Date today) {
    if (process.jar != jar)
        throw Error(ErrorKind::conflict, "other_jar",
                    "The process '" + process.name + "' is for '" + process.jar + "' jars, not '" +
                        std::string(jar) + "'.",
                    "A process holds for one jar size. Name one for this jar; barm process list "
                    "shows yours.",
                    "/process");
    if (process.gauge != canner.gauge)
        throw Error(ErrorKind::conflict, "other_gauge",
                    "The process '" + process.name + "' is for a " +
                        std::string(to_string(process.gauge)) + " gauge, and the canner '" +
                        canner.name + "' has a " + std::string(to_string(canner.gauge)) + " one.",
                    "Name a process for this gauge; barm process list shows yours.", "/process");
    if (canner.gauge != Gauge::dial)
        return;
    if (!canner.gauge_tested || days_between(*canner.gauge_tested, today) > gauge_test_days_max)
        throw Error(ErrorKind::conflict, "gauge_untested",
                    "The dial of the canner '" + canner.name + "' was " +
                        (canner.gauge_tested ? "last tested on " + to_text(*canner.gauge_tested)
                                             : std::string("never tested")) +
                        ". A dial gauge must be tested every year before use. [S29 S30]",
                    "Have it tested, then record day and error: barm canner set --gauge-tested "
                    "--gauge-error.",
                    "/canner");
    const auto error = canner.gauge_error.value_or(GaugePressure{});
    if (std::max(error, -error) > brewing::largest_dial_error + wire_step)
        throw Error(ErrorKind::conflict, "gauge_off",
                    "The dial of the canner '" + canner.name + "' is off by " +
                        pressure_text(error) + ", more than 2 psi (13.8 kPa). [S29 S30]",
                    "Replace the gauge, then record the new one: barm canner set.", "/canner");
}

GaugePressure target_of(const contract::Canner& canner, const Process& process) {
    if (canner.gauge != Gauge::dial)
        return process.pressure;
    return brewing::dial_target(process.pressure, canner.gauge_error.value_or(GaugePressure{}));
}

} // namespace barmkeep::canning
