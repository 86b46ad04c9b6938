#include "plugins/canning/plan/jar_content.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/errors.hpp"
#include "tests/canning/runs.hpp"

#include <gmock/gmock.h>

namespace barmkeep::canning {
namespace {

using brewing::gram;
using brewing::Gravity;
using brewing::litre;
using brewing::millilitre;
using brewing::ounce;
using test::error_of;

ExtractLot lot(double points) {
    return {LotCode{'E', 1}, 10000 * gram, {points - 0.5, points, points + 0.5, ""}, {}, {}};
}

JarContent content(double points, const Strength& strength, double fill_ml = 415) {
    const std::vector<ExtractLot> lots{lot(points)};
    const Allocation made = allocate(lots, need_of(strength), 1, 0.1 * gram);
    return content_of(made.groups.front(), lots, fill_ml * millilitre, strength);
}

/// The table of docs/science.md, whose figures tests/published holds to mass balance.
TEST(JarContent, FourOuncesInAPintJarAreWhatTheScienceSays) {
    const JarContent jar = content(44, {1 * litre, {}, 4 * ounce});
    EXPECT_NEAR(jar.gravity.likely.sg(), 1.0997, 0.0001);
    EXPECT_NEAR(jar.makes_gravity.likely.sg(), 1.0417, 0.0001);
    EXPECT_NEAR(jar.water.in(gram), 342, 1);
    EXPECT_LT(jar.gravity.low, jar.gravity.likely);
    EXPECT_LT(jar.gravity.likely, jar.gravity.high);
}

TEST(JarContent, AWishComesBackOutOfTheJar) {
    const JarContent jar = content(44, {1 * litre, Gravity::sg(1.035), {}});
    EXPECT_NEAR(jar.makes_gravity.likely.sg(), 1.035, 0.0001);
    EXPECT_NEAR(jar.weighed.in(gram), 95, 1) << "docs/science.md: 93 to 95 g at 45 to 44 points";
}

TEST(JarContent, TheOtherWayRoundTellsTheLitres) {
    const JarContent jar = content(44, {{}, Gravity::sg(1.035), 95 * gram});
    EXPECT_NEAR(jar.makes.in(litre), 1.0, 0.005);
}

// The README's own command: with the extract alone a jar makes what it holds.
TEST(JarContent, WeighedOnlyAJarMakesItsOwnVolume) {
    for (const double points : {36.0, 42.0, 44.0, 45.0})
        for (const double fill : {415.0, 419.7, 873.1}) {
            const JarContent jar = content(points, {{}, {}, 4 * ounce}, fill);
            EXPECT_NEAR(jar.makes.in(millilitre), fill, 1e-6);
            EXPECT_NEAR(jar.top_up.in(millilitre), 0, 1e-6);
            EXPECT_EQ(jar.makes_gravity.likely, jar.gravity.likely);
        }
}

TEST(JarContent, MassIsConservedFromBagAndTapToDilutedWort) {
    const JarContent jar = content(44, {1 * litre, Gravity::sg(1.040), {}});
    const brewing::Wort wort{jar.fill, jar.gravity.likely};
    EXPECT_NEAR((jar.weighed + jar.water).in(gram), brewing::mass_of(wort).in(gram), 0.05);
    EXPECT_NEAR(brewing::extract_in(wort).in(gram), jar.extract.likely.in(gram), 0.01);
    const auto diluted = brewing::to_volume(wort, jar.makes);
    EXPECT_NEAR(diluted.water_volume.in(litre), jar.top_up.in(litre), 1e-9);
}

TEST(JarContent, TheShortcutByPointsStandsBesideWithItsDifference) {
    const JarContent jar = content(44, {1 * litre, Gravity::sg(1.035), {}});
    EXPECT_NEAR(jar.points_error, jar.points_gravity.points() - jar.makes_gravity.likely.points(),
                0.02);
    EXPECT_NE(jar.points_error, 0);
}

TEST(JarContent, OutsideTheSensibleRangeIsWarnedOf) {
    EXPECT_FALSE(strength_warning(content(44, {1 * litre, Gravity::sg(1.035), {}}), {}));
    const auto thick = strength_warning(content(44, {1 * litre, Gravity::sg(1.060), {}}), {});
    ASSERT_TRUE(thick);
    EXPECT_THAT(*thick, testing::HasSubstr("thick"));
    const auto thin = strength_warning(content(44, {1 * litre, Gravity::sg(1.015), {}}), {});
    ASSERT_TRUE(thin);
    EXPECT_THAT(*thin, testing::HasSubstr("no source"));
}

TEST(JarContent, AnImpossibleJarIsRefused) {
    EXPECT_THROW(content(44, {3 * litre, Gravity::sg(1.100), {}}), brewing::OutOfRange);
    EXPECT_EQ(error_of([] {
                  (void)content(44, {300 * millilitre, Gravity::sg(1.035), {}});
              }).reason(),
              "weaker_than_asked");
}

// Half a kilogram of a weak syrup is heavier than the 0.415 L of wort that it would make.
TEST(JarContent, AJarThatItsExtractAloneOverfillsIsRefused) {
    EXPECT_EQ(error_of([] { (void)content(14, {{}, {}, 500 * gram}); }).reason(), "jar_overfilled");
}

TEST(Strength, MustBeSaidOnceAndWhole) {
    EXPECT_EQ(error_of([] { (void)need_of({1 * litre, {}, {}}); }).faults().front().pointer, "/at");
    EXPECT_EQ(error_of([] { (void)need_of({}); }).reason(), "missing");
    EXPECT_EQ(error_of([] {
                  (void)need_of({1 * litre, Gravity::sg(1.04), 100 * gram});
              }).reason(),
              "too_much_said");
}

} // namespace
} // namespace barmkeep::canning
