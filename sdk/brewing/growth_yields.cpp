#include "sdk/brewing/growth_yields.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::brewing {
namespace {

// The home figures are printed per litre and degree Plato; a degree Plato is taken as 10 g of
// extract a litre, as their author does.
constexpr std::array figures{
    YieldFigure{"GR01", "WZ1", 'P', 0.74, 0.74,
                "still, 152 less 100 million a millilitre over 9 to 2 P, consumed extract"},
    YieldFigure{"GR05", "MEM", 'M', 1.4, 1.4, "stirred, Troester's rule, from memory"},
    YieldFigure{"GR06", "WOO4", 'P', 0.72, 0.72, "one dry strain, active culture"},
    YieldFigure{"GR08", "WOO4", 'P', 1.04, 1.04, "one dry strain, from the refrigerator"},
    YieldFigure{"GR10", "WOO4", 'P', 1.4, 1.4, "fitted by its author, consumed extract"},
    YieldFigure{"GR11", "WOO3", 'P', 1.2, 1.2, "daily readings, consumed extract"},
    YieldFigure{"GR15", "DEC", 'Q', 1.0, 1.5, "De Clerck, conditions not given"},
    YieldFigure{"GR21", "MEM", 'M', 1.06, 1.06,
                "Balling, from memory, at 20 billion a gram of dry yeast"},
};

} // namespace

std::span<const YieldFigure> yield_figures() noexcept {
    return figures;
}

const YieldFigure* find_yield_figure(std::string_view key) noexcept {
    const auto found = std::ranges::find(figures, key, &YieldFigure::key);
    return found == figures.end() ? nullptr : &*found;
}

Estimate<Cells> new_cells_by(const YieldFigure& figure, Mass extract) {
    const double grams = extract.in(gram);
    require_not_negative("extract of a starter", grams, "g");
    return {grams * figure.low * billion_cells,
            grams * (figure.low + figure.high) / 2.0 * billion_cells,
            grams * figure.high * billion_cells, figure.source};
}

Cells new_cells_by_attenuation(Volume wort, Plato consumed) {
    require_not_negative("volume of wort", wort.in(litre), "L");
    require_not_negative("extract consumed", consumed.degrees(), "P");
    return 14.0 * wort.in(litre)*consumed.degrees() * billion_cells;
}

} // namespace barmkeep::brewing
