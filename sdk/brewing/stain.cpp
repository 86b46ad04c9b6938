#include "sdk/brewing/stain.hpp"

#include "sdk/brewing/distributions.hpp"
#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::brewing {
namespace {

void check(const StainedCount& count, double confidence) {
    require_confidence(confidence);
    const double most = static_cast<double>(most_cells_counted);
    require_within("living cells counted", static_cast<double>(count.living), 0.0, most, "", "");
    require_within("dead cells counted", static_cast<double>(count.dead), 0.0, most, "", "");
    require_positive("cells counted", static_cast<double>(count.total()), "");
}

} // namespace

Estimate<double> stained_share(const StainedCount& count, double confidence) {
    check(count, confidence);
    const double living = static_cast<double>(count.living);
    const double dead = static_cast<double>(count.dead);
    const double tail = (1.0 - confidence) / 2.0;
    const double low = count.living == 0 ? 0.0 : beta_quantile(living, dead + 1.0, tail);
    const double high = count.dead == 0 ? 1.0 : beta_quantile(living + 1.0, dead, 1.0 - tail);
    return {low, living / (living + dead), high, "CLP"};
}

Interval score_interval(const StainedCount& count, double confidence) {
    check(count, confidence);
    const double n = static_cast<double>(count.total());
    const double share = static_cast<double>(count.living) / n;
    const double z = normal_quantile(0.5 + confidence / 2.0);
    const double shrink = 1.0 / (1.0 + z * z / n);
    const double centre = (share + z * z / (2.0 * n)) * shrink;
    const double half = z * std::sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n)) * shrink;
    // Rounding alone could pass 0 or 1 by a last digit.
    return {std::max(0.0, centre - half), std::min(1.0, centre + half)};
}

Estimate<double> living_density(const CountedDensity& density,
                                const Estimate<double>& share_alive) {
    const Estimate<double>& cells = density.million_per_millilitre;
    for (const double value : {cells.low, cells.likely, cells.high})
        require_not_negative("cell density", value, "million/mL");
    for (const double share : {share_alive.low, share_alive.likely, share_alive.high})
        require_within("share alive", share, 0.0, 1.0, "", "Give a share, not a percentage.");
    return {cells.low * share_alive.low, cells.likely * share_alive.likely,
            cells.high * share_alive.high, cells.sources};
}

} // namespace barmkeep::brewing
