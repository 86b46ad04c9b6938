// Pitching rates, packs and slurry against the statements they were taken from, and the printed
// examples of the arithmetic.
#include "sdk/brewing/chamber.hpp"
#include "sdk/brewing/pack.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/slurry.hpp"
#include "tests/published/yeast_comparisons.hpp"

namespace barmkeep::published {
namespace {

using namespace brewing;

const std::string rates = "yeast/pitch_rates.csv";
const std::string examples = "yeast/worked_examples.csv";

/// The statements that make up one printed row: a row for two classes is two statements here.
std::vector<const PitchRate*> statements_of(const std::string& id) {
    std::vector<const PitchRate*> found;
    for (const PitchRate& rate : pitch_rates())
        if (rate.key.substr(0, 4) == id && rate.key != "PR06-lager")
            found.push_back(&rate);
    return found;
}

std::vector<Pair> rate_pairs() {
    std::vector<Pair> pairs;
    for (const Row& row : read_csv(rates)) {
        const auto statements = statements_of(row["id"]);
        if (statements.empty())
            throw std::runtime_error{row.place() + ": no statement " + row["id"]};
        for (const PitchRate* rate : statements) {
            pairs.push_back({row.place(), rate->low, row.number("value_low")});
            pairs.push_back({row.place(), rate->high, row.number("value_high")});
        }
    }
    return pairs;
}

std::vector<Pair> pack_pairs(const std::string& file, PackKind kind) {
    std::vector<Pair> pairs;
    for (const PackFigure& figure : pack_figures()) {
        if (figure.kind != kind || figure.key.substr(0, 2) == "PR")
            continue;
        const Row row = row_of(file, std::string{figure.key});
        // One lot is printed by the millilitre, in a pack of 35 mL.
        const double scale = figure.key == "PK07" ? 35.0 : 1.0;
        const auto [low, high] = range_in(row["value"]);
        pairs.push_back({row.place(), figure.low.in(billion_cells), low * scale});
        pairs.push_back({row.place(), figure.high.in(billion_cells), high * scale});
    }
    return pairs;
}

/// A worked example: what it prints against what the arithmetic here gives.
Pair example(const std::string& id, double computed) {
    const Row row = row_of(examples, id);
    return {row.place(), computed, numbers_in(row["published_answer"]).front()};
}

double billions(Cells cells) {
    return cells.in(billion_cells);
}

std::vector<Pair> slurry_pairs() {
    const Row row = row_of("yeast/slurry.csv", "SL08");
    const auto [low, high] = range_in(row["value"]);
    const Estimate<Cells> jar = cells_in_slurry(1.0 * us_quart);
    return {{row.place(), billions(jar.low) / 1000, low},
            {row.place(), billions(jar.high) / 1000, high}};
}

} // namespace

std::vector<Comparison> yeast_pitching_comparisons() {
    const Volume five_gallons = 5.0 * us_gallon;
    return {
        // Carried as printed.
        {"pitching rates", "23 statements", "ale and lager", "M/mL or M/mL/P", 1e-12, rate_pairs()},
        {"cells a pack", "WYE2, WL4, WL6, WL7, WL8", "one pack", "B", 1e-9,
         pack_pairs("yeast/packs.csv", PackKind::liquid_pack)},
        {"cells a slant", "SAC", "one jar", "B", 1e-9,
         pack_pairs("yeast/packs.csv", PackKind::agar_slant)},
        {"cells a gram of dry yeast", "FER3, LAL1, MAD", "one gram", "B", 1e-9,
         pack_pairs("yeast/dry_yeast.csv", PackKind::dry_gram)},
        {"cells a quart of slurry", "WOO2", "one jar", "10^12", 1e-9, slurry_pairs()},
        // Printed in whole billions.
        {"cells to pitch, worked examples",
         "FIX, MAD",
         "12 and 15 P",
         "B",
         0.5,
         {example("WE01", billions(cells_at_rate(0.75, 20.0 * litre, Plato::degrees(12)))),
          example("WE02", billions(cells_at_rate(0.75, 5.5 * us_gallon, Plato::degrees(15))))}},
        {"cells to pitch, worked example",
         "FBI",
         "12.5 P",
         "B",
         0.05,
         {example("WE09", billions(cells_at_rate(0.75, 20.0 * litre, Plato::degrees(12.5))))}},
        // Its author cut 113.56 to 113.5.
        {"cells to pitch, worked example",
         "BYO1",
         "6 M/mL",
         "B",
         0.1,
         {example("WE06", billions(cells_needed_by(*find_pitch_rate("PR10"), five_gallons,
                                                   Plato::degrees(12))
                                       .likely))}},
        // Rounded to the next ten.
        {"cells to pitch, worked example",
         "BYO2",
         "15 P",
         "B",
         5,
         {example("WE07", billions(cells_at_rate(1.0, five_gallons, Plato::degrees(15))))}},
        // Printed as "slightly under 6"; the file has the figure behind the words.
        {"density of one pack",
         "WYE1",
         "5 gal",
         "M/mL",
         0.0005,
         {{"WE13", find_pack_figure("PK01")->low.in(million_cells) / five_gallons.in(millilitre),
           row_of(examples, "WE13").number("recomputed")}}},
        {"cells in one lot",
         "WL8 (second hand)",
         "35 mL",
         "B",
         0.05,
         {example("WE20", billions(cells_in(35.0 * millilitre, 1680)))}},
    };
}

} // namespace barmkeep::published
