#include "sdk/brewing/growth_stirred.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <limits>

namespace barmkeep::brewing {
namespace {

void require_ratio(double billion_per_gram) {
    require_within("cells at the start of a stirred starter", billion_per_gram,
                   lowest_stirred_ratio, std::numeric_limits<double>::max(), "billion/g",
                   "Grow the yeast in a smaller first step.");
}

} // namespace

Cells stirred_new_cells(Cells initial, Mass extract) {
    const double grams = extract.in(gram);
    require_positive("extract of a starter", grams, "g");
    const double ratio = initial.in(billion_cells) / grams;
    require_ratio(ratio);
    return grams * stirred_growth_per_gram(ratio) * billion_cells;
}

Mass stirred_extract_needed(Cells initial, Cells wanted) {
    const double start = initial.in(billion_cells);
    const double growth = wanted.in(billion_cells);
    require_positive("cells at the start of a starter", start, "billion");
    require_positive("new cells wanted", growth, "billion");
    // Least extract for full growth, and, if that start would be too dense for it, on the line;
    // the line never asks for more than the extract at which full growth sets in.
    // A hair more than the quotient: rounding must not put the start on the far side of the step
    // between the two pieces.
    const double fully_from = start / stirred_full_until * (1.0 + 1e-12);
    const double on_line = (growth + stirred_line_slope * start) / stirred_line_start;
    const double fully = std::max(growth / stirred_full_growth, fully_from);
    const double grams = on_line < fully_from ? on_line : fully;
    require_ratio(start / grams);
    return grams * gram;
}

} // namespace barmkeep::brewing
