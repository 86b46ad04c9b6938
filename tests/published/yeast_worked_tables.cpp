// The computed tables on yeast in docs/science.md.
#include "sdk/brewing/growth.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/viability.hpp"
#include "tests/published/worked_tables.hpp"

#include <fmt/format.h>

#include <utility>

namespace barmkeep::published {
namespace {

using namespace brewing;

std::string percent(const Estimate<double>& share) {
    return fmt::format("{:.0f} to {:.0f}, likely {:.0f} %", 100 * share.low, 100 * share.high,
                       100 * share.likely);
}

std::string billions(const Estimate<Cells>& cells) {
    return fmt::format("{:.0f} to {:.0f}, likely {:.0f}", cells.low.in(billion_cells),
                       cells.high.in(billion_cells), cells.likely.in(billion_cells));
}

std::string share_cell(YeastMaterial material, double days) {
    const ExtrapolatedShare at = viable_share_extrapolated(material, days, Temperature::celsius(4));
    return percent(at.share) + (at.extrapolated ? " (a guess)" : "");
}

} // namespace

std::string viability_table() {
    std::string text = "| age, days | liquid pack | slurry | dry pack |\n|---|---|---|---|\n";
    for (const double days : {3.0, 7.0, 14.0, 30.0, 61.0, 91.0, 182.0, 274.0, 365.0})
        text += fmt::format(
            "| {:.0f} | {} | {} | {} |\n", days, share_cell(YeastMaterial::liquid_pack, days),
            share_cell(YeastMaterial::slurry, days), share_cell(YeastMaterial::dry_pack, days));
    return text;
}

std::string pitch_table() {
    std::string text = "| wort | ale | lager |\n|---|---|---|\n";
    for (const double plato : {10.0, 12.0, 16.0, 20.0}) {
        text += fmt::format("| 20 L of {:.0f} P |", plato);
        for (const BeerClass beer : {BeerClass::ale, BeerClass::lager})
            text += " " + billions(cells_needed(20.0 * litre, Plato::degrees(plato), beer).cells) +
                    " |";
        text += "\n";
    }
    return text;
}

std::string growth_table() {
    std::string text = "| wort of 1.035 | extract | unstirred | stirred |\n|---|---|---|---|\n";
    for (const double litres : {0.5, 1.0, 2.0, 4.0}) {
        const Wort wort{litres * litre, Gravity::sg(1.035)};
        text += fmt::format("| {} L | {:.1f} g |", litres, extract_in(wort).in(gram));
        for (const Stirring stirring : {Stirring::unstirred, Stirring::stirred})
            text += " " + billions(cells_after(100.0 * billion_cells, wort, stirring)) + " |";
        text += "\n";
    }
    return text;
}

} // namespace barmkeep::published
