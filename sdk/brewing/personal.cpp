#include "sdk/brewing/personal.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

constexpr double central_90 = 1.6448536269514722; // normal quantile of 0.95
constexpr double between_starters = 0.15;
constexpr double between_packs = 0.021;

/// Adds up results one by one, so that no list of ratios has to be made.
class Learning {
public:
    explicit Learning(double prior_deviation)
        : prior_precision_{1.0 / (prior_deviation * prior_deviation)},
          precision_{prior_precision_}, weighted_{prior_precision_} {
        require_positive("spread of the published figure", prior_deviation, "");
    }

    void add(const OwnRatio& result) {
        if (!std::isfinite(result.ratio) || !(result.standard_error > 0.0))
            refuse(result);
        const double precision = 1.0 / (result.standard_error * result.standard_error);
        precision_ += precision;
        weighted_ += precision * result.ratio;
        ++results_;
    }

    [[nodiscard]] LearntRatio learnt() const {
        return {weighted_ / precision_, std::sqrt(prior_precision_ / precision_)};
    }
    [[nodiscard]] double own_weight() const { return 1.0 - prior_precision_ / precision_; }
    [[nodiscard]] std::size_t results() const noexcept { return results_; }

private:
    [[noreturn]] static void refuse(const OwnRatio& result) {
        const bool bad_ratio = !std::isfinite(result.ratio);
        constexpr double endless = std::numeric_limits<double>::infinity();
        throw OutOfRange{bad_ratio ? "own result over the published one"
                                   : "standard error of an own result",
                         bad_ratio ? result.ratio : result.standard_error,
                         bad_ratio ? -std::numeric_limits<double>::max() : 0.0,
                         endless,
                         "",
                         "Leave out results that were not measured."};
    }

    double prior_precision_;
    double precision_;
    double weighted_;
    std::size_t results_ = 0;
};

void require_ordered(std::string_view what, double low, double likely, double high) {
    require_within(what, likely, low, high, "",
                   "The likely figure must be between the low and the high one.");
}

/// Own growth over published growth; both errors add in squares.
OwnRatio ratio_of(const OwnGrowth& own) {
    const double published = own.published_new.in(billion_cells);
    const double counted = own.counted_new.in(billion_cells);
    const double error = own.standard_error.in(billion_cells);
    require_positive("published growth", published, "billion");
    require_within("counted growth", counted, -std::numeric_limits<double>::max(),
                   std::numeric_limits<double>::max(), "billion", "");
    require_not_negative("standard error of a count", error, "billion");
    return {counted / published, std::hypot(error / published, between_starters)};
}

/// Own rate of loss over the published one.  REQUIRES: the published share is below 1.
OwnRatio ratio_of(const OwnViability& own) {
    const double published_loss = -std::log(own.published_share);
    const double n = static_cast<double>(own.count.total());
    const double with_half = (static_cast<double>(own.count.living) + 0.5) / (n + 1.0);
    const double share = static_cast<double>(own.count.living) / n;
    // With no living cell at all the loss is endless; half a cell keeps it a number.
    const double loss = -std::log(own.count.living == 0 ? with_half : share);
    const double sampling = std::sqrt((1.0 - with_half) / (n * with_half));
    return {loss / published_loss, std::hypot(sampling, between_packs) / published_loss};
}

void check(const OwnViability& own) {
    require_positive("published share alive", own.published_share, "");
    require_within("published share alive", own.published_share, 0.0, 1.0, "",
                   "Give a share, not a percentage.");
    require_positive("cells counted", static_cast<double>(own.count.total()), "");
}

} // namespace

LearntRatio learn_ratio(double prior_deviation, std::span<const OwnRatio> results) {
    Learning learning{prior_deviation};
    for (const OwnRatio& result : results)
        learning.add(result);
    return learning.learnt();
}

PersonalEstimate<Cells> personal_growth(const Estimate<Cells>& published,
                                        std::span<const OwnGrowth> own) {
    const double likely = published.likely.in(billion_cells);
    require_positive("published growth", likely, "billion");
    require_ordered("published growth", published.low.in(billion_cells), likely,
                    published.high.in(billion_cells));
    if (own.empty())
        return {published, 0, 0.0};
    Learning learning{(published.high - published.low) / published.likely / (2.0 * central_90)};
    for (const OwnGrowth& starter : own)
        learning.add(ratio_of(starter));
    const auto [mean, shrink] = learning.learnt();
    const Cells centre = std::max(Cells{}, published.likely * mean);
    return {{std::max(Cells{}, centre - (published.likely - published.low) * shrink), centre,
             centre + (published.high - published.likely) * shrink, published.sources},
            learning.results(),
            learning.own_weight()};
}

PersonalEstimate<double> personal_viability(const Estimate<double>& published,
                                            std::span<const OwnViability> own) {
    require_positive("low published share alive", published.low, "");
    require_within("high published share alive", published.high, published.low, 1.0, "", "");
    require_ordered("published share alive", published.low, published.likely, published.high);
    std::for_each(own.begin(), own.end(), check);
    const double most_loss = -std::log(published.low);
    const double loss = -std::log(published.likely);
    const double least_loss = -std::log(published.high);
    if (own.empty() || !(loss > 0.0))
        return {published, 0, 0.0};
    Learning learning{(most_loss - least_loss) / loss / (2.0 * central_90)};
    for (const OwnViability& pack : own)
        if (pack.published_share < 1.0)
            learning.add(ratio_of(pack));
    if (learning.results() == 0)
        return {published, 0, 0.0};
    const auto [mean, shrink] = learning.learnt();
    const double centre = std::max(0.0, loss * mean);
    const double least = std::max(0.0, centre - (loss - least_loss) * shrink);
    return {{std::exp(-(centre + (most_loss - loss) * shrink)), std::exp(-centre), std::exp(-least),
             published.sources},
            learning.results(),
            learning.own_weight()};
}

} // namespace barmkeep::brewing
