// What published sources say about yeast dying in store: one record a statement.
//
// Each record holds for one material, one range of temperature and one range of age, and is never
// read outside them.  Two shapes occur:
//
//   series       share alive at given ages, a straight line between them;
//   exponential  share = exp(-rate x days); where a source gives rates at several temperatures,
//                the logarithm of the rate is a straight line between them.
//
// "Share alive" is the share of the cells that lived on day 0 (packing, harvest, drying).  Sources
// that print a viability after storage are read as if it had been 1 on day 0.
//
// Spread: where a source prints a range, it is used.  Where it prints a single figure, its rate of
// loss is spread from half to twice; that spread is ours and has no source.
//
// "Refrigerator" without a figure is read as 1 to 8 C (common practice, no source).
//
// Thread safety: constants; every function is pure.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <cstddef>
#include <span>
#include <string_view>

namespace barmkeep::brewing {

/// What the yeast is kept as.
enum class YeastMaterial {
    liquid_pack,   ///< a laboratory's liquid pack, unopened, in the refrigerator
    slurry,        ///< harvested from a beer or a starter, under its beer or wort
    dry_pack,      ///< a maker's dry yeast, sealed
    home_dried,    ///< dried at home, in the freezer
    sterile_water, ///< washed cells under sterile distilled water
};

/// How good the ground of a statement is; the best that applies gives the likely figure.
enum class Evidence {
    measured,   ///< counts or stains, a series or an experiment
    stated,     ///< a figure from a maker or an author, the measurements not shown
    convention, ///< what brewers repeat, no data given
};

enum class LossShape { series, exponential };

/// A point of a series (`at` in days, values are shares alive) or of a rate table (`at` in degrees
/// Celsius, values are rates a day).  `low` belongs to the low share alive, so it is the fastest
/// rate.
struct LossPoint {
    double at;
    double low;
    double likely;
    double high;
};

/// One published statement.
struct ViabilityModel {
    std::string_view key;         ///< unique here; begins with the key of its source
    std::string_view source;      ///< source keys, resolved in docs/science.md
    std::string_view description; ///< what was stated, in a line
    YeastMaterial material;
    Evidence evidence;
    char access; ///< P read at its publisher, A abstract, Q second hand
    double lowest_celsius;
    double highest_celsius;
    double lowest_age_days;
    double highest_age_days;
    LossShape shape;
    std::span<const LossPoint> points;

    [[nodiscard]] constexpr bool covers_temperature(Temperature kept_at) const noexcept {
        return lowest_celsius <= kept_at.celsius() && kept_at.celsius() <= highest_celsius;
    }
    [[nodiscard]] constexpr bool covers_age(double age_days) const noexcept {
        return lowest_age_days <= age_days && age_days <= highest_age_days;
    }
};

/// The field's name of a material, for messages: "liquid pack".
[[nodiscard]] std::string_view name_of(YeastMaterial material) noexcept;

/// All statements on a material, the best evidence first.
[[nodiscard]] std::span<const ViabilityModel> viability_models(YeastMaterial material) noexcept;

/// The keys of a subset of viability_models(material), separated by spaces; bit i of `mask` stands
/// for the i-th statement.  REQUIRES: mask < 2^(number of statements).
[[nodiscard]] std::string_view viability_keys(YeastMaterial material, std::size_t mask) noexcept;

/// The statement with that key, or a null pointer.
[[nodiscard]] const ViabilityModel* find_viability_model(std::string_view key) noexcept;

} // namespace barmkeep::brewing
