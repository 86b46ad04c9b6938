#include "sdk/brewing/plato.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>

namespace barmkeep::brewing {
namespace {

constexpr double slope(double sg, const PlatoFit& fit) noexcept {
    const auto& c = fit.coefficients;
    return (3.0 * c[0] * sg + 2.0 * c[1]) * sg + c[2];
}

} // namespace

Plato plato_of(Gravity gravity, const PlatoFit& fit) {
    require_within(
        "apparent specific gravity", gravity.sg(), fit.lowest_sg, fit.highest_sg, "",
        "a gravity below that of water gives no extract; above the fit, dilute a weighed sample "
        "with a weighed amount of water and measure that");
    return Plato::degrees(plato_polynomial(gravity.sg(), fit));
}

Gravity gravity_of(Plato plato, const PlatoFit& fit) {
    // A cubic that lies a hair above zero at S = 1 must still take 0 P.
    const double lowest = std::min(0.0, plato_polynomial(fit.lowest_sg, fit));
    const double highest = plato_polynomial(fit.highest_sg, fit);
    require_within("extract", plato.degrees(), lowest, highest, "P",
                   "give degrees Plato, grams of extract in 100 g of wort, within the fit");
    // Newton's method from the hyperbola 260/(260 - P), which is within 0.001 of the root; the
    // cubics are monotone and nearly straight here, so five steps reach the end of the digits.
    double sg = 260.0 / (260.0 - plato.degrees());
    for (int step = 0; step < 5; ++step)
        sg -= (plato_polynomial(sg, fit) - plato.degrees()) / slope(sg, fit);
    return Gravity::sg(sg);
}

} // namespace barmkeep::brewing
