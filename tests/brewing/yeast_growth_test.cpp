// Growth in starters and its inverse (sdk/brewing/growth*.hpp).
#include "sdk/brewing/growth.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();
constexpr std::array both{Stirring::unstirred, Stirring::stirred};
const Gravity starter_gravity = Gravity::sg(1.036);

double billions(Cells cells) {
    return cells.in(billion_cells);
}

Cells of(double count) {
    return count * billion_cells;
}

/// A start and a wort inside what unstirred starters are covered for.
struct StillCase {
    Cells initial;
    Wort wort;
};
StillCase any_still_case() {
    const double litres = magnitude_between(0.05, 20);
    const double rate = magnitude_between(25.1, 199);
    return {of(litres * rate), {litres * litre, Gravity::sg(number_between(1.029, 1.043))}};
}

TEST(StillGrowth, GoesThroughItsRowsAndBetweenThem) {
    for (const StillRow& row : still_rows())
        EXPECT_NEAR(still_growth_factor(row.million_per_millilitre), row.factor, 1e-12);
    // Halfway in the logarithm between 50 and 25 million a millilitre.
    EXPECT_NEAR(still_growth_factor(25 * std::sqrt(2.0)), (2.76 + 2.05) / 2, 1e-12);
}

TEST(StillGrowth, FallsWithTheRateAndInverts) {
    holds_always([] {
        const double thin = magnitude_between(25, 199);
        const double dense = magnitude_between(thin, 200);
        RC_ASSERT(still_growth_factor(dense) <= still_growth_factor(thin));
        const double back = still_rate_for_factor(still_growth_factor(thin));
        RC_ASSERT(std::abs(back / thin - 1) < 1e-9);
        // More cells at the start give more at the end, however crowded.
        RC_ASSERT(thin * still_growth_factor(thin) <= dense * still_growth_factor(dense));
    });
}

// The series has thinner rows; no source that states them could be read.
TEST(StillGrowth, EndsWhereItWasPublished) {
    for (const double rate : {24.9, 12.5, 5.0, 200.1, -1.0, nan, endless})
        EXPECT_THROW((void)still_growth_factor(rate), OutOfRange) << rate;
    for (const double factor : {1.0, 2.77, 6.0, nan, endless})
        EXPECT_THROW((void)still_rate_for_factor(factor), OutOfRange) << factor;
}

TEST(StirredGrowth, IsAYieldOfTheExtractAtTheStart) {
    const Estimate<Cells> grown = stirred_new_cells(of(50), 100.0 * gram);
    EXPECT_DOUBLE_EQ(billions(grown.low), 72);
    EXPECT_DOUBLE_EQ(billions(grown.likely), 100);
    EXPECT_DOUBLE_EQ(billions(grown.high), 150);
    EXPECT_EQ(grown.sources, "GR06 GR15 GR36");
}

// 1 L of 1.035: 8.77 P of 1033.2 g are 90.7 g of extract.  New cells 0.72, 1.0 and 1.5 billion a
// gram: 65.3, 90.7 and 136.1.
TEST(StirredGrowth, GivesTheWorkedExample) {
    const Wort wort{1.0 * litre, Gravity::sg(1.035)};
    EXPECT_NEAR(extract_in(wort).in(gram), 90.7, 0.05);
    const Estimate<Cells> after = cells_after(of(100), wort, Stirring::stirred);
    EXPECT_NEAR(billions(after.low), 165.3, 0.05);
    EXPECT_NEAR(billions(after.likely), 190.7, 0.05);
    EXPECT_NEAR(billions(after.high), 236.1, 0.05);
}

// GR36: 0.9 to 2.0 billion a gram of sugar is what fermentation can give.
TEST(StirredGrowth, ItsLikelyAndHighYieldLieInsideTheBound) {
    EXPECT_GE(stirred_yield.likely, 0.9);
    EXPECT_LE(stirred_yield.high, 2.0);
}

TEST(StirredGrowth, InvertsAtEachYield) {
    holds_always([] {
        const double start = magnitude_between(0.1, 1000);
        const double growth = start * magnitude_between(0.01, 70);
        const Mass extract = stirred_extract_needed(of(start), of(growth));
        RC_ASSERT(std::abs(billions(stirred_new_cells(of(start), extract).likely) / growth - 1) <
                  1e-12);
        const Mass more = stirred_extract_needed(of(start), of(growth), stirred_yield.low);
        RC_ASSERT(std::abs(billions(stirred_new_cells(of(start), more).low) / growth - 1) < 1e-12);
    });
}

TEST(StirredGrowth, RefusesWhatWasNeverTried) {
    EXPECT_THROW((void)stirred_new_cells(of(1), 200.0 * gram), OutOfRange);
    EXPECT_THROW((void)stirred_extract_needed(of(1), of(200)), OutOfRange);
    for (const double bad : {0.0, -1.0, nan, endless}) {
        EXPECT_THROW((void)stirred_new_cells(of(1), bad * gram), OutOfRange) << bad;
        EXPECT_THROW((void)stirred_extract_needed(of(bad), of(1)), OutOfRange) << bad;
        EXPECT_THROW((void)stirred_extract_needed(of(1), of(bad)), OutOfRange) << bad;
    }
}

// 1 L of 1.035 grows 90.7 billion by the yield, so from 191.4 billion on it would end above the 282
// million a millilitre of the densest starter that was counted.
TEST(StirredGrowth, KnowsADenseStart) {
    const Wort wort{1.0 * litre, Gravity::sg(1.035)};
    EXPECT_FALSE(is_dense_start(of(100), wort));
    EXPECT_FALSE(is_dense_start(of(191), wort));
    EXPECT_TRUE(is_dense_start(of(192), wort));
}

TEST(NewCells, FollowTheirLeadingSource) {
    const Wort wort{1.0 * litre, starter_gravity};
    EXPECT_NEAR(billions(new_cells(of(100), wort, Stirring::unstirred).likely), 52, 1e-9);
    EXPECT_NEAR(billions(new_cells(of(100), wort, Stirring::stirred).likely),
                extract_in(wort).in(gram), 1e-9);
    EXPECT_EQ(new_cells(of(100), wort, Stirring::unstirred).sources, "WZ1 WZ2 GR13 GR14");
}

TEST(NewCells, OfAnUnstirredStarterAreKnownLessWellAwayFromTheSeriesWort) {
    const auto width_at = [](double plato) {
        const Wort wort{1.0 * litre, gravity_of(Plato::degrees(plato))};
        const Estimate<Cells> grown = new_cells(of(100), wort, Stirring::unstirred);
        EXPECT_NEAR(billions(grown.likely), 52, 1e-9) << plato;
        return grown.high / grown.low;
    };
    EXPECT_NEAR(width_at(9.0), 1.46 * 1.46, 1e-6);
    EXPECT_NEAR(width_at(10.8), 1.46 * 1.46 * 1.2 * 1.2, 1e-6); // 10.8/9 = 1.2
    EXPECT_NEAR(width_at(7.2), 1.46 * 1.46 * 1.25 * 1.25, 1e-6);
}

TEST(NewCells, GrowWithTheWortAndKeepTheirOrder) {
    holds_always([] {
        const auto stirring = *rc::gen::elementOf(both);
        const StillCase less = any_still_case();
        const Wort more{less.wort.volume * number_between(1, 1.5), less.wort.gravity};
        RC_PRE(less.initial.in(million_cells) / more.volume.in(millilitre) >= 25.0);
        const Estimate<Cells> before = new_cells(less.initial, less.wort, stirring);
        const Estimate<Cells> after = new_cells(less.initial, more, stirring);
        RC_ASSERT(before.low <= before.likely && before.likely <= before.high);
        RC_ASSERT(before.low <= after.low && before.likely <= after.likely);
        RC_ASSERT(before.high <= after.high);
    });
}

TEST(NewCells, RefuseWhatTheSourcesDoNotCover) {
    const Wort wort{1.0 * litre, starter_gravity};
    EXPECT_THROW((void)new_cells(of(201), wort, Stirring::unstirred), OutOfRange);
    EXPECT_THROW((void)new_cells(of(24), wort, Stirring::unstirred), OutOfRange);
    const Wort weak{1.0 * litre, Gravity::sg(1.020)};
    EXPECT_THROW((void)new_cells(of(100), weak, Stirring::unstirred), OutOfRange);
    EXPECT_NO_THROW((void)new_cells(of(100), weak, Stirring::stirred));
    EXPECT_THROW((void)new_cells(of(100), {1.0 * litre, Gravity::sg(1.080)}, Stirring::stirred),
                 OutOfRange);
    for (const auto stirring : both)
        for (const double bad : {0.0, -1.0, nan, endless}) {
            EXPECT_THROW((void)new_cells(of(bad), wort, stirring), OutOfRange);
            EXPECT_THROW((void)new_cells(of(100), {bad * litre, starter_gravity}, stirring),
                         OutOfRange);
            EXPECT_THROW((void)new_cells(of(100), {1.0 * litre, Gravity::sg(bad)}, stirring),
                         OutOfRange);
        }
}

TEST(CellsAfter, AddTheSpreadOfTheStartToThatOfTheGrowth) {
    const Wort wort{1.0 * litre, starter_gravity};
    const Estimate<Cells> start{of(60), of(100), of(150), "WL8"};
    const Estimate<Cells> grown = new_cells(of(100), wort, Stirring::unstirred);
    const Estimate<Cells> after = cells_after(start, wort, Stirring::unstirred);
    EXPECT_EQ(after.low, of(60) + grown.low);
    EXPECT_EQ(after.likely, of(100) + grown.likely);
    EXPECT_EQ(after.high, of(150) + grown.high);
    EXPECT_THROW((void)cells_after({of(110), of(100), of(150), ""}, wort, Stirring::unstirred),
                 OutOfRange);
    EXPECT_THROW((void)cells_after({of(60), of(100), of(nan), ""}, wort, Stirring::unstirred),
                 OutOfRange);
}

TEST(StarterVolumeNeeded, IsTheInverseOfCellsAfterAtEachEnd) {
    holds_always([] {
        const auto stirring = *rc::gen::elementOf(both);
        const double start = magnitude_between(1, 500);
        // Low growth in the weakest wort must still reach it: 1.76 / (1.46 x 9/7) = 0.93.
        const double target =
            start * number_between(1.3, stirring == Stirring::stirred ? 4.0 : 1.9);
        const Gravity gravity = Gravity::sg(number_between(1.029, 1.043));
        const Estimate<Volume> volume =
            starter_volume_needed(of(start), of(target), gravity, stirring);
        RC_ASSERT(volume.low <= volume.likely && volume.likely <= volume.high);
        const auto reached = [&](Volume wort) {
            return cells_after(of(start), {wort, gravity}, stirring);
        };
        const auto close = [&](Cells cells) {
            return std::abs(cells.in(billion_cells) / target - 1) < 1e-9;
        };
        RC_ASSERT(close(reached(volume.likely).likely));
        RC_ASSERT(close(reached(volume.high).low));
        // The densest unstirred starter may already give more than was asked for.
        RC_ASSERT(reached(volume.low).high >= of(target * (1 - 1e-9)));
        RC_ASSERT(likely_starter_volume(of(start), of(target), gravity, stirring) == volume.likely);
    });
}

TEST(StarterVolumeNeeded, TakesTheDensestUnstirredStarterWhereLittleIsWanted) {
    const Volume volume =
        likely_starter_volume(of(100), of(101), starter_gravity, Stirring::unstirred);
    EXPECT_NEAR(volume.in(litre), 0.5, 1e-9);
}

TEST(StarterVolumeNeeded, RefusesWhatOneStepCannotDo) {
    const auto likely = [](double target) {
        return likely_starter_volume(of(100), of(target), starter_gravity, Stirring::unstirred);
    };
    EXPECT_THROW((void)likely(277), OutOfRange);
    EXPECT_NO_THROW((void)likely(276));
    // The likely figure could, the low one could not.
    EXPECT_THROW(
        (void)starter_volume_needed(of(100), of(276), starter_gravity, Stirring::unstirred),
        OutOfRange);
    EXPECT_THROW((void)likely(100), OutOfRange);
    EXPECT_THROW((void)likely(nan), OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
