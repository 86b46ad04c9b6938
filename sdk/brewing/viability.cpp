#include "sdk/brewing/viability.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace barmkeep::brewing {
namespace {

constexpr std::string_view count_instead =
    "Count the cells, or treat a figure beyond the sources as a guess.";

/// As require_within(), but puts the name together only where there is something to refuse, so that
/// the good path does not allocate.
void hold_within(std::string_view what, std::string_view of, double given, double lowest,
                 double highest, std::string_view unit) {
    if (!(given >= lowest && given <= highest))
        throw OutOfRange{std::string{what}.append(of), given, lowest, highest, unit, count_instead};
}

double between(double from, double to, double share) {
    return from + (to - from) * share;
}

double between_logarithms(double from, double to, double share) {
    return from == to ? from : from * std::pow(to / from, share);
}

/// The values at `at`, between the two points around it; a single point holds everywhere.
template <class Interpolate>
LossPoint interpolate(std::span<const LossPoint> points, double at, Interpolate blend) {
    if (at <= points.front().at || points.size() == 1)
        return points.front();
    std::size_t after = 1;
    while (after + 1 < points.size() && points[after].at < at)
        ++after;
    const LossPoint& left = points[after - 1];
    const LossPoint& right = points[after];
    const double share = std::min(1.0, (at - left.at) / (right.at - left.at));
    return {at, blend(left.low, right.low, share), blend(left.likely, right.likely, share),
            blend(left.high, right.high, share)};
}

/// REQUIRES: the model covers both.
Estimate<double> share_inside(const ViabilityModel& model, double age_days, Temperature kept_at) {
    if (model.shape == LossShape::series) {
        const LossPoint share = interpolate(model.points, age_days, between);
        return {share.low, share.likely, share.high, model.key};
    }
    const LossPoint rate = interpolate(model.points, kept_at.celsius(), between_logarithms);
    return {std::exp(-rate.low * age_days), std::exp(-rate.likely * age_days),
            std::exp(-rate.high * age_days), model.key};
}

/// The statements of a material that hold at one temperature.
class Covering {
public:
    Covering(YeastMaterial material, Temperature kept_at)
        : material_{material}, kept_at_{kept_at}, models_{viability_models(material)} {
        double lowest = std::numeric_limits<double>::infinity();
        double highest = -lowest;
        for (const ViabilityModel& model : models_) {
            lowest = std::min(lowest, model.lowest_celsius);
            highest = std::max(highest, model.highest_celsius);
            if (model.covers_temperature(kept_at))
                oldest_ = std::max(oldest_, model.highest_age_days);
        }
        // The ranges of a material leave no gap, so the ends say it all.
        hold_within("storage temperature of a ", name_of(material), kept_at.celsius(), lowest,
                    highest, "C");
    }

    [[nodiscard]] double oldest() const noexcept { return oldest_; }

    /// Extremes of all, mean of the best evidence; then no higher than at the age where any
    /// statement ended.  REQUIRES: 0 <= age_days <= oldest().
    [[nodiscard]] Estimate<double> at(double age_days) const {
        Mixed mixed = mix(age_days);
        for (const ViabilityModel& model : models_)
            if (model.covers_temperature(kept_at_) && model.highest_age_days < age_days)
                mixed.hold_below(mix(model.highest_age_days));
        return {mixed.low, mixed.likely, mixed.high, viability_keys(material_, mixed.mask)};
    }

private:
    struct Mixed {
        double low = 1.0;
        double likely = 1.0;
        double high = 0.0;
        std::size_t mask = 0;

        void hold_below(const Mixed& earlier) {
            if (earlier.low < low || earlier.likely < likely || earlier.high < high)
                mask |= earlier.mask;
            low = std::min(low, earlier.low);
            likely = std::min(likely, earlier.likely);
            high = std::min(high, earlier.high);
        }
    };

    [[nodiscard]] Mixed mix(double age_days) const {
        Mixed mixed;
        double sum = 0.0;
        int summed = 0;
        Evidence best = Evidence::convention;
        for (std::size_t i = 0; i < models_.size(); ++i) {
            const ViabilityModel& model = models_[i];
            if (!model.covers_temperature(kept_at_) || !model.covers_age(age_days))
                continue;
            const Estimate<double> share = share_inside(model, age_days, kept_at_);
            mixed.low = std::min(mixed.low, share.low);
            mixed.high = std::max(mixed.high, share.high);
            mixed.mask |= std::size_t{1} << i;
            // The statements are ordered with the best evidence first.
            if (summed == 0)
                best = model.evidence;
            if (model.evidence == best) {
                sum += share.likely;
                ++summed;
            }
        }
        mixed.likely = sum / summed;
        return mixed;
    }

    YeastMaterial material_;
    Temperature kept_at_;
    std::span<const ViabilityModel> models_;
    double oldest_ = 0.0;
};

void require_age(YeastMaterial material, double age_days, double oldest) {
    hold_within("age of a ", name_of(material), age_days, 0.0, oldest, "days");
}

} // namespace

Estimate<double> viable_share_by(const ViabilityModel& model, double age_days,
                                 Temperature kept_at) {
    hold_within("storage temperature for source ", model.key, kept_at.celsius(),
                model.lowest_celsius, model.highest_celsius, "C");
    hold_within("age for source ", model.key, age_days, model.lowest_age_days,
                model.highest_age_days, "days");
    return share_inside(model, age_days, kept_at);
}

Estimate<double> viable_share(YeastMaterial material, double age_days, Temperature kept_at) {
    const Covering covering{material, kept_at};
    require_age(material, age_days, covering.oldest());
    return covering.at(age_days);
}

double oldest_covered_age(YeastMaterial material, Temperature kept_at) {
    return Covering{material, kept_at}.oldest();
}

ExtrapolatedShare viable_share_extrapolated(YeastMaterial material, double age_days,
                                            Temperature kept_at) {
    const Covering covering{material, kept_at};
    const double oldest = covering.oldest();
    require_age(material, age_days, std::numeric_limits<double>::max());
    if (age_days <= oldest)
        return {covering.at(age_days), oldest, false};

    const Estimate<double> last = covering.at(oldest);
    const double half_way = covering.at(oldest / 2).likely;
    const double pace =
        std::max(-std::log(last.likely) / oldest, std::log(half_way / last.likely) / (oldest / 2));
    const double beyond = age_days - oldest;
    const Estimate<double> guess{last.low * std::exp(-2.0 * pace * beyond),
                                 last.likely * std::exp(-pace * beyond),
                                 last.high * std::exp(-0.5 * pace * beyond), last.sources};
    return {guess, oldest, true};
}

} // namespace barmkeep::brewing
