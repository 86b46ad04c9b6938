// Haemacytometer arithmetic (sdk/brewing/chamber.hpp).
#include "sdk/brewing/chamber.hpp"

#include "tests/brewing/yeast_property.hpp"

#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

static_assert(dilution_factor(1, 9) == 10.0);
static_assert(dilution_factor(1, 1) == 2.0);
static_assert(cells_in(2.0 * litre, 100) == 200.0 * billion_cells);

TEST(Chamber, FiveOfTwentyFiveSquares) {
    // 120 cells in five squares of a sample diluted a hundredfold.
    EXPECT_NEAR(million_per_millilitre(120, 5, middle_square, 100), 600, 1e-9);
}

TEST(Chamber, AllSquaresOfOneKindTellTheSame) {
    // 400 small squares and 25 middle ones make one large.
    EXPECT_NEAR(million_per_millilitre(300, 400, small_square, 20),
                million_per_millilitre(300, 1, large_square, 20), 1e-9);
    EXPECT_NEAR(million_per_millilitre(300, 25, middle_square, 20),
                million_per_millilitre(300, 1, large_square, 20), 1e-9);
}

TEST(Chamber, AnEqualVolumeOfStainDoublesTheCount) {
    const double unstained = million_per_millilitre(150, 5, middle_square, dilution_factor(1, 9));
    const double stained = million_per_millilitre(150, 5, middle_square,
                                                  dilution_factor(1, 9) * dilution_factor(1, 1));
    EXPECT_DOUBLE_EQ(stained, 2 * unstained);
}

TEST(Chamber, ADeeperChamberHoldsMoreLiquid) {
    EXPECT_NEAR(million_per_millilitre(100, 5, middle_square, 1, 0.2),
                million_per_millilitre(100, 5, middle_square, 1) / 2, 1e-12);
}

TEST(Chamber, TheCountComesBackFromTheDensity) {
    holds_always([] {
        const double counted = number_between(0, 1000);
        const double squares = number_between(1, 50);
        const double dilution = magnitude_between(1, 1e5);
        const Square square =
            *rc::gen::elementOf(std::array{large_square, middle_square, small_square});
        const double density = million_per_millilitre(counted, squares, square, dilution);
        const double back = density * 1e6 / dilution * squares * volume_over(square).in(millilitre);
        RC_ASSERT(std::abs(back - counted) <= 1e-9 * (1 + counted));
    });
}

TEST(Chamber, RefusesWhatCannotBeCounted) {
    for (const double bad : {-1.0, nan, endless}) {
        EXPECT_THROW((void)million_per_millilitre(bad, 5, middle_square, 1), OutOfRange) << bad;
        EXPECT_THROW((void)million_per_millilitre(10, bad, middle_square, 1), OutOfRange) << bad;
        EXPECT_THROW((void)million_per_millilitre(10, 5, middle_square, bad), OutOfRange) << bad;
        EXPECT_THROW((void)dilution_factor(bad, 1), OutOfRange) << bad;
        EXPECT_THROW((void)dilution_factor(1, bad), OutOfRange) << bad;
        EXPECT_THROW((void)cells_in(bad * litre, 1), OutOfRange) << bad;
        EXPECT_THROW((void)cells_in(1.0 * litre, bad), OutOfRange) << bad;
        EXPECT_THROW((void)million_per_millilitre(10, 5, middle_square, 1, bad), OutOfRange) << bad;
    }
    EXPECT_THROW((void)million_per_millilitre(10, 0, middle_square, 1), OutOfRange);
    EXPECT_THROW((void)million_per_millilitre(10, 5, middle_square, 0.99), OutOfRange);
    EXPECT_THROW((void)million_per_millilitre(10, 5, Square{"none", 0}, 1), OutOfRange);
    EXPECT_THROW((void)dilution_factor(0, 1), OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
