#include "sdk/brewing/growth.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"

#include <algorithm>
#include <limits>

namespace barmkeep::brewing {
namespace {

// Yields in billion a gram, as shares of the full growth of the stirred rule; see the header.
constexpr double stirred_low = 0.72 / stirred_full_growth;
constexpr double stirred_high = 1.5 / stirred_full_growth;
constexpr double still_high_yield = 1.04 / stirred_full_growth;

constexpr std::string_view stirred_sources = "KAI1 KAI2 WOO4 DEC MEM";
constexpr std::string_view still_sources = "WZ1 WZ2 WOO4 SHA KAI1 MEM";

void require_strength(Gravity gravity, Aeration aeration) {
    const bool still = aeration == Aeration::still;
    require_within(still ? "strength of a still starter" : "strength of a stirred starter",
                   plato_of(gravity).degrees(), still ? weakest_still_plato : weakest_stirred_plato,
                   still ? strongest_still_plato : strongest_stirred_plato, "P",
                   "Growth was not measured in such wort: dilute or strengthen it.");
}

Estimate<Cells> still_new_cells(Cells initial, const Wort& wort) {
    const double rate = initial.in(million_cells) / wort.volume.in(millilitre);
    const Cells by_series = (still_growth_factor(rate) - 1.0) * initial;
    const Cells by_extract = stirred_new_cells(initial, extract_in(wort)) * still_high_yield;
    return {by_series / strain_spread, by_series, std::max(by_series * strain_spread, by_extract),
            still_sources};
}

Estimate<Cells> stirred_range(Cells initial, const Wort& wort) {
    const Cells likely = stirred_new_cells(initial, extract_in(wort));
    return {likely * stirred_low, likely, likely * stirred_high, stirred_sources};
}

/// Volume in which the still series gives `wanted` new cells; at least that of its densest starter.
Volume still_volume(Cells initial, Cells wanted) {
    // A hair inside the series, so that rounding on the way back does not leave it.
    constexpr double hair = 1e-12;
    const double factor = std::max(still_growth_factor(highest_still_rate), 1.0 + wanted / initial);
    const double rate = std::clamp(still_rate_for_factor(factor), lowest_still_rate * (1.0 + hair),
                                   highest_still_rate * (1.0 - hair));
    return initial.in(million_cells) / rate * millilitre;
}

/// Volume in which the stirred rule gives `wanted` new cells.
Volume stirred_volume(Cells initial, Cells wanted, Gravity gravity) {
    const Mass in_a_litre = extract_in({1.0 * litre, gravity});
    return stirred_extract_needed(initial, wanted) / in_a_litre * litre;
}

/// Checks what both inverses need and gives the new cells wanted.
Cells growth_wanted(Cells initial, Cells target, Gravity gravity, Aeration aeration) {
    require_positive("cells at the start of a starter", initial.in(billion_cells), "billion");
    require_within("cells wanted of a starter", target.in(billion_cells), initial.in(billion_cells),
                   std::numeric_limits<double>::max(), "billion",
                   "There are enough cells already.");
    require_positive("new cells wanted", (target - initial).in(billion_cells), "billion");
    require_strength(gravity, aeration);
    return target - initial;
}

} // namespace

Estimate<Cells> new_cells(Cells initial, const Wort& wort, Aeration aeration) {
    require_positive("cells at the start of a starter", initial.in(billion_cells), "billion");
    require_positive("volume of a starter", wort.volume.in(litre), "L");
    require_strength(wort.gravity, aeration);
    return aeration == Aeration::still ? still_new_cells(initial, wort)
                                       : stirred_range(initial, wort);
}

Estimate<Cells> cells_after(Cells initial, const Wort& wort, Aeration aeration) {
    return cells_after({initial, initial, initial, {}}, wort, aeration);
}

Estimate<Cells> cells_after(const Estimate<Cells>& initial, const Wort& wort, Aeration aeration) {
    const double likely = initial.likely.in(billion_cells);
    require_within("low figure of the start", initial.low.in(billion_cells), 0.0, likely, "billion",
                   "It must not be above the likely one.");
    require_within("high figure of the start", initial.high.in(billion_cells), likely,
                   std::numeric_limits<double>::max(), "billion",
                   "It must not be below the likely one.");
    const Estimate<Cells> grown = new_cells(initial.likely, wort, aeration);
    return {initial.low + grown.low, initial.likely + grown.likely, initial.high + grown.high,
            grown.sources};
}

Volume likely_starter_volume(Cells initial, Cells target, Gravity gravity, Aeration aeration) {
    const Cells wanted = growth_wanted(initial, target, gravity, aeration);
    return aeration == Aeration::still ? still_volume(initial, wanted)
                                       : stirred_volume(initial, wanted, gravity);
}

Estimate<Volume> starter_volume_needed(Cells initial, Cells target, Gravity gravity,
                                       Aeration aeration) {
    const Cells wanted = growth_wanted(initial, target, gravity, aeration);
    if (aeration == Aeration::stirred)
        return {stirred_volume(initial, wanted / stirred_high, gravity),
                stirred_volume(initial, wanted, gravity),
                stirred_volume(initial, wanted / stirred_low, gravity), stirred_sources};
    const Volume by_series = still_volume(initial, wanted / strain_spread);
    const Volume by_extract = stirred_volume(initial, wanted / still_high_yield, gravity);
    // The yield may ask for less wort than the densest starter of the series has.
    const Volume densest = still_volume(initial, Cells{});
    return {std::max(densest, std::min(by_series, by_extract)), still_volume(initial, wanted),
            still_volume(initial, wanted * strain_spread), still_sources};
}

double largest_covered_factor(Aeration aeration) noexcept {
    return aeration == Aeration::still ? still_rows().front().factor
                                       : 1.0 + stirred_full_growth / lowest_stirred_ratio;
}

} // namespace barmkeep::brewing
