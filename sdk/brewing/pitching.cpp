#include "sdk/brewing/pitching.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/plato.hpp"

#include <algorithm>

namespace barmkeep::brewing {
namespace {

struct Recommended {
    double million_per_millilitre;
    std::string_view reason;
};

Recommended recommended_liquid(BeerClass beer, Plato wort) {
    if (beer == BeerClass::ale)
        return {0.75 * wort.degrees(), "0.75 million cells per millilitre and degree Plato: cited "
                                       "in three independent texts and "
                                       "used by a practising brewer (PR01, PR07)."};
    return {
        1.5 * wort.degrees(),
        "1.5 million cells per millilitre and degree Plato: three sources agree on it (PR02, PR05, "
        "PR20)."};
}

Recommended recommended_dry(BeerClass beer) {
    if (beer == BeerClass::lager)
        return {10.0, "10 million cells per millilitre: the middle of a maker's dose at 12 to 15 C "
                      "(PR18). Colder wort needs more."};
    return {5.0,
            "5 million cells per millilitre: the middle of one maker's dose (PR17) and the top of "
            "another's minimum (PR19)."};
}

void require_strength(Plato wort, double lowest, double highest) {
    // The ranges are half-open, so that two neighbouring statements never both hold.
    if (!(wort.degrees() >= lowest && wort.degrees() < highest))
        throw OutOfRange{"wort strength",
                         wort.degrees(),
                         lowest,
                         highest,
                         "P",
                         "No published pitching rate covers it."};
}

} // namespace

Estimate<Cells> cells_needed_by(const PitchRate& rate, Volume wort, Plato strength) {
    require_positive("volume of wort", wort.in(litre), "L");
    require_strength(strength, rate.lowest_plato, rate.highest_plato);
    const double litres = wort.in(litre);
    const Cells low = litres * rate.million_per_millilitre(rate.low, strength) * billion_cells;
    const Cells high = litres * rate.million_per_millilitre(rate.high, strength) * billion_cells;
    return {low, (low + high) / 2.0, high, rate.source};
}

PitchAdvice cells_needed(Volume wort, Plato strength, BeerClass beer, PitchedYeast yeast) {
    const bool dry = yeast == PitchedYeast::dry;
    require_positive("volume of wort", wort.in(litre), "L");
    require_strength(strength, weakest_pitched_plato,
                     dry ? strongest_dry_pitched_plato : strongest_pitched_plato);
    const Recommended recommended =
        dry ? recommended_dry(beer) : recommended_liquid(beer, strength);
    double low = recommended.million_per_millilitre;
    double high = low;
    for (const PitchRate& rate : pitch_rates()) {
        if (!rate.serves(beer, yeast) || !rate.covers(strength))
            continue;
        low = std::min(low, rate.million_per_millilitre(rate.low, strength));
        high = std::max(high, rate.million_per_millilitre(rate.high, strength));
    }
    const double litres = wort.in(litre);
    return {{litres * low * billion_cells,
             litres * recommended.million_per_millilitre * billion_cells,
             litres * high * billion_cells, pitch_rate_sources(beer, yeast, strength)},
            recommended.reason};
}

PitchAdvice cells_needed(Volume wort, Gravity strength, BeerClass beer, PitchedYeast yeast) {
    return cells_needed(wort, plato_of(strength), beer, yeast);
}

} // namespace barmkeep::brewing
