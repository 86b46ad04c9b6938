// A formula held against what its source published, value by value.
//
// One definition serves twice: the tests hold every pair to the tolerance, and the table of
// docs/science.md shows the worst.  The tolerance is the printed precision of the source, or has
// its reason beside it.
#pragma once

#include "tests/published/csv.hpp"
#include "tests/published/deviations.hpp"

#include <string>
#include <vector>

namespace barmkeep::published {

struct Pair {
    std::string place; ///< file and line
    double computed;
    double published;
};

struct Comparison {
    std::string formula;
    std::string source;
    std::string range;
    std::string unit;
    double tolerance;
    std::vector<Pair> pairs;
};

/// Pairs from the rows of a file that `wanted` takes.
template <class Wanted, class Computed, class Published>
std::vector<Pair> pairs_from(const std::string& file, Wanted wanted, Computed computed,
                             Published published) {
    std::vector<Pair> pairs;
    for (const Row& row : read_csv(file))
        if (wanted(row))
            pairs.push_back({row.place(), computed(row), published(row)});
    return pairs;
}

/// The same pairs as shares of the published value, where values span decades.
inline std::vector<Pair> relative(std::vector<Pair> pairs) {
    for (Pair& pair : pairs) {
        pair.computed /= pair.published;
        pair.published = 1.0;
    }
    return pairs;
}

inline std::vector<Deviation> deviations_of(const std::vector<Comparison>& comparisons) {
    std::vector<Deviation> deviations;
    for (const Comparison& one : comparisons) {
        Worst worst;
        for (const Pair& pair : one.pairs)
            worst.compare(pair.computed, pair.published);
        deviations.push_back(
            {one.formula, one.source, one.range, worst.worst(), one.unit, worst.values()});
    }
    return deviations;
}

// The families, each defined in its *_deviations.cpp.
std::vector<Comparison> plato_comparisons();
std::vector<Comparison> density_comparisons();
std::vector<Comparison> dilution_comparisons();
std::vector<Comparison> instrument_comparisons();
std::vector<Comparison> steam_comparisons();
std::vector<Comparison> atmosphere_comparisons();
std::vector<Comparison> fuel_comparisons();

} // namespace barmkeep::published
