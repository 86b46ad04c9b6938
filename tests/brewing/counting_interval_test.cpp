// Intervals of counts, scatter between fields and stained shares (sdk/brewing/counting.hpp,
// dispersion.hpp, stain.hpp).
#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/dispersion.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/stain.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <cmath>
#include <limits>
#include <numeric>
#include <random>
#include <vector>

namespace barmkeep::brewing {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

std::vector<std::uint32_t> any_fields(int fewest, int most_cells) {
    const auto fields = *rc::gen::inRange(fewest, 30);
    return *rc::gen::container<std::vector<std::uint32_t>>(
        static_cast<std::size_t>(fields),
        rc::gen::inRange<std::uint32_t>(0, static_cast<std::uint32_t>(most_cells)));
}

TEST(PoissonInterval, GivesTheTabledLimits) {
    // Two-sided 95 %: printed in every table of Poisson limits, e.g. 0 to 3.69 and 4.80 to 18.39.
    EXPECT_EQ(poisson_interval(0).low, 0.0);
    EXPECT_NEAR(poisson_interval(0).high, -std::log(0.025), 1e-12);
    EXPECT_NEAR(poisson_interval(10).low, 4.795, 0.0005);
    EXPECT_NEAR(poisson_interval(10).high, 18.39, 0.005);
}

TEST(PoissonInterval, HoldsTheCountAndNarrowsAsItGrows) {
    holds_always([] {
        const auto cells = *rc::gen::inRange<std::uint64_t>(1, 100'000);
        const double confidence = number_between(0.5, 0.9999);
        const Interval interval = poisson_interval(cells, confidence);
        const double count = static_cast<double>(cells);
        RC_ASSERT(0 <= interval.low && interval.low < count && count < interval.high);
        const Interval twice = poisson_interval(2 * cells, confidence);
        RC_ASSERT(twice.width() / (2 * count) < interval.width() / count);
        RC_ASSERT(poisson_interval(cells, confidence / 2 + 0.25).width() <= interval.width());
    });
}

TEST(PoissonInterval, CoversAtLeastAsOftenAsItSays) {
    // Summed over all counts a mean of 12.3 can give: an exact interval never falls short.
    const double mean = 12.3;
    double covered = 0;
    double chance = std::exp(-mean);
    for (std::uint64_t cells = 0; cells < 100; ++cells) {
        const Interval interval = poisson_interval(cells);
        if (interval.low <= mean && mean <= interval.high)
            covered += chance;
        chance *= mean / static_cast<double>(cells + 1);
    }
    EXPECT_GE(covered, 0.95);
    EXPECT_LE(covered, 0.99);
}

TEST(PoissonInterval, RefusesAConfidenceThatIsNone) {
    for (const double bad : {0.0, 0.49, 1.0, 95.0, -1.0, nan})
        EXPECT_THROW((void)poisson_interval(10, bad), OutOfRange) << bad;
    EXPECT_THROW((void)poisson_interval(most_cells_counted + 1), OutOfRange);
    EXPECT_NO_THROW((void)poisson_interval(most_cells_counted));
}

TEST(CountingError, IsInvertedByTheCellsToCount) {
    EXPECT_EQ(cells_to_count(0.1), 400u);
    EXPECT_EQ(cells_to_count(0.2), 100u);
    holds_always([] {
        const double share = magnitude_between(0.0001, 1);
        const std::uint64_t cells = cells_to_count(share);
        RC_ASSERT(greatest_counting_error(cells) <= share * (1 + 1e-9));
        RC_ASSERT(cells <= 4 || greatest_counting_error(cells - 1) > share * (1 - 1e-9));
    });
    EXPECT_THROW((void)greatest_counting_error(0), OutOfRange);
    for (const double bad : {0.0, 1.1, -0.1, nan})
        EXPECT_THROW((void)cells_to_count(bad), OutOfRange) << bad;
}

TEST(FieldMean, IsThatOfChanceForEvenFields) {
    const std::vector<std::uint32_t> even{30, 31, 29, 30, 30};
    const FieldMean mean = field_mean(even);
    EXPECT_EQ(mean.scatter, Scatter::poisson);
    EXPECT_DOUBLE_EQ(mean.cells.likely, 30);
    EXPECT_DOUBLE_EQ(mean.cells.low, poisson_interval(150).low / 5);
    EXPECT_DOUBLE_EQ(mean.cells.high, poisson_interval(150).high / 5);
}

TEST(FieldMean, FollowsTheFieldsWhereTheyScatterMore) {
    const std::vector<std::uint32_t> clumped{5, 60, 20, 45, 20};
    const FieldMean mean = field_mean(clumped);
    EXPECT_EQ(mean.scatter, Scatter::observed);
    // t = 2.776 with four degrees of freedom, s = 22.08.
    EXPECT_NEAR(mean.cells.high - 30, 2.776445 * 22.079402 / std::sqrt(5.0), 1e-4);
    EXPECT_EQ(mean.cells.sources, "STU08");
}

TEST(FieldMean, TakesOneFieldAndNoCells) {
    const std::vector<std::uint32_t> none{0, 0, 0};
    EXPECT_EQ(field_mean(none).cells.likely, 0);
    EXPECT_NEAR(field_mean(none).cells.high, 3.688879 / 3, 1e-5);
    EXPECT_EQ(field_mean(std::vector<std::uint32_t>{40}).scatter, Scatter::poisson);
    EXPECT_THROW((void)field_mean({}), OutOfRange);
}

TEST(FieldMean, HoldsTheMeanAndIsNeverNarrowerThanChance) {
    holds_always([] {
        const auto fields = any_fields(1, 200);
        const FieldMean mean = field_mean(fields);
        RC_ASSERT(0 <= mean.cells.low && mean.cells.low <= mean.cells.likely);
        RC_ASSERT(mean.cells.likely <= mean.cells.high);
        const auto cells = std::accumulate(fields.begin(), fields.end(), std::uint64_t{0});
        const double chance = poisson_interval(cells).width() / static_cast<double>(fields.size());
        // The low end is cut at zero, so it is the upper half that is held to chance.
        RC_ASSERT(mean.scatter == Scatter::observed ||
                  std::abs(mean.cells.high - mean.cells.low - chance) < 1e-9 * (1 + chance));
        RC_ASSERT(mean.scatter == Scatter::poisson ||
                  2 * (mean.cells.high - mean.cells.likely) >= chance);
    });
}

TEST(FieldMean, TenTimesTheFieldsNarrowTheInterval) {
    std::mt19937 random{1907};
    std::poisson_distribution<std::uint32_t> chance{20.0};
    std::vector<std::uint32_t> fields(500);
    for (std::uint32_t& cells : fields)
        cells = chance(random);
    const auto width = [&](std::size_t count) {
        const auto mean = field_mean(std::span{fields}.first(count));
        return mean.cells.high - mean.cells.low;
    };
    EXPECT_LT(width(50), width(5));
    EXPECT_LT(width(500), width(50) / 2);
}

TEST(CountedDensity, ScalesTheMeanAndItsInterval) {
    const std::vector<std::uint32_t> fields{24, 26, 25, 20, 25};
    const CountedDensity density = counted_density({fields, middle_square, 100});
    EXPECT_NEAR(density.million_per_millilitre.likely, 600, 1e-9);
    EXPECT_NEAR(density.million_per_millilitre.low, poisson_interval(120).low * 5, 1e-9);
    EXPECT_THROW((void)counted_density({fields, middle_square, 0.5}), OutOfRange);
    EXPECT_THROW((void)counted_density({fields, Square{"none", 0}, 1}), OutOfRange);
    EXPECT_THROW((void)counted_density({fields, middle_square, 1, nan}), OutOfRange);
    EXPECT_THROW((void)counted_density({{}, middle_square, 1}), OutOfRange);
}

TEST(DispersionTest, IsOneOnAverageForChance) {
    std::mt19937 random{1907};
    std::poisson_distribution<std::uint32_t> chance{4.68};
    int rejected = 0;
    double sum = 0;
    for (int trial = 0; trial < 400; ++trial) {
        std::vector<std::uint32_t> fields(25);
        for (std::uint32_t& cells : fields)
            cells = chance(random);
        const DispersionTest test = dispersion_test(fields);
        sum += test.index;
        rejected += test.scattered();
    }
    // 400 indices of standard deviation sqrt(2/24) have a mean within 0.05 of 1; one test in twenty
    // rejects, 20 of 400 with a standard deviation of 4.4.
    EXPECT_NEAR(sum / 400, 1.0, 0.05);
    EXPECT_GT(rejected, 6);
    EXPECT_LT(rejected, 34);
}

TEST(DispersionTest, SeesClumps) {
    EXPECT_TRUE(dispersion_test(std::vector<std::uint32_t>{5, 60, 20, 45, 20}).scattered());
    EXPECT_FALSE(dispersion_test(std::vector<std::uint32_t>{30, 31, 29, 30, 30}).scattered());
    const DispersionTest even = dispersion_test(std::vector<std::uint32_t>{7, 7, 7});
    EXPECT_EQ(even.index, 0);
    EXPECT_EQ(even.p_value, 1);
}

TEST(DispersionTest, RefusesWhatHasNoScatter) {
    EXPECT_THROW((void)dispersion_test({}), OutOfRange);
    EXPECT_THROW((void)dispersion_test(std::vector<std::uint32_t>{40}), OutOfRange);
    EXPECT_THROW((void)dispersion_test(std::vector<std::uint32_t>{0, 0, 0}), OutOfRange);
}

TEST(StainedShare, ReachesTheEndsOnlyWhereNothingWasLeft) {
    const Estimate<double> none_dead = stained_share({200, 0});
    EXPECT_EQ(none_dead.high, 1.0);
    EXPECT_EQ(none_dead.likely, 1.0);
    EXPECT_NEAR(none_dead.low, std::pow(0.025, 1.0 / 200), 1e-12);
    EXPECT_EQ(stained_share({0, 200}).low, 0.0);
}

TEST(StainedShare, HoldsItsShareAndNarrowsWithCells) {
    holds_always([] {
        const auto living = *rc::gen::inRange<std::uint64_t>(0, 2000);
        const auto dead = *rc::gen::inRange<std::uint64_t>(0, 2000);
        RC_PRE(living + dead > 0);
        const double confidence = number_between(0.5, 0.9999);
        const Estimate<double> share = stained_share({living, dead}, confidence);
        RC_ASSERT(0 <= share.low && share.low <= share.likely);
        RC_ASSERT(share.likely <= share.high && share.high <= 1);
        const Estimate<double> more = stained_share({4 * living, 4 * dead}, confidence);
        RC_ASSERT(more.high - more.low < share.high - share.low);
        const Estimate<double> turned = stained_share({dead, living}, confidence);
        RC_ASSERT(std::abs(turned.low - (1 - share.high)) < 1e-9);
    });
}

TEST(StainedShare, CoversAtLeastAsOftenAsItSaysAndTheScoreIntervalOnAverage) {
    // All outcomes of 100 cells of which 93 in a hundred live.
    const double alive = 0.93;
    double exact = 0;
    double score = 0;
    for (std::uint64_t living = 0; living <= 100; ++living) {
        const double k = static_cast<double>(living);
        const double chance =
            std::exp(std::lgamma(101) - std::lgamma(k + 1) - std::lgamma(101 - k) +
                     k * std::log(alive) + (100 - k) * std::log(1 - alive));
        const Estimate<double> share = stained_share({living, 100 - living});
        exact += chance * (share.low <= alive && alive <= share.high);
        const Interval interval = score_interval({living, 100 - living});
        score += chance * (interval.low <= alive && alive <= interval.high);
    }
    EXPECT_GE(exact, 0.95);
    EXPECT_GE(score, 0.92);
    EXPECT_LE(score, exact + 1e-12);
}

TEST(ScoreInterval, GivesItsClosedForm) {
    // 81 of 263: 0.2553 to 0.3662, the example usually printed with the formula (from memory).
    const Interval interval = score_interval({81, 182});
    EXPECT_NEAR(interval.low, 0.2553, 0.00005);
    EXPECT_NEAR(interval.high, 0.3662, 0.00005);
}

TEST(StainedShare, RefusesNoCells) {
    EXPECT_THROW((void)stained_share({0, 0}), OutOfRange);
    EXPECT_THROW((void)score_interval({0, 0}), OutOfRange);
    EXPECT_THROW((void)stained_share({10, 1}, 95), OutOfRange);
    EXPECT_THROW((void)stained_share({most_cells_counted + 1, 1}), OutOfRange);
}

TEST(LivingDensity, MultipliesEndByEnd) {
    const CountedDensity density{{90, 100, 110, "GAR"}, Scatter::poisson};
    const Estimate<double> living = living_density(density, {0.8, 0.9, 0.95, "CLP"});
    EXPECT_DOUBLE_EQ(living.low, 72);
    EXPECT_DOUBLE_EQ(living.likely, 90);
    EXPECT_DOUBLE_EQ(living.high, 104.5);
    EXPECT_THROW((void)living_density(density, {80, 90, 95, ""}), OutOfRange);
    EXPECT_THROW((void)living_density({{nan, 1, 1, ""}, Scatter::poisson}, {0, 0, 0, ""}),
                 OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
