#include "plugins/starter/living_yeast.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/pack.hpp"
#include "sdk/brewing/slurry.hpp"
#include "sdk/brewing/viability.hpp"

#include <cassert>
#include <cmath>
#include <fmt/format.h>
#include <sstream>

namespace barmkeep::starter {
namespace {

using brewing::Cells;

brewing::YeastMaterial as_science(Material material) {
    switch (material) {
    case Material::dry_pack:
        return brewing::YeastMaterial::dry_pack;
    case Material::slurry:
        return brewing::YeastMaterial::slurry;
    case Material::liquid_pack:
        break;
    }
    return brewing::YeastMaterial::liquid_pack;
}

Range<Cells> times(const Cells& each, double count, std::string_view source) {
    Range<Cells> all;
    all.low = all.likely = all.high = each * count;
    all.sources = source;
    return all;
}

/// Cells at packing; nothing, and a note, where no source speaks of such an amount.
std::optional<Range<Cells>> cells_packed(const contract::Lot& lot, const Amount& amount,
                                         const Storage& keeping, LivingYeast& into) {
    const auto code = to_text(lot.code);
    if (amount.measure == Measure::pieces) {
        const auto packs = static_cast<double>(amount.steps);
        if (lot.facts.cells)
            return times(*lot.facts.cells, packs, "own");
        if (into.material == Material::liquid_pack)
            return Range<Cells>{brewing::cells_in_liquid_packs(packs)};
        if (into.material == Material::dry_pack)
            return Range<Cells>{brewing::cells_in_dry_yeast(packs * keeping.dry_pack)};
        into.notes.push_back(fmt::format("The number of cells in a piece of {0} is not known. Note "
                                         "it: barm lot change {0} --cells '100 B' --reason counted",
                                         code));
        return std::nullopt;
    }
    if (lot.facts.cells)
        into.notes.emplace_back("The cells noted are those of one pack. This yeast is kept by "
                                "another measure, so the sources are used.");
    if (amount.measure == Measure::mass && into.material == Material::dry_pack)
        return Range<Cells>{brewing::cells_in_dry_yeast(as_mass(amount))};
    if (amount.measure == Measure::volume && into.material == Material::slurry)
        return Range<Cells>{brewing::cells_in_slurry(as_volume(amount))};
    into.notes.push_back(fmt::format(
        "No source has the cells of a {} kept by {}. Keep it in packs and note their cells.",
        to_string(into.material), to_string(amount.measure)));
    return std::nullopt;
}

/// The age, with a note where it is not that from packing.
void note_age(const contract::Lot& lot, const Storage& keeping, LivingYeast& into) {
    const auto since = lot.packed ? lot.packed : lot.bought;
    const auto code = to_text(lot.code);
    if (!since) {
        into.notes.push_back(fmt::format("The age is not known. Note the day of packing: barm lot "
                                         "change {} --packed DAY --reason 'day on the label'",
                                         code));
        return;
    }
    const int age = days_between(*since, keeping.day);
    into.aged_from = lot.packed ? AgedFrom::packed : AgedFrom::bought;
    if (age < 0) {
        into.notes.push_back(fmt::format("It was {} on {}, after the day of the list.",
                                         to_string(*into.aged_from), to_text(*since)));
        return;
    }
    into.age_days = age;
    if (!lot.packed)
        into.notes.push_back(fmt::format(
            "The age counts from the day it was bought, so the yeast is older. Note the "
            "day of packing: barm lot change {} --packed DAY --reason 'day on the "
            "label'",
            code));
}

double to_four_decimals(double share) {
    return std::round(share * 1e4) / 1e4;
}

/// The share alive, before rounding for display.
std::optional<Range<double>> share_alive(const Storage& keeping, LivingYeast& into) {
    if (!into.age_days)
        return std::nullopt;
    try {
        const auto known = brewing::viable_share_extrapolated(
            as_science(into.material), static_cast<double>(*into.age_days), keeping.kept_at);
        into.extrapolated = known.extrapolated;
        if (known.extrapolated)
            into.notes.push_back(fmt::format(
                "No source covers such yeast beyond {:.0f} days at this temperature. The figure is "
                "a guess. Count the cells, or start with a small first step.",
                known.covered_to_days));
        return Range<double>{known.share};
    } catch (const brewing::OutOfRange& error) {
        into.notes.push_back(fmt::format("The {} is {:.3g} {}. Sources cover {:.3g} to {:.3g} {}.",
                                         error.quantity(), error.given(), error.unit(),
                                         error.lowest(), error.highest(), error.unit()));
        return std::nullopt;
    }
}

} // namespace

std::string joined_sources(std::string_view keys, std::string_view more) {
    std::string joined{keys};
    std::istringstream words{std::string(more)};
    for (std::string word; words >> word;) {
        const std::string framed = " " + joined + " ";
        if (framed.find(" " + word + " ") == std::string::npos)
            joined += (joined.empty() ? "" : " ") + word;
    }
    return joined;
}

Material material_of(const contract::Lot& lot) {
    const auto form = lot.facts.form;
    if (form == contract::Form::dry)
        return Material::dry_pack;
    if (form == contract::Form::slurry)
        return Material::slurry;
    if (!form && lot.on_hand.measure == Measure::mass)
        return Material::dry_pack;
    if (lot.on_hand.measure == Measure::volume)
        return Material::slurry;
    return Material::liquid_pack;
}

LivingYeast living_yeast(const contract::Lot& lot, const Amount& amount, const Storage& keeping) {
    LivingYeast row;
    row.lot = lot.code;
    row.good = lot.good;
    row.strain = lot.facts.strain;
    row.material = material_of(lot);
    row.amount = amount;
    row.best_by = lot.best_by;
    row.past_best_by = lot.best_by && days_between(*lot.best_by, keeping.day) > 0;
    if (row.past_best_by)
        row.notes.push_back(fmt::format("The best-by day, {}, is past.", to_text(*lot.best_by)));
    if (!lot.facts.form && row.material == Material::liquid_pack)
        row.notes.push_back(fmt::format("It counts as liquid yeast. If it is dry: barm lot change "
                                        "{} --form dry --reason 'form of the pack'",
                                        to_text(lot.code)));
    note_age(lot, keeping, row);
    const auto packed = cells_packed(lot, amount, keeping, row);
    const auto alive = share_alive(keeping, row);
    if (packed && alive) {
        Range<Cells> cells;
        cells.low = packed->low * alive->low;
        cells.likely = packed->likely * alive->likely;
        cells.high = packed->high * alive->high;
        cells.sources = joined_sources(packed->sources, alive->sources);
        row.cells = cells;
    }
    row.alive = alive;
    if (row.alive)
        for (double* end : {&row.alive->low, &row.alive->likely, &row.alive->high})
            *end = to_four_decimals(*end);
    return row;
}

Range<Cells> cells_of(std::span<const LivingYeast> yeast) {
    Range<Cells> all;
    for (const auto& one : yeast) {
        assert(one.cells);
        all.low += one.cells->low;
        all.likely += one.cells->likely;
        all.high += one.cells->high;
        all.sources = joined_sources(all.sources, one.cells->sources);
    }
    return all;
}

} // namespace barmkeep::starter
