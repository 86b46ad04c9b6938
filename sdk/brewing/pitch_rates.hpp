// Published pitching rates, one record a statement.
//
// Two units are in use: million cells a millilitre and degree Plato, and million cells a
// millilitre.  Each record holds for classes of beer and a half-open range of Plato
// [lowest, highest); where a source prints no gravity, the range is 2 to 30 P (2 to 18 P for dry
// yeast, whose makers mean standard worts), which is ours.
//
// Thread safety: constants; pure functions.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <span>
#include <string_view>

namespace barmkeep::brewing {

enum class BeerClass { ale, lager };

enum class PitchedYeast { liquid, dry };

enum class PitchUnit { per_plato, per_volume };

/// The rates of one's own that are taken, in million cells a millilitre and degree Plato: from the
/// thinnest published (PR12, 6 million a millilitre up to 15 P) to a little over the densest
/// (PR22, 2.9).
inline constexpr double lowest_own_rate = 0.4;
inline constexpr double highest_own_rate = 3.0;

/// The worts any rate here is used for, in degrees Plato.
inline constexpr double weakest_pitched_plato = 2.0;
inline constexpr double strongest_pitched_plato = 30.0;
inline constexpr double strongest_dry_pitched_plato = 18.0;

/// One published statement.
struct PitchRate {
    std::string_view key; ///< row of tests/published/data/yeast/pitch_rates.csv
    std::string_view source;
    char access; ///< P, A, Q
    bool ale;
    bool lager;
    PitchedYeast yeast;
    PitchUnit unit;
    double low; ///< million cells a millilitre, or that a degree Plato
    double high;
    double lowest_plato;
    double highest_plato;
    std::string_view conditions;

    [[nodiscard]] constexpr bool serves(BeerClass beer, PitchedYeast pitched) const noexcept {
        const bool fits = beer == BeerClass::ale ? ale : lager;
        return fits && yeast == pitched;
    }
    [[nodiscard]] constexpr bool covers(Plato wort) const noexcept {
        return lowest_plato <= wort.degrees() && wort.degrees() < highest_plato;
    }
    /// Million cells a millilitre at one end of the range.
    [[nodiscard]] constexpr double million_per_millilitre(double rate, Plato wort) const noexcept {
        return unit == PitchUnit::per_plato ? rate * wort.degrees() : rate;
    }
};

/// All statements, in the order of their keys.
[[nodiscard]] std::span<const PitchRate> pitch_rates() noexcept;

/// The statement with that key, or a null pointer.
[[nodiscard]] const PitchRate* find_pitch_rate(std::string_view key) noexcept;

/// The source keys of all statements that cells_needed() combines for a case, separated by spaces.
/// REQUIRES: weakest_pitched_plato <= wort < strongest_pitched_plato.
[[nodiscard]] std::string_view pitch_rate_sources(BeerClass beer, PitchedYeast yeast,
                                                  Plato wort) noexcept;

} // namespace barmkeep::brewing
