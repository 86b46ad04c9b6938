// How many living cells a wort wants.
//
// Formula: cells = rate x volume x degrees Plato, or rate x volume, by the unit of the source:
// one million a millilitre is one billion a litre.  Statements are in pitch_rates.hpp.
//
// Printed examples often take a quarter of the gravity points for the Plato; here the gravity goes
// through plato.hpp, which gives up to 2 % less at usual strengths (see docs/science.md).
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/pitch_rates.hpp"
#include "sdk/brewing/quantity.hpp"

#include <string_view>

namespace barmkeep::brewing {

/// Cells for a rate of one's own, in million a millilitre and degree Plato.
[[nodiscard]] constexpr Cells cells_at_rate(double million_per_millilitre_and_plato, Volume wort,
                                            Plato strength) noexcept {
    return million_per_millilitre_and_plato * strength.degrees() * wort.in(litre)*billion_cells;
}

/// Cells by one published statement; likely is the middle of its range.
/// Throws OutOfRange if the strength is outside the statement's range, or the volume is not above
/// zero and finite.
[[nodiscard]] Estimate<Cells> cells_needed_by(const PitchRate& rate, Volume wort, Plato strength);

/// A figure to pitch by, the range the sources span, and why this figure.
struct PitchAdvice {
    Estimate<Cells> cells;
    std::string_view reason; ///< a sentence
};

/// Living cells wanted.
///
/// Liquid yeast: likely is 0.75 million a millilitre and degree Plato for ale and 1.5 for lager.
/// Dry yeast: 5 million a millilitre for ale, 10 for lager.  Low and high are the extremes of every
/// statement that covers class and strength.
/// Throws OutOfRange below 2 P and at or above 30 P (dry yeast: 18 P), where no statement was made
/// for it, and for a volume that is not above zero and finite.
[[nodiscard]] PitchAdvice cells_needed(Volume wort, Plato strength, BeerClass beer,
                                       PitchedYeast yeast = PitchedYeast::liquid);

/// The same from a gravity, by the general fit of plato.hpp.
[[nodiscard]] PitchAdvice cells_needed(Volume wort, Gravity strength, BeerClass beer,
                                       PitchedYeast yeast = PitchedYeast::liquid);

} // namespace barmkeep::brewing
