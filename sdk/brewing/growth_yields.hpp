// Growth as cells a gram of extract, as several authors state it.
//
// Formula: new cells = yield x grams of extract in the wort at the start.  Such a figure hides that
// growth ends when little extract is left for each cell; it holds for thin inoculation only, and
// growth.hpp joins it with rules that know this.
//
// Thread safety: constants; pure functions.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"

#include <span>
#include <string_view>

namespace barmkeep::brewing {

/// One published yield.
struct YieldFigure {
    std::string_view key; ///< row of tests/published/data/yeast/growth_other.csv
    std::string_view source;
    char access; ///< P, A, Q; M means from memory
    double low;  ///< billion new cells a gram of extract
    double high; ///< equal to `low` where one figure is printed
    std::string_view measured_on;
};

/// All figures, in the order of their keys.
[[nodiscard]] std::span<const YieldFigure> yield_figures() noexcept;

/// The figure with that key, or a null pointer.
[[nodiscard]] const YieldFigure* find_yield_figure(std::string_view key) noexcept;

/// New cells by one figure; likely is the middle of its range.
/// Throws OutOfRange for extract negative or not finite.
[[nodiscard]] Estimate<Cells> new_cells_by(const YieldFigure& figure, Mass extract);

/// New cells by what was consumed: 14 billion a litre and degree Plato (WOO4, two strains,
/// attenuation 62 to 68 %).  `consumed` is the fall of the true or apparent extract, as the author
/// took it: apparent.  Throws OutOfRange for a volume or fall negative or not finite.
[[nodiscard]] Cells new_cells_by_attenuation(Volume wort, Plato consumed);

} // namespace barmkeep::brewing
