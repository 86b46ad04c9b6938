#include "sdk/brewing/growth.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"

#include <algorithm>
#include <limits>

namespace barmkeep::brewing {
namespace {

constexpr std::string_view still_sources = "WZ1 WZ2 GR13 GR14";

void require_strength(Gravity gravity, Stirring stirring) {
    if (stirring == Stirring::stirred)
        require_within("strength of a stirred starter", plato_of(gravity).degrees(),
                       weakest_stirred_plato, strongest_stirred_plato, "P",
                       "No yield was measured in such wort: dilute it, or choose another gravity.");
    else
        require_within(
            "strength of an unstirred starter", plato_of(gravity).degrees(), weakest_still_plato,
            strongest_still_plato, "P",
            "The published series was made at 9 P: dilute the wort, stir the starter, or "
            "choose another gravity.");
}

/// How much wider than the spread of strains the range is in this wort, each way.
double still_spread(Gravity gravity) {
    const double ratio = plato_of(gravity).degrees() / still_series_plato;
    return strain_spread * std::max(ratio, 1.0 / ratio);
}

Estimate<Cells> still_new_cells(Cells initial, const Wort& wort) {
    const double rate = initial.in(million_cells) / wort.volume.in(millilitre);
    const Cells by_series = (still_growth_factor(rate) - 1.0) * initial;
    const double spread = still_spread(wort.gravity);
    return {by_series / spread, by_series, by_series * spread, still_sources};
}

/// Volume in which the series gives `wanted` new cells; at least that of its densest starter.
Volume still_volume(Cells initial, Cells wanted) {
    // A hair inside the series, so that rounding on the way back does not leave it.
    constexpr double hair = 1e-12;
    const double factor = std::max(still_growth_factor(highest_still_rate), 1.0 + wanted / initial);
    const double rate = std::clamp(still_rate_for_factor(factor), lowest_still_rate * (1.0 + hair),
                                   highest_still_rate * (1.0 - hair));
    return initial.in(million_cells) / rate * millilitre;
}

/// Volume in which `wanted` new cells grow at that yield.
Volume stirred_volume(Cells initial, Cells wanted, Gravity gravity, double yield) {
    const Mass in_a_litre = extract_in({1.0 * litre, gravity});
    return stirred_extract_needed(initial, wanted, yield) / in_a_litre * litre;
}

/// Checks what both inverses need and gives the new cells wanted.
Cells growth_wanted(Cells initial, Cells target, Gravity gravity, Stirring stirring) {
    require_positive("cells at the start of a starter", initial.in(billion_cells), "billion");
    require_within("cells wanted of a starter", target.in(billion_cells), initial.in(billion_cells),
                   std::numeric_limits<double>::max(), "billion",
                   "There are enough cells already.");
    require_positive("new cells wanted", (target - initial).in(billion_cells), "billion");
    require_strength(gravity, stirring);
    return target - initial;
}

} // namespace

Estimate<Cells> new_cells(Cells initial, const Wort& wort, Stirring stirring) {
    require_positive("cells at the start of a starter", initial.in(billion_cells), "billion");
    require_positive("volume of a starter", wort.volume.in(litre), "L");
    require_strength(wort.gravity, stirring);
    return stirring == Stirring::stirred ? stirred_new_cells(initial, extract_in(wort))
                                         : still_new_cells(initial, wort);
}

Estimate<Cells> cells_after(Cells initial, const Wort& wort, Stirring stirring) {
    return cells_after({initial, initial, initial, {}}, wort, stirring);
}

Estimate<Cells> cells_after(const Estimate<Cells>& initial, const Wort& wort, Stirring stirring) {
    const double likely = initial.likely.in(billion_cells);
    require_within("low figure of the start", initial.low.in(billion_cells), 0.0, likely, "billion",
                   "It must not be above the likely one.");
    require_within("high figure of the start", initial.high.in(billion_cells), likely,
                   std::numeric_limits<double>::max(), "billion",
                   "It must not be below the likely one.");
    const Estimate<Cells> grown = new_cells(initial.likely, wort, stirring);
    return {initial.low + grown.low, initial.likely + grown.likely, initial.high + grown.high,
            grown.sources};
}

Volume likely_starter_volume(Cells initial, Cells target, Gravity gravity, Stirring stirring) {
    const Cells wanted = growth_wanted(initial, target, gravity, stirring);
    return stirring == Stirring::stirred
               ? stirred_volume(initial, wanted, gravity, stirred_yield.likely)
               : still_volume(initial, wanted);
}

Estimate<Volume> starter_volume_needed(Cells initial, Cells target, Gravity gravity,
                                       Stirring stirring) {
    const Cells wanted = growth_wanted(initial, target, gravity, stirring);
    if (stirring == Stirring::stirred)
        return {stirred_volume(initial, wanted, gravity, stirred_yield.high),
                stirred_volume(initial, wanted, gravity, stirred_yield.likely),
                stirred_volume(initial, wanted, gravity, stirred_yield.low), stirred_yield.sources};
    const double spread = still_spread(gravity);
    return {still_volume(initial, wanted / spread), still_volume(initial, wanted),
            still_volume(initial, wanted * spread), still_sources};
}

double largest_covered_factor(Stirring stirring) noexcept {
    return stirring == Stirring::stirred ? 1.0 + stirred_yield.likely / thinnest_stirred_start
                                         : still_rows().front().factor;
}

} // namespace barmkeep::brewing
