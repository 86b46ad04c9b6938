// Growth in starters against the series and rules it was taken from.  Rows marked M, and all
// coefficients of the stirred rule, are from memory: agreement with them shows that they were
// carried over whole, not that they are right.
#include "sdk/brewing/chamber.hpp"
#include "sdk/brewing/growth.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"
#include "sdk/brewing/growth_yields.hpp"
#include "sdk/brewing/starter_plan.hpp"
#include "tests/published/yeast_comparisons.hpp"

#include <cmath>

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string still = "yeast/growth_white.csv";
const std::string stirred = "yeast/growth_troester.csv";
const std::string other = "yeast/growth_other.csv";
const std::string examples = "yeast/worked_examples.csv";

std::vector<Pair> still_pairs(bool from_memory) {
    return pairs_from(
        still, [=](const Row& row) { return (row["access"] == "M") == from_memory; },
        [](const Row& row) {
            // The series starts from 100 billion cells.
            return 100 * still_growth_factor(100.0 / row.number("starter_L"));
        },
        [](const Row& row) { return row.number("final_B"); });
}

std::vector<Pair> stirred_pairs() {
    return pairs_from(
        stirred, [](const Row&) { return true; },
        [](const Row& row) {
            return stirred_new_cells(row.number("initial_B_per_g") * billion_cells, 1.0 * gram)
                .in(billion_cells);
        },
        [](const Row& row) { return row.number("new_B_per_g_from_memory"); });
}

/// Yields of home trials are printed by the litre and degree Plato; ten grams of extract each.
std::vector<Pair> yield_pairs() {
    std::vector<Pair> pairs;
    for (const YieldFigure& figure : yield_figures()) {
        const Row row = row_of(other, std::string{figure.key});
        const bool per_litre =
            row["unit"].starts_with("B per L") || row["unit"].starts_with("M/mL per degP");
        if (figure.key == "GR21")
            continue; // printed as grams of dry yeast
        pairs.push_back({row.place(), new_cells_by(figure, 1.0 * gram).low.in(billion_cells),
                         row.number("result") / (per_litre ? 10 : 1)});
    }
    return pairs;
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
    const Row litres = row_of(other, "GR10");
    return {
        {"still starter, cells after", "WZ1, WZ2 (second hand)", "25 to 200 M/mL", "B", 0.5,
         still_pairs(false)},
        {"still starter, cells after", "WZ rows from memory", "5 to 125 M/mL", "B", 0.5,
         still_pairs(true)},
        // Computed elsewhere from the same coefficients, to three decimals.
        {"stirred starter, new cells a gram", "KAI, from memory", "0.05 to 4 B/g", "B/g", 0.0005,
         stirred_pairs()},
        // GR01 is printed to a tenth of a million a millilitre.
        {"yield of extract", "WZ1, WOO3, WOO4, DEC, KAI", "one gram", "B/g", 0.005, yield_pairs()},
        {"yield of extract consumed",
         "WOO4",
         "1 L by 1 P",
         "B",
         1e-9,
         {{litres.place(),
           new_cells_by_attenuation(1.0 * litre, Plato::degrees(1)).in(billion_cells),
           litres.number("result")}}},
        // Derived totals, in whole billions.
        {"cells of a starter counted", "SHA", "1.6 L", "B", 0.5, count_pairs()},
        {"spread between strains, root of the ratio",
         "SHA",
         "two strains",
         "",
         0.005,
         {{strains.place(), strain_spread, std::sqrt(ratio)}}},
        // The author reads the row at 25 million a millilitre for 26.5.
        {"still starter, worked example",
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
        {"step limits", "RAI, ZWI", "4 schools", "fold", 1e-12, step_pairs()},
    };
}

} // namespace barmkeep::published
