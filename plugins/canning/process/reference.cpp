#include "plugins/canning/process/check.hpp"

#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/units.hpp"

namespace barmkeep::canning {
namespace {

using brewing::ExtractPotential;
using brewing::Gravity;
using brewing::Length;
using brewing::Volume;

/// The gravity of four ounces of extract in so much liquid.
Gravity four_ounces_in(Volume volume, double points) {
    const auto extract =
        4.0 * brewing::ounce * ExtractPotential::of_points_per_pound_gallon(points).mass_fraction();
    return brewing::made_up(extract, volume).gravity;
}

/// From the smaller potential to the larger one.
std::string gravities(Volume weaker, Volume stronger) {
    return brewing::print(four_ounces_in(weaker, 42)) + " to " +
           brewing::print(four_ounces_in(stronger, 45));
}

std::string steam_line(std::optional<Length> altitude) {
    const auto pressure = 15.0 * brewing::psi_gauge;
    std::string line = "Steam at 15 psi, all air vented: " +
                       temperature_text(brewing::steam_temperature(pressure, Length{})) +
                       " at sea level";
    if (altitude)
        line += ", " + temperature_text(brewing::steam_temperature(pressure, *altitude)) +
                " at this cellar's altitude";
    return line + "; it is no proof of a process (computed; docs/science.md)";
}

std::string weight_line() {
    // A fill an inch below the rim of a pint, and dry extract of 42 to 45 points (docs/science.md).
    return "Four ounces (113 g) of dry extract: " +
           gravities(430 * brewing::millilitre, 400 * brewing::millilitre) +
           " in a fill of 430 to 400 mL, and " + gravities(1 * brewing::litre, 1 * brewing::litre) +
           " in 1 L (computed; docs/science.md)";
}

constexpr const char* time_line =
    "Time at pressure: none was tested for wort, so none is listed; do not guess or borrow one "
    "[S38]";

} // namespace

std::vector<std::string> reference_lines(std::optional<Length> altitude) {
    return {"Headspace: 1 to 1.25 in for low-acid food under pressure [S22 S1]",
            "Venting: steam flows freely for 10 minutes [S14 S15 S3]",
            time_line,
            steam_line(altitude),
            weight_line(),
            "Concentrate: 1.060 to 1.120 (common practice, no source)",
            "Nutrient: about a quarter teaspoon a jar; weigh yours (common practice, no source)"};
}

} // namespace barmkeep::canning
