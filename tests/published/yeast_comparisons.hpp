// The comparisons of the yeast and counting halves of sdk/brewing, each defined in the file of its
// name, and what reads the ranges their tables print.
#pragma once

#include "tests/published/comparison.hpp"

#include <string>
#include <utility>
#include <vector>

namespace barmkeep::published {

std::vector<Comparison> yeast_viability_comparisons();
std::vector<Comparison> yeast_pitching_comparisons();
std::vector<Comparison> yeast_growth_comparisons();
std::vector<Comparison> counting_comparisons();

/// The one row of a file whose `id` is that; throws if there is none.
[[nodiscard]] Row row_of(const std::string& file, const std::string& id);

/// All numbers of a field, which may print a range or a list: "70-140", "drop of 7", "<50",
/// "28.3 / 23.1".  A hyphen between two digits separates; before a digit alone it is a sign.
[[nodiscard]] std::vector<double> numbers_in(const std::string& text);

/// Lowest and highest of the numbers in a field; the same twice where one is printed.
[[nodiscard]] std::pair<double, double> range_in(const std::string& text);

} // namespace barmkeep::published
