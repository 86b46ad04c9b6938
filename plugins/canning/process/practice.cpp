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
using brewing::Wort;

constexpr std::string_view no_source = "common practice, no source";

Wort jar_of(Volume volume, double points) {
    const auto extract =
        4.0 * brewing::ounce * ExtractPotential::of_points_per_pound_gallon(points).mass_fraction();
    return brewing::made_up(extract, volume);
}

std::string span(Gravity from, Gravity to) {
    return brewing::print(from) + " to " + brewing::print(to);
}

Practice steam_rule(std::optional<Length> altitude) {
    const auto pressure = 15.0 * brewing::psi_gauge;
    std::string computed = "it is not: at sea level " +
                           temperature_text(brewing::steam_temperature(pressure, Length{}));
    if (altitude)
        computed += ", at this cellar's altitude " +
                    temperature_text(brewing::steam_temperature(pressure, *altitude));
    return {"15 psi is about 240 F", computed + "; no proof of a process either way",
            std::string(no_source)};
}

Practice jar_rule() {
    // The fill an inch below the rim and the potentials span what is met with (docs/science.md).
    const auto thin = jar_of(430 * brewing::millilitre, 42);
    const auto thick = jar_of(400 * brewing::millilitre, 45);
    const auto weak = jar_of(1 * brewing::litre, 42);
    const auto strong = jar_of(1 * brewing::litre, 45);
    return {"four ounces of dry extract in a pint jar give about 1.090, and 1.035 in a litre",
            span(thin.gravity, thick.gravity) + " in 430 to 400 mL, " +
                span(weak.gravity, strong.gravity) +
                " in a litre, by mass balance at 42 to 45 points; docs/science.md says why",
            std::string(no_source)};
}

} // namespace

std::vector<Practice> common_practice(std::optional<Length> altitude) {
    return {jar_rule(),
            {"leave about an inch of headspace",
             "published for low-acid food under pressure: 1 to 1.25 in (S22)",
             std::string(no_source) + " for wort"},
            {"a quarter teaspoon of nutrient a jar",
             "what that weighs depends on the product; weigh yours", std::string(no_source)},
            {"vent about 10 minutes",
             "published for pressure canning: steam flows freely for 10 minutes (S14, S15, S3)",
             "published, not for wort"},
            steam_rule(altitude),
            {"some time at pressure is enough",
             "nobody knows that, and no time is shown here: none was ever tested for wort, and "
             "times must not be guessed "
             "or borrowed from a similar recipe (S38)",
             "untested"}};
}

} // namespace barmkeep::canning
