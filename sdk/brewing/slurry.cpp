#include "sdk/brewing/slurry.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::brewing {
namespace {

Estimate<Cells> at_densities(Volume slurry, double low, double likely, double high,
                             std::string_view sources) {
    const double millilitres = slurry.in(millilitre);
    require_not_negative("volume of slurry", millilitres, "mL");
    return {millilitres * low * billion_cells, millilitres * likely * billion_cells,
            millilitres * high * billion_cells, sources};
}

} // namespace

Estimate<Cells> cells_in_slurry(Volume slurry) {
    constexpr double quart = us_quart.canonical_per_unit / millilitre.canonical_per_unit;
    return at_densities(slurry, 300.0 / quart, 1000.0 / quart, 2000.0 / quart, "WOO2");
}

Estimate<Cells> cells_in_slurry(Volume slurry, double solids_share) {
    require_within("share of settled solids", solids_share, thinnest_slurry, thickest_slurry, "",
                   "Let it settle, or count the cells.");
    constexpr double figure = 1.2; // billion a millilitre, at 40 to 60 % solids
    return at_densities(slurry, figure / 0.60 * solids_share, figure / 0.50 * solids_share,
                        figure / 0.40 * solids_share, "MEM");
}

Volume slurry_needed(Cells wanted, double billion_per_millilitre) {
    require_not_negative("cells wanted", wanted.in(billion_cells), "billion");
    require_positive("cell density", billion_per_millilitre, "billion/mL");
    return wanted.in(billion_cells) / billion_per_millilitre * millilitre;
}

} // namespace barmkeep::brewing
