#include "sdk/brewing/pack.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::brewing {
namespace {

constexpr Cells billions(double count) {
    return count * billion_cells;
}

constexpr std::array figures{
    PackFigure{"DY01", "FER3", 'Q', PackKind::dry_gram, billions(6), billions(6),
               "maker's minimum at packing"},
    PackFigure{"DY02", "LAL1", 'P', PackKind::dry_gram, billions(5), billions(5),
               "maker's minimum, most strains"},
    PackFigure{"DY10", "MAD", 'Q', PackKind::dry_gram, billions(14), billions(14),
               "20 billion a gram, 70 % alive"},
    PackFigure{"PR17", "FER1", 'P', PackKind::dry_gram, billions(7.5), billions(8),
               "implied by the dose of ale yeast"},
    PackFigure{"PR19", "LAL3", 'Q', PackKind::dry_gram, billions(5), billions(5),
               "implied by the dose of ale yeast"},
    PackFigure{"PK01", "WYE2", 'P', PackKind::liquid_pack, billions(100), billions(100),
               "125 mL pack, maker's minimum"},
    PackFigure{"PK03", "WL7", 'Q', PackKind::liquid_pack, billions(70), billions(140),
               "old 35 mL vial"},
    PackFigure{"PK04", "WL6", 'Q', PackKind::liquid_pack, billions(75), billions(150),
               "old vial, older leaflet"},
    PackFigure{"PK05", "WL4", 'Q', PackKind::liquid_pack, billions(86), billions(86),
               "40 mL pack of 2.15 billion a millilitre"},
    PackFigure{"PK07", "WL8", 'Q', PackKind::liquid_pack, billions(58.8), billions(58.8),
               "one lot's report, 1.68 billion a millilitre in 35 mL"},
    PackFigure{"PK09", "SAC", 'P', PackKind::agar_slant, billions(2), billions(2), "one jar"},
};

} // namespace

std::span<const PackFigure> pack_figures() noexcept {
    return figures;
}

const PackFigure* find_pack_figure(std::string_view key) noexcept {
    const auto found = std::ranges::find(figures, key, &PackFigure::key);
    return found == figures.end() ? nullptr : &*found;
}

Estimate<Cells> cells_in_liquid_packs(double packs) {
    require_not_negative("number of packs", packs, "");
    return {packs * billions(58.8), packs * billions(100), packs * billions(150), "WL8 WYE2 WL6"};
}

Estimate<Cells> cells_in_dry_yeast(Mass amount) {
    const double grams = amount.in(gram);
    require_not_negative("mass of dry yeast", grams, "g");
    return {grams * billions(5), grams * billions(7.5), grams * billions(14), "LAL1 FER1 MAD"};
}

LivingCells living_cells(const Estimate<Cells>& at_packing, const Estimate<double>& share_alive) {
    for (const Cells cells : {at_packing.low, at_packing.likely, at_packing.high})
        require_not_negative("cells at packing", cells.in(billion_cells), "billion");
    for (const double share : {share_alive.low, share_alive.likely, share_alive.high})
        require_within("share alive", share, 0.0, 1.0, "", "Give a share, not a percentage.");
    return {{at_packing.low * share_alive.low, at_packing.likely * share_alive.likely,
             at_packing.high * share_alive.high, at_packing.sources},
            share_alive.sources};
}

} // namespace barmkeep::brewing
