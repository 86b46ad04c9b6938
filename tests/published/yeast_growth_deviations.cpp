// Growth in starters against the series and yields it was taken from.
#include "sdk/brewing/chamber.hpp"
#include "sdk/brewing/growth.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "tests/published/yeast_comparisons.hpp"

#include <cmath>

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string unstirred = "yeast/growth_unstirred.csv";
const std::string other = "yeast/growth_other.csv";
const std::string examples = "yeast/worked_examples.csv";

std::vector<Pair> still_pairs() {
    return pairs_from(
        unstirred, [](const Row&) { return true; },
        [](const Row& row) {
            // The series starts from 100 billion cells.
            return 100 * still_growth_factor(100.0 / row.number("starter_L"));
        },
        [](const Row& row) { return row.number("final_B"); });
}

/// New cells of one gram of extract, low, likely and high.
std::vector<Pair> yield_pairs() {
    const Estimate<Cells> grown = stirred_new_cells(1.0 * billion_cells, 1.0 * gram);
    const Row low = row_of(other, "GR06");
    const Row likely = row_of(other, "GR15");
    return {
        // Printed by the litre and degree Plato; ten grams of extract each.
        {low.place(), grown.low.in(billion_cells), low.number("result") / 10},
        {likely.place(), grown.likely.in(billion_cells), likely.number("result")},
        // The upper figure stands in the note.
        {likely.place(), grown.high.in(billion_cells), numbers_in(likely["note"]).front()},
    };
}

std::vector<Pair> count_pairs() {
    const Row first = row_of(other, "GR13");
    const Row second = row_of(other, "GR14");
    const auto total = [](const Row& row) {
        return cells_in(1.6 * litre, row.number("result")).in(billion_cells);
    };
    return {{first.place(), total(first), 451}, {second.place(), total(second), 213}};
}

std::vector<Pair> step_pairs() {
    std::vector<Pair> pairs;
    for (const StepLimit& limit : step_limits()) {
        if (limit.key == "SP17-old")
            continue; // a limit in the note of SP17
        const Row row = row_of("yeast/starter_practice.csv", std::string{limit.key});
        pairs.push_back({row.place(), limit.fold, row.number("value")});
    }
    return pairs;
}

Pair example(const std::string& id, double computed) {
    const Row row = row_of(examples, id);
    return {row.place(), computed, numbers_in(row["published_answer"]).front()};
}

} // namespace

std::vector<Comparison> yeast_growth_comparisons() {
    const Row strains = row_of(other, "GR13");
    const double ratio = strains.number("result") / row_of(other, "GR14").number("result");
    return {
        {"unstirred starter, cells after", "WZ1, WZ2 (second hand)", "25 to 200 M/mL", "B", 0.5,
         still_pairs()},
        {"yield of extract at the start", "GR06, GR15", "one gram", "B/g", 1e-12, yield_pairs()},
        // Derived totals, in whole billions.
        {"cells of a starter counted", "SHA", "1.6 L", "B", 0.5, count_pairs()},
        {"spread between strains, root of the ratio",
         "SHA",
         "two strains",
         "",
         0.005,
         {{strains.place(), strain_spread, std::sqrt(ratio)}}},
        // The author reads the row at 25 million a millilitre for 26.5.
        {"unstirred starter, worked example",
         "WZ2",
         "53 B in 2 L",
         "B",
         0.5,
         {example("WE17", 53 * still_growth_factor(25.0))}},
        {"yield per degree, worked example",
         "WZ1",
         "9 to 2 P",
         "M/mL/P",
         0.05,
         {example("WE18", (100 * still_growth_factor(100.0) - 100) / (9 - 2))}},
        {"step limits", "RAI, ZWI", "4 limits", "fold", 1e-12, step_pairs()},
    };
}

} // namespace barmkeep::published
