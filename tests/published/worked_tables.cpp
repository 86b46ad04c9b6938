#include "tests/published/worked_tables.hpp"

#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/extract.hpp"

#include <fmt/format.h>

#include <utility>

namespace barmkeep::published {

using namespace brewing;

std::string jar_rule_table() {
    std::string text =
        "| fill | extract potential | gravity in the jar | water | made up to 1 L |\n"
        "|---|---|---|---|---|\n";
    const Mass extract = 4.0 * ounce;
    for (const double fill : {400.0, 415.0, 430.0, 473.176473})
        for (const double points : {42.0, 44.0, 45.0}) {
            const JarFill jar = fill_jar(
                extract, ExtractPotential::of_points_per_pound_gallon(points), fill * millilitre);
            const Gravity litre_gravity = to_volume(jar.wort, 1.0 * litre).after.gravity;
            text += fmt::format("| {:.0f} mL{} | {:.0f} ppg | {:.4f} | {:.0f} g | {:.4f} |\n", fill,
                                fill > 450 ? " (a whole pint)" : "", points, jar.wort.gravity.sg(),
                                jar.water.in(gram), litre_gravity.sg());
        }
    return text;
}

std::string points_table() {
    std::string text =
        "| from | to | volume by mass balance | by points | gravity really reached | "
        "contraction |\n|---|---|---|---|---|---|\n";
    const std::pair<double, double> cases[] = {
        {1.060, 1.040}, {1.080, 1.035}, {1.100, 1.035}, {1.120, 1.040}, {1.150, 1.035}};
    for (const auto& [from, to] : cases) {
        const Wort wort{1.0 * litre, Gravity::sg(from)};
        const Dilution balance = to_gravity(wort, Gravity::sg(to));
        const PointsVolume shortcut = points_to_gravity(wort, Gravity::sg(to));
        text += fmt::format("| 1 L of {:.3f} | {:.3f} | {:.4f} L | {:.4f} L ({:+.2f} %) | {:.5f} | "
                            "{:.1f} mL |\n",
                            from, to, balance.after.volume.in(litre), shortcut.volume.in(litre),
                            100.0 * (shortcut.error / balance.after.volume), shortcut.really.sg(),
                            balance.contraction.in(millilitre));
    }
    return text;
}

std::string steam_table() {
    std::string text = "| altitude | air | 10 psi | 11 psi | 12 psi | 13 psi | 14 psi | 15 psi |\n"
                       "|---|---|---|---|---|---|---|---|\n";
    for (const double feet : {0.0, 1000.0, 2000.0, 4000.0, 6000.0, 8000.0, 10000.0}) {
        const AbsolutePressure air = standard_pressure(feet * foot);
        text += fmt::format("| {:.0f} ft ({:.0f} m) | {:.1f} kPa |", feet, feet * 0.3048,
                            air.in(kilopascal));
        for (const double psi : {10.0, 11.0, 12.0, 13.0, 14.0, 15.0}) {
            const Temperature steam = steam_temperature(psi * psi_gauge, air);
            text += fmt::format(" {:.1f} °C, {:.1f} °F |", steam.celsius(), steam.fahrenheit());
        }
        text += "\n";
    }
    return text;
}

} // namespace barmkeep::published
