// Specific gravity and degrees Plato: two published cubics, each with its inverse.
//
// Both take the apparent specific gravity 20/20 (weighed in air, as a hydrometer reads) and give
// grams of sucrose in 100 g.  Malt extract is counted as the sucrose that would give the same
// gravity, which is what the Plato scale means.
//
// A fit is a value passed by name, so a caller says which one it used and a report can repeat it:
//
//     plato_of(Gravity::sg(1.048)).degrees();            // 11.91 by the general fit
//     plato_of(Gravity::sg(1.048), laboratory_fit).degrees();  // 11.91 by the laboratory's fit
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <array>
#include <string_view>

namespace barmkeep::brewing {

/// A cubic in the apparent specific gravity S: P = c[0] S^3 + c[1] S^2 + c[2] S + c[3].
struct PlatoFit {
    std::string_view name;
    std::string_view source; ///< key in docs/science.md
    double lowest_sg;
    double highest_sg;
    std::array<double, 4> coefficients;
};

/// The general fit, to be used for concentrates: fitted to the sucrose table of EX1, 0 to 40 P,
/// with a published root mean square error of 0.0009 P.
inline constexpr PlatoFit general_fit{
    "general cubic", "EX1", 1.0, 1.17874, {182.46007, -775.68212, 1262.7794, -669.56218}};

/// The fit to a laboratory's table (EX2), which ends at 1.083 (20 P); published root mean square
/// error 0.0006 P, worst 0.0038 P at S = 1.
inline constexpr PlatoFit laboratory_fit{
    "laboratory cubic", "EX2", 1.0, 1.083, {135.997, -630.272, 1111.14, -616.868}};

/// The cubic itself, outside its range too: for code that has checked the range.  S is apparent SG.
[[nodiscard]] constexpr double plato_polynomial(double sg, const PlatoFit& fit) noexcept {
    const auto& c = fit.coefficients;
    return ((c[0] * sg + c[1]) * sg + c[2]) * sg + c[3];
}

/// Degrees Plato of a gravity.
/// @throws OutOfRange outside [fit.lowest_sg, fit.highest_sg], or for NaN.  Below water, in beer
///         whose alcohol makes it light, a gravity shows no extract.
[[nodiscard]] Plato plato_of(Gravity gravity, const PlatoFit& fit = general_fit);

/// The inverse: the gravity at which the same cubic gives `plato`, to the last digits of a double.
/// @throws OutOfRange beyond the cubic's values at the ends of its range.  0 P gives water, 1.000
///         within 0.000015: neither cubic passes exactly through it.
[[nodiscard]] Gravity gravity_of(Plato plato, const PlatoFit& fit = general_fit);

} // namespace barmkeep::brewing
