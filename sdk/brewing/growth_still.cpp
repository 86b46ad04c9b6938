#include "sdk/brewing/growth_still.hpp"

#include "sdk/brewing/errors.hpp"

#include <array>
#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr std::array rows{
    StillRow{25.0, 2.76},
    StillRow{50.0, 2.05},
    StillRow{100.0, 1.52},
    StillRow{200.0, 1.12},
};

} // namespace

std::span<const StillRow> still_rows() noexcept {
    return rows;
}

double still_growth_factor(double million_per_millilitre) {
    require_within("inoculation rate of an unstirred starter", million_per_millilitre,
                   lowest_still_rate, highest_still_rate, "million/mL",
                   "Change the volume, stir the starter, or grow the yeast in steps.");
    std::size_t after = 1;
    while (rows[after].million_per_millilitre < million_per_millilitre)
        ++after;
    const StillRow& left = rows[after - 1];
    const StillRow& right = rows[after];
    const double share = std::log(million_per_millilitre / left.million_per_millilitre) /
                         std::log(right.million_per_millilitre / left.million_per_millilitre);
    return left.factor + (right.factor - left.factor) * share;
}

double still_rate_for_factor(double factor) {
    require_within("growth factor of an unstirred starter", factor, rows.back().factor,
                   rows.front().factor, "", "Grow the yeast in several steps.");
    std::size_t after = 1;
    while (rows[after].factor > factor)
        ++after;
    const StillRow& left = rows[after - 1];
    const StillRow& right = rows[after];
    const double share = (factor - left.factor) / (right.factor - left.factor);
    return left.million_per_millilitre *
           std::pow(right.million_per_millilitre / left.million_per_millilitre, share);
}

} // namespace barmkeep::brewing
