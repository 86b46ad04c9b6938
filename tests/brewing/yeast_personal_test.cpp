// Learning from own counts (sdk/brewing/personal.hpp).
#include "sdk/brewing/personal.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/viability.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <cmath>
#include <limits>
#include <random>
#include <vector>

namespace barmkeep::brewing {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

Cells of(double count) {
    return count * billion_cells;
}

const Estimate<Cells> published_growth{of(60), of(100), of(150), "WZ1"};
const Estimate<double> published_share{0.5, 0.8, 0.9, "WL3"};

std::vector<OwnGrowth> starters(std::size_t count, double counted, double error) {
    return std::vector<OwnGrowth>(count, {of(100), of(counted), of(error)});
}

/// Stained counts of packs for which 0.8 was published.
std::vector<OwnViability> packs(std::size_t count, std::uint64_t living, std::uint64_t dead) {
    return std::vector<OwnViability>(count, {0.8, {living, dead}});
}

TEST(LearnRatio, IsTheConjugateUpdate) {
    // Prior 1 +- 0.5, one result 2 +- 0.5: halfway, and the deviation falls by the root of two.
    const std::vector<OwnRatio> one{{2.0, 0.5}};
    const LearntRatio learnt = learn_ratio(0.5, one);
    EXPECT_DOUBLE_EQ(learnt.mean, 1.5);
    EXPECT_DOUBLE_EQ(learnt.shrink, std::sqrt(0.5));
}

TEST(LearnRatio, TakesResultsInAnyOrderAndLeavesOutWhatTellsNothing) {
    const std::vector<OwnRatio> forward{{2.0, 0.5}, {0.7, 0.2}, {5.0, endless}};
    const std::vector<OwnRatio> backward{{5.0, endless}, {0.7, 0.2}, {2.0, 0.5}};
    EXPECT_NEAR(learn_ratio(0.4, forward).mean, learn_ratio(0.4, backward).mean, 1e-15);
    const std::vector<OwnRatio> nothing{{5.0, endless}};
    EXPECT_EQ(learn_ratio(0.4, nothing).mean, 1.0);
}

TEST(LearnRatio, RefusesWhatIsNoResult) {
    EXPECT_THROW((void)learn_ratio(0, {}), OutOfRange);
    EXPECT_THROW((void)learn_ratio(nan, {}), OutOfRange);
    for (const OwnRatio bad : {OwnRatio{nan, 1}, OwnRatio{1, nan}, OwnRatio{1, 0}, OwnRatio{1, -1},
                               OwnRatio{endless, 1}})
        EXPECT_THROW((void)learn_ratio(1, std::vector<OwnRatio>{bad}), OutOfRange);
}

TEST(PersonalGrowth, IsThePublishedFigureWithoutOwnCounts) {
    const auto same = personal_growth(published_growth, {});
    EXPECT_EQ(same.estimate.low, published_growth.low);
    EXPECT_EQ(same.estimate.likely, published_growth.likely);
    EXPECT_EQ(same.estimate.high, published_growth.high);
    EXPECT_EQ(same.own, 0u);
    EXPECT_EQ(same.own_weight, 0.0);
}

TEST(PersonalGrowth, OneCountMovesItPartOfTheWay) {
    const auto moved = personal_growth(published_growth, starters(1, 150, 10));
    EXPECT_GT(moved.estimate.likely, of(100));
    EXPECT_LT(moved.estimate.likely, of(150));
    EXPECT_GT(moved.own_weight, 0.5);
    EXPECT_EQ(moved.own, 1u);
}

TEST(PersonalGrowth, GoesToTheOwnFigureWithManyCounts) {
    const auto learnt = personal_growth(published_growth, starters(10'000, 170, 20));
    EXPECT_NEAR(learnt.estimate.likely.in(billion_cells), 170, 0.1);
    EXPECT_LT((learnt.estimate.high - learnt.estimate.low).in(billion_cells), 2);
    EXPECT_GT(learnt.own_weight, 0.999);
}

TEST(PersonalGrowth, FindsTheTruthBehindScatteredCounts) {
    // True growth 0.7 of the published; counts scatter by a fifth.
    std::mt19937 random{1907};
    std::normal_distribution<double> counted{70, 20};
    std::vector<OwnGrowth> own;
    double last = 100;
    for (int batch = 0; batch < 4; ++batch) {
        for (int i = 0; i < (batch == 0 ? 4 : 30); ++i)
            own.push_back({of(100), of(counted(random)), of(20)});
        last = personal_growth(published_growth, own).estimate.likely.in(billion_cells);
    }
    EXPECT_NEAR(last, 70, 5);
}

TEST(PersonalGrowth, AStarterThatDiedCountsAndNeverGoesBelowZero) {
    const auto dead = personal_growth(published_growth, starters(50, -40, 5));
    EXPECT_EQ(dead.estimate.likely, of(0));
    EXPECT_EQ(dead.estimate.low, of(0));
}

TEST(PersonalGrowth, ShrinksAndStaysBetweenPublishedAndOwn) {
    holds_always([] {
        const double counted = number_between(1, 400);
        const double error = number_between(0, 50);
        const auto few = static_cast<std::size_t>(*rc::gen::inRange(1, 10));
        const auto less = personal_growth(published_growth, starters(few, counted, error));
        const auto more = personal_growth(published_growth, starters(few * 3, counted, error));
        const double likely = less.estimate.likely.in(billion_cells);
        RC_ASSERT(std::min(100.0, counted) <= likely + 1e-9);
        RC_ASSERT(likely <= std::max(100.0, counted) + 1e-9);
        RC_ASSERT(less.estimate.low <= less.estimate.likely);
        RC_ASSERT(less.estimate.likely <= less.estimate.high);
        RC_ASSERT(more.estimate.high - more.estimate.likely <
                  less.estimate.high - less.estimate.likely);
        RC_ASSERT(std::abs(more.estimate.likely.in(billion_cells)-counted) <=
                  std::abs(likely - counted) + 1e-9);
        RC_ASSERT(more.own_weight > less.own_weight);
    });
}

TEST(PersonalGrowth, RefusesWhatIsNoCount) {
    for (const OwnGrowth bad :
         {OwnGrowth{of(0), of(1), of(1)}, OwnGrowth{of(nan), of(1), of(1)},
          OwnGrowth{of(1), of(nan), of(1)}, OwnGrowth{of(1), of(endless), of(1)},
          OwnGrowth{of(1), of(1), of(-1)}, OwnGrowth{of(1), of(1), of(nan)}})
        EXPECT_THROW((void)personal_growth(published_growth, std::vector<OwnGrowth>{bad}),
                     OutOfRange);
    const auto one = starters(1, 100, 10);
    EXPECT_THROW((void)personal_growth({of(100), of(100), of(100), ""}, one), OutOfRange);
    EXPECT_THROW((void)personal_growth({of(2), of(1), of(3), ""}, one), OutOfRange);
    EXPECT_THROW((void)personal_growth({of(nan), of(1), of(3), ""}, one), OutOfRange);
}

TEST(PersonalViability, IsThePublishedFigureWithoutOwnCounts) {
    const auto same = personal_viability(published_share, {});
    EXPECT_EQ(same.estimate.low, 0.5);
    EXPECT_EQ(same.estimate.likely, 0.8);
    EXPECT_EQ(same.estimate.high, 0.9);
}

TEST(PersonalViability, GoesToTheOwnShareWithManyCounts) {
    const auto learnt = personal_viability(published_share, packs(5000, 650, 350));
    EXPECT_NEAR(learnt.estimate.likely, 0.65, 0.001);
    EXPECT_LT(learnt.estimate.high - learnt.estimate.low, 0.01);
}

TEST(PersonalViability, NoSingleCountSilencesTheSources) {
    // With a hundred million cells only the scatter between packs, 0.021, is left as an error.
    const auto learnt = personal_viability(published_share, packs(1, 65'000'000, 35'000'000));
    const double loss = -std::log(0.8);
    const double spread = std::log(0.9 / 0.5) / loss / (2 * 1.6448536269514722);
    const double error = 0.021 / loss;
    EXPECT_NEAR(learnt.own_weight, spread * spread / (spread * spread + error * error), 1e-5);
}

TEST(PersonalViability, CarriesARateOfLossToAnotherAge) {
    // Packs that lost twice what was published lose twice as fast at any age.
    const auto twice = packs(5000, 640, 360); // 0.8 squared
    const auto later = personal_viability({0.3, 0.6, 0.8, "WL3"}, twice);
    EXPECT_NEAR(later.estimate.likely, 0.36, 0.002);
}

TEST(PersonalViability, AFreshPackTellsNothingOfTheRateOfLoss) {
    const std::vector<OwnViability> fresh{{1.0, {900, 100}}};
    const auto same = personal_viability(published_share, fresh);
    EXPECT_EQ(same.estimate.likely, 0.8);
    EXPECT_EQ(same.own, 0u);
    const auto new_pack = personal_viability({0.96, 1.0, 1.0, "WL3"}, packs(3, 60, 40));
    EXPECT_EQ(new_pack.estimate.likely, 1.0);
    EXPECT_EQ(new_pack.own, 0u);
}

TEST(PersonalViability, TakesCountsWithoutDeadOrWithoutLivingCells) {
    const auto alive = personal_viability(published_share, packs(1, 200, 0));
    EXPECT_GT(alive.estimate.likely, 0.8);
    EXPECT_LE(alive.estimate.high, 1.0);
    const auto dead = personal_viability(published_share, packs(1, 0, 200));
    EXPECT_LT(dead.estimate.likely, 0.8);
    EXPECT_GT(dead.estimate.low, 0.0);
}

TEST(PersonalViability, StaysAShareAndNarrows) {
    holds_always([] {
        const auto living = *rc::gen::inRange<std::uint64_t>(20, 500);
        const auto dead = *rc::gen::inRange<std::uint64_t>(0, 500);
        const auto few = static_cast<std::size_t>(*rc::gen::inRange(1, 10));
        const auto less = personal_viability(published_share, packs(few, living, dead)).estimate;
        const auto more = personal_viability(published_share, packs(few * 3, living, dead));
        RC_ASSERT(0 < less.low && less.low <= less.likely);
        RC_ASSERT(less.likely <= less.high && less.high <= 1);
        // Narrower in the loss, which is what is learnt.
        RC_ASSERT(std::log(more.estimate.likely / more.estimate.low) <=
                  std::log(less.likely / less.low));
        const double own = static_cast<double>(living) / static_cast<double>(living + dead);
        RC_ASSERT(std::min(0.8, own) <= less.likely + 1e-9);
        RC_ASSERT(less.likely <= std::max(0.8, own) + 1e-9);
    });
}

TEST(PersonalViability, WorksOnEveryPublishedShareOfAnAgedPack) {
    holds_always([] {
        const auto published = viable_share(YeastMaterial::liquid_pack, number_between(1, 182),
                                            Temperature::celsius(4));
        const auto own = personal_viability(published, packs(2, 150, 50));
        RC_ASSERT(own.own == 2);
        RC_ASSERT(own.estimate.low <= own.estimate.likely);
        RC_ASSERT(own.estimate.likely <= own.estimate.high);
    });
}

TEST(PersonalViability, RefusesWhatIsNoShare) {
    const auto one = packs(1, 90, 10);
    EXPECT_THROW((void)personal_viability({0.0, 0.8, 0.9, ""}, one), OutOfRange);
    EXPECT_THROW((void)personal_viability({50, 80, 90, ""}, one), OutOfRange);
    EXPECT_THROW((void)personal_viability({0.5, nan, 0.9, ""}, one), OutOfRange);
    EXPECT_THROW((void)personal_viability({0.8, 0.8, 0.8, ""}, one), OutOfRange);
    for (const OwnViability bad : {OwnViability{0.0, {1, 1}}, OwnViability{1.1, {1, 1}},
                                   OwnViability{nan, {1, 1}}, OwnViability{0.9, {0, 0}}})
        EXPECT_THROW((void)personal_viability(published_share, std::vector<OwnViability>{bad}),
                     OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
