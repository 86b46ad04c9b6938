#include "sdk/brewing/slurry.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::brewing {

Estimate<Cells> cells_in_slurry(Volume slurry) {
    constexpr double quart = us_quart.canonical_per_unit / millilitre.canonical_per_unit;
    const double millilitres = slurry.in(millilitre);
    require_not_negative("volume of slurry", millilitres, "mL");
    return {millilitres * 300.0 / quart * billion_cells,
            millilitres * 1000.0 / quart * billion_cells,
            millilitres * 2000.0 / quart * billion_cells, "WOO2"};
}

Volume slurry_needed(Cells wanted, double billion_per_millilitre) {
    require_not_negative("cells wanted", wanted.in(billion_cells), "billion");
    require_positive("cell density", billion_per_millilitre, "billion/mL");
    return wanted.in(billion_cells) / billion_per_millilitre * millilitre;
}

} // namespace barmkeep::brewing
