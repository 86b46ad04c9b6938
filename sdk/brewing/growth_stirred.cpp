#include "sdk/brewing/growth_stirred.hpp"

#include "sdk/brewing/errors.hpp"

#include <limits>

namespace barmkeep::brewing {
namespace {

void require_start(double billion_per_gram) {
    require_within("cells at the start of a stirred starter", billion_per_gram,
                   thinnest_stirred_start, std::numeric_limits<double>::max(), "billion/g",
                   "Grow the yeast in a smaller first step.");
}

} // namespace

Estimate<Cells> stirred_new_cells(Cells initial, Mass extract) {
    const double grams = extract.in(gram);
    require_positive("extract of a starter", grams, "g");
    require_start(initial.in(billion_cells) / grams);
    return {grams * stirred_yield.low * billion_cells, grams * stirred_yield.likely * billion_cells,
            grams * stirred_yield.high * billion_cells, stirred_yield.sources};
}

Mass stirred_extract_needed(Cells initial, Cells wanted, double yield) {
    const double start = initial.in(billion_cells);
    const double growth = wanted.in(billion_cells);
    require_positive("cells at the start of a starter", start, "billion");
    require_positive("new cells wanted", growth, "billion");
    const double grams = growth / yield;
    require_start(start / grams);
    return grams * gram;
}

Volume least_stirred_volume(Cells initial, Gravity gravity) {
    // The end, (initial + yield x extract) / volume, at the densest that was counted.
    const double grown = extract_in({1.0 * litre, gravity}).in(gram)*stirred_yield.likely;
    return initial.in(billion_cells) / (densest_stirred_end - grown) * litre;
}

bool is_dense_start(Cells initial, const Wort& wort) {
    const Cells end = initial + extract_in(wort).in(gram)*stirred_yield.likely * billion_cells;
    return end.in(million_cells) / wort.volume.in(millilitre) > densest_stirred_end;
}

} // namespace barmkeep::brewing
