#include "sdk/brewing/extract.hpp"

#include "sdk/brewing/density.hpp"
#include "sdk/brewing/errors.hpp"

namespace barmkeep::brewing {
namespace {

constexpr double points_limit = 47.0;
constexpr double fraction_limit = 1.02; // sources state up to 46.4 points for pure sucrose

/// Extract in a litre, in grams, as a smooth function of the gravity, without checks.
double concentration_at(double sg) {
    return plato_polynomial(sg, general_fit) / 100.0 *
           density_of(Gravity::sg(sg)).in(gram_per_litre);
}

} // namespace

Mass mass_of(const Wort& wort) {
    require_not_negative("volume of wort", wort.volume.in(litre), "L");
    (void)plato_of(wort.gravity); // one range for all three sums, so that they always agree
    return wort.volume * density_of(wort.gravity);
}

Mass extract_in(const Wort& wort) {
    return mass_of(wort) * plato_of(wort.gravity).mass_fraction();
}

Mass water_in(const Wort& wort) {
    return mass_of(wort) - extract_in(wort);
}

Density extract_concentration(Gravity gravity) {
    return density_of(gravity) * plato_of(gravity).mass_fraction();
}

Gravity gravity_of_concentration(Density concentration) {
    const double wanted = concentration.in(gram_per_litre);
    require_within("extract in a litre", wanted, 0.0, concentration_at(general_fit.highest_sg),
                   "g/L", "use more water: the limit is 40 P");
    // The concentration is nearly straight in the gravity (0.385 mL per gram), so the secant
    // through the ends of the fit starts within 0.001 and a few Newton steps finish.
    double sg = 1.0 + wanted * 0.000385;
    for (int step = 0; step < 6; ++step) {
        constexpr double width = 1e-5;
        const double slope =
            (concentration_at(sg + width) - concentration_at(sg - width)) / (2.0 * width);
        sg -= (concentration_at(sg) - wanted) / slope;
    }
    return Gravity::sg(sg);
}

Wort dissolve(Mass extract, Mass water) {
    require_not_negative("mass of extract", extract.in(gram), "g");
    require_positive("mass of water", water.in(gram), "g");
    const Mass whole = extract + water;
    const Gravity gravity = gravity_of(Plato::of_mass_fraction(extract / whole));
    return {whole / density_of(gravity), gravity};
}

Wort made_up(Mass extract, Volume volume) {
    require_not_negative("mass of extract", extract.in(gram), "g");
    require_positive("volume of wort", volume.in(litre), "L");
    return {volume, gravity_of_concentration(extract / volume)};
}

ExtractPotential ExtractPotential::of_mass_fraction(double fraction) {
    require_positive("extract by mass of the product", fraction, "");
    require_within("extract by mass of the product", fraction, 0.0, fraction_limit, "",
                   "give the share of the product that counts as sucrose, such as 0.97");
    return ExtractPotential{fraction};
}

ExtractPotential ExtractPotential::of_points_per_pound_gallon(double points) {
    require_positive("extract potential", points, "points of 1 lb in 1 US gal");
    require_within("extract potential", points, 0.0, points_limit, "points of 1 lb in 1 US gal",
                   "pure sugar has 46");
    const Density concentration = extract_concentration(Gravity::sg(1.0 + points / 1000.0));
    return of_mass_fraction(concentration.in(pound_per_us_gallon));
}

ExtractPotential ExtractPotential::of_litre_degrees_per_kilogram(double degrees) {
    return of_points_per_pound_gallon(degrees / litre_degrees_per_point);
}

double ExtractPotential::points_per_pound_gallon() const {
    return gravity_of_concentration(fraction_ * pound_per_us_gallon).points();
}

double ExtractPotential::litre_degrees_per_kilogram() const {
    return points_per_pound_gallon() * litre_degrees_per_point;
}

JarFill fill_jar(Mass product, const ExtractPotential& potential, Volume fill) {
    require_positive("mass of the product", product.in(gram), "g");
    const Wort wort = made_up(product * potential.mass_fraction(), fill);
    const Mass water = mass_of(wort) - product;
    require_not_negative("water left to add to the jar", water.in(gram), "g");
    return {wort, water};
}

} // namespace barmkeep::brewing
