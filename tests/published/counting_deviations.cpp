// Haemacytometer arithmetic and statistics against printed examples and the counts of STU.
#include "sdk/brewing/chamber.hpp"
#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/dispersion.hpp"
#include "tests/published/yeast_comparisons.hpp"

#include <cstdint>

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string errors = "yeast/count_stats.csv";

/// The table of one sample as the single squares it was counted from.
std::vector<std::uint32_t> squares_of(const std::string& sample) {
    std::vector<std::uint32_t> fields;
    for (const Row& row : read_csv("yeast/squares_counted.csv"))
        if (row["sample"] == sample)
            fields.insert(fields.end(), static_cast<std::size_t>(row.number("squares")),
                          static_cast<std::uint32_t>(row.number("cells_in_square")));
    return fields;
}

template <class Computed>
std::vector<Pair> sample_pairs(const std::string& column, Computed computed) {
    return pairs_from(
        "yeast/squares_summary.csv", [](const Row&) { return true; },
        [&](const Row& row) { return computed(field_statistics(squares_of(row["sample"]))); },
        [&](const Row& row) { return row.number(column); });
}

std::vector<Pair> factor_pairs() {
    const auto factor = [](const Square& square) {
        return 1e6 * million_per_millilitre(1, 1, square, 1);
    };
    // The printed factors stand last in their rows.
    const auto printed = [](const std::string& id) {
        return numbers_in(row_of("yeast/chamber.csv", id)["expression_or_value"]).back();
    };
    return {{"HC02", factor(large_square), printed("HC02")},
            {"HC03", factor(middle_square), printed("HC03")},
            {"HC04", factor(small_square), printed("HC04")},
            {"HC06", 1e6 * million_per_millilitre(1, 5, middle_square, 1), printed("HC06")}};
}

std::vector<Pair> volume_pairs() {
    const auto printed = [](const std::string& id) {
        const auto numbers = numbers_in(row_of("yeast/chamber.csv", id)["expression_or_value"]);
        return numbers.front();
    };
    return {{"HC02", volume_over(large_square).in(millilitre), printed("HC02")},
            {"HC03", volume_over(middle_square).in(millilitre), printed("HC03")},
            {"HC04", volume_over(small_square).in(millilitre), printed("HC04")}};
}

std::vector<Pair> error_pairs() {
    const auto percent = [](std::uint64_t cells) {
        return 100 * greatest_counting_error(cells);
    };
    const std::vector<double> list = numbers_in(row_of(errors, "CS08")["value"]);
    const std::vector<double> counts = numbers_in(row_of(errors, "CS08")["item"]);
    std::vector<Pair> pairs{{"CS02", percent(100), row_of(errors, "CS02").number("value")},
                            {"CS03", percent(200), row_of(errors, "CS03").number("value")}};
    for (std::size_t i = 0; i < list.size(); ++i)
        pairs.push_back({"CS08", percent(static_cast<std::uint64_t>(counts.at(i))), list.at(i)});
    return pairs;
}

std::vector<Pair> chamber_examples() {
    const std::string file = "yeast/chamber_examples.csv";
    const Row five = row_of(file, "HE1");
    const Row nine = row_of(file, "HE7");
    return {{five.place(),
             1e6 * million_per_millilitre(120, 5, middle_square, five.number("dilution")) / 1e8,
             five.number("result") / 1e8},
            {nine.place(), 1e6 * million_per_millilitre(39, 9, large_square, 1) / 1e4,
             nine.number("result")}};
}

} // namespace

std::vector<Comparison> counting_comparisons() {
    return {
        {"liquid over a square", "MLA", "1 mm, 1/25, 1/400", "mL", 1e-15, volume_pairs()},
        {"cells a millilitre for one cell", "MLA, BSI", "1 mm to 1/400; 5 of 25", "cells/mL", 1e-6,
         factor_pairs()},
        // 6.0e8 in units of 1e8 cells a millilitre, 4.33 in units of 1e4: to the printed digits.
        {"counting examples", "BSI, PLU", "five 1/25; nine 1 mm", "printed unit", 0.005,
         chamber_examples()},
        {"largest counting error", "MLA", "50 to 1000 cells", "%", 0.05, error_pairs()},
        {"cells in 400 squares", "STU", "4 samples", "cells", 0,
         sample_pairs("cells",
                      [](const FieldStatistics& s) { return static_cast<double>(s.cells); })},
        {"mean of 400 squares", "STU", "4 samples", "cells", 0.00005,
         sample_pairs("mean", [](const FieldStatistics& s) { return s.mean; })},
        {"variance of 400 squares", "STU", "4 samples", "cells^2", 0.00005,
         sample_pairs("variance_n",
                      [](const FieldStatistics& s) { return s.population_variance; })},
        {"variance over mean", "STU", "4 samples", "", 0.0005,
         sample_pairs("variance_over_mean",
                      [](const FieldStatistics& s) { return s.population_variance / s.mean; })},
    };
}

} // namespace barmkeep::published
