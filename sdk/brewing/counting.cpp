#include "sdk/brewing/counting.hpp"

#include "sdk/brewing/dispersion.hpp"
#include "sdk/brewing/distributions.hpp"
#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::brewing {
namespace {

/// Half the width of the interval that the scatter between fields gives.
double observed_half_width(const FieldStatistics& fields, double confidence) {
    const double count = static_cast<double>(fields.fields);
    const double t = t_quantile(count - 1.0, 0.5 + confidence / 2.0);
    return t * std::sqrt(fields.sample_variance / count);
}

} // namespace

Interval poisson_interval(std::uint64_t counted, double confidence) {
    require_confidence(confidence);
    const double cells = static_cast<double>(counted);
    require_within("cells counted", cells, 0.0, static_cast<double>(most_cells_counted), "",
                   "Check the number of cells.");
    const double tail = (1.0 - confidence) / 2.0;
    return {counted == 0 ? 0.0 : gamma_quantile(cells, tail),
            gamma_quantile(cells + 1.0, 1.0 - tail)};
}

double greatest_counting_error(std::uint64_t counted) {
    require_positive("cells counted", static_cast<double>(counted), "");
    return 2.0 / std::sqrt(static_cast<double>(counted));
}

std::uint64_t cells_to_count(double share) {
    require_within("error of a count", share, 0.0001, 1.0, "",
                   "Give a share: 0.1 is ten per cent.");
    const double root = 2.0 / share;
    // A hair less, so that 0.1 asks for 400 and not for 401.
    return static_cast<std::uint64_t>(std::ceil(root * root * (1.0 - 1e-12)));
}

FieldMean field_mean(std::span<const std::uint32_t> fields, double confidence) {
    require_confidence(confidence);
    const FieldStatistics statistics = field_statistics(fields);
    const double count = static_cast<double>(statistics.fields);
    const Interval sum = poisson_interval(statistics.cells, confidence);
    const Interval chance{sum.low / count, sum.high / count};
    if (statistics.fields >= 2) {
        const double half = observed_half_width(statistics, confidence);
        if (2.0 * half > chance.width())
            return {{std::max(0.0, statistics.mean - half), statistics.mean, statistics.mean + half,
                     "STU08"},
                    Scatter::observed};
    }
    return {{chance.low, statistics.mean, chance.high, "GAR"}, Scatter::poisson};
}

CountedDensity counted_density(const ChamberCount& count, double confidence) {
    const FieldMean mean = field_mean(count.fields, confidence);
    const auto density = [&](double cells) {
        return million_per_millilitre(cells, 1.0, count.square, count.dilution, count.depth_mm);
    };
    return {{density(mean.cells.low), density(mean.cells.likely), density(mean.cells.high),
             mean.cells.sources},
            mean.scatter};
}

} // namespace barmkeep::brewing
