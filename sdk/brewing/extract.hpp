// Extract and water in wort, and how much of each an extract product brings.
//
// The one rule behind all of it: masses add, volumes do not.  A wort of a volume and a gravity has
// a mass (through density_of), a share of extract in it (through a fit), and the rest is water.
// Volumes are those at 20 C; volume_ratio_to_20() in density.hpp leads to other temperatures.
//
// Range: gravities of 1.000 to 1.17874 (40 P), where the general fit holds.
//
// Thread safety: pure functions.  They allocate nothing unless they throw.
#pragma once

#include "sdk/brewing/plato.hpp"
#include "sdk/brewing/quantity.hpp"

namespace barmkeep::brewing {

/// An amount of wort: its volume at 20 C and its gravity.
struct Wort {
    Volume volume;
    Gravity gravity;
};

/// Everything in the wort by weight (in vacuo).
/// @throws OutOfRange for a negative volume or a gravity the general fit does not hold for; so do
///         the next two.
[[nodiscard]] Mass mass_of(const Wort& wort);
/// The extract in it, counted as sucrose.
[[nodiscard]] Mass extract_in(const Wort& wort);
/// The water in it: mass_of() less extract_in().
[[nodiscard]] Mass water_in(const Wort& wort);

/// Grams of extract in a litre of wort at 20 C.
[[nodiscard]] Density extract_concentration(Gravity gravity);

/// The gravity at which a litre holds that much extract: the inverse of extract_concentration().
/// @throws OutOfRange beyond 40 P, about 470 g/L.
[[nodiscard]] Gravity gravity_of_concentration(Density concentration);

/// Extract dissolved in water: the volume follows, and is less than that of its parts alone.
/// @throws OutOfRange for negative masses, nothing at all, or more extract than 40 P.
[[nodiscard]] Wort dissolve(Mass extract, Mass water);

/// Extract in as much water as fills the volume.
/// @throws OutOfRange for a negative mass, no volume, or more extract than 40 P.
[[nodiscard]] Wort made_up(Mass extract, Volume volume);

/// How much extract a product yields: dry or liquid malt extract, sugar, or grain.
///
/// The trade states it as gravity points of one pound made up to one US gallon ("points per pound
/// per gallon", ppg) or as litre-degrees per kilogram; both name the same thing, the share of the
/// product that acts as sucrose.  Pure sucrose has 46.17 ppg by the general fit.
class ExtractPotential {
public:
    /// @param fraction extract, counted as sucrose, by mass of the product; above 0 up to 1.02.
    [[nodiscard]] static ExtractPotential of_mass_fraction(double fraction);
    /// Gravity points of 1 lb made up to 1 US gallon.
    [[nodiscard]] static ExtractPotential of_points_per_pound_gallon(double points);
    /// Litre-degrees per kilogram: 8.345404 for each point per pound per gallon.
    [[nodiscard]] static ExtractPotential of_litre_degrees_per_kilogram(double degrees);

    [[nodiscard]] double mass_fraction() const noexcept { return fraction_; }
    [[nodiscard]] double points_per_pound_gallon() const;
    [[nodiscard]] double litre_degrees_per_kilogram() const;

private:
    explicit ExtractPotential(double fraction) noexcept : fraction_{fraction} {}
    double fraction_;
};

/// Litre-degrees per kilogram in one point per pound per US gallon: litres in a gallon over
/// kilograms in a pound, exactly.
inline constexpr double litre_degrees_per_point = 3.785411784 / 0.45359237;

/// What goes into a jar: the wort it becomes, and the water to add.
struct JarFill {
    Wort wort;
    Mass water;
};

/// A product weighed into a jar that is filled to a volume (at 20 C) with water.
///
/// What of the product is not extract counts as water, which moisture is; the little protein that
/// stays undissolved is not counted apart.
/// @throws OutOfRange if the product alone overfills the volume, or beyond 40 P.
[[nodiscard]] JarFill fill_jar(Mass product, const ExtractPotential& potential, Volume fill);

} // namespace barmkeep::brewing
