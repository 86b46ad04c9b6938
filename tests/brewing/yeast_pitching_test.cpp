// Packs, slurry and pitching rates (sdk/brewing/pack.hpp, slurry.hpp, pitching.hpp).
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/pack.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/plato.hpp"
#include "sdk/brewing/slurry.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <gmock/gmock.h>

#include <limits>
#include <set>
#include <string>

namespace barmkeep::brewing {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();
constexpr std::array classes{BeerClass::ale, BeerClass::lager};

double billions(Cells cells) {
    return cells.in(billion_cells);
}

template <class T>
bool ordered(const Estimate<T>& estimate) {
    return estimate.low <= estimate.likely && estimate.likely <= estimate.high;
}

static_assert(cells_at_rate(0.75, 20.0 * litre, Plato::degrees(12)) == 180.0 * billion_cells);

TEST(CellsNeeded, FollowsTheRecommendedRateOfEachClass) {
    const Plato wort = Plato::degrees(12);
    const auto likely = [&](BeerClass beer, PitchedYeast yeast) {
        return billions(cells_needed(20.0 * litre, wort, beer, yeast).cells.likely);
    };
    EXPECT_DOUBLE_EQ(likely(BeerClass::ale, PitchedYeast::liquid), 180);
    EXPECT_DOUBLE_EQ(likely(BeerClass::lager, PitchedYeast::liquid), 360);
    EXPECT_DOUBLE_EQ(likely(BeerClass::ale, PitchedYeast::dry), 100);
    EXPECT_DOUBLE_EQ(likely(BeerClass::lager, PitchedYeast::dry), 200);
}

TEST(CellsNeeded, GivesTheExtremesOfTheSourcesAndNamesThem) {
    const PitchAdvice ale = cells_needed(10.0 * litre, Plato::degrees(12), BeerClass::ale);
    EXPECT_DOUBLE_EQ(billions(ale.cells.low), 60);   // 0.5 a degree (MEN), 6 a millilitre (BYO1)
    EXPECT_DOUBLE_EQ(billions(ale.cells.high), 120); // 1.0 a degree (BSI, CRO, CBG)
    EXPECT_EQ(ale.cells.sources, "FIX WIKI BSI CRO MAD MEN BYO1 WYE1 WL1 CBG");
    EXPECT_FALSE(ale.reason.empty());
    const PitchAdvice lager = cells_needed(10.0 * litre, Plato::degrees(21), BeerClass::lager);
    EXPECT_DOUBLE_EQ(billions(lager.cells.high), 2.9 * 21 * 10); // SUI, 20 to 23 P
    EXPECT_EQ(lager.cells.sources, "FIX WIKI CRO MAD WL1 SUI");
}

TEST(CellsNeeded, RestsOnNothingFromMemory) {
    for (const PitchRate& rate : pitch_rates())
        EXPECT_NE(rate.access, 'M') << rate.key;
}

TEST(CellsNeeded, TakesAGravityThroughTheGeneralFit) {
    const Gravity gravity = Gravity::sg(1.048);
    EXPECT_EQ(cells_needed(20.0 * litre, gravity, BeerClass::ale).cells.likely,
              cells_needed(20.0 * litre, plato_of(gravity), BeerClass::ale).cells.likely);
}

TEST(CellsNeeded, GrowsWithVolumeAndStrengthAndKeepsItsOrder) {
    holds_always([] {
        const auto beer = *rc::gen::elementOf(classes);
        const double litres = magnitude_between(0.1, 1000);
        const double weaker = number_between(2, 29.9);
        const double stronger = number_between(weaker, 29.9);
        const auto less = cells_needed(litres * litre, Plato::degrees(weaker), beer).cells;
        const auto more = cells_needed(litres * litre, Plato::degrees(stronger), beer).cells;
        RC_ASSERT(ordered(less) && ordered(more));
        RC_ASSERT(less.likely <= more.likely);
        const auto twice = cells_needed(2 * litres * litre, Plato::degrees(weaker), beer).cells;
        RC_ASSERT(std::abs(twice.high / less.high - 2) < 1e-12);
    });
}

TEST(CellsNeeded, RefusesWortNoRateWasMadeFor) {
    const Volume batch = 20.0 * litre;
    for (const double plato : {1.9, 30.0, -1.0, nan, endless})
        EXPECT_THROW((void)cells_needed(batch, Plato::degrees(plato), BeerClass::ale), OutOfRange);
    EXPECT_THROW((void)cells_needed(batch, Plato::degrees(18), BeerClass::ale, PitchedYeast::dry),
                 OutOfRange);
    for (const double litres : {0.0, -1.0, nan, endless})
        EXPECT_THROW((void)cells_needed(litres * litre, Plato::degrees(12), BeerClass::ale),
                     OutOfRange);
}

TEST(CellsNeededBy, HoldsEachStatementToItsRange) {
    const PitchRate& strong = *find_pitch_rate("PR22");
    EXPECT_NO_THROW((void)cells_needed_by(strong, 1.0 * litre, Plato::degrees(20)));
    EXPECT_THROW((void)cells_needed_by(strong, 1.0 * litre, Plato::degrees(23)), OutOfRange);
    EXPECT_THROW((void)cells_needed_by(strong, 1.0 * litre, Plato::degrees(19.9)), OutOfRange);
}

TEST(PitchRates, HaveKeysOfTheirOwn) {
    std::set<std::string_view> keys;
    for (const PitchRate& rate : pitch_rates()) {
        EXPECT_TRUE(keys.insert(rate.key).second) << rate.key;
        EXPECT_LE(rate.low, rate.high) << rate.key;
        EXPECT_TRUE(rate.ale || rate.lager) << rate.key;
    }
    EXPECT_EQ(find_pitch_rate("nobody"), nullptr);
}

TEST(PitchRates, TheNamedSourcesAreThoseThatApplyAtEveryStrength) {
    for (const BeerClass beer : classes)
        for (double plato = 2; plato < 30; plato += 0.25) {
            const std::string named{
                pitch_rate_sources(beer, PitchedYeast::liquid, Plato::degrees(plato))};
            for (const PitchRate& rate : pitch_rates()) {
                const bool applies =
                    rate.serves(beer, PitchedYeast::liquid) && rate.covers(Plato::degrees(plato));
                const bool is_named =
                    (" " + named + " ").find(" " + std::string{rate.source} + " ") !=
                    std::string::npos;
                EXPECT_LE(applies, is_named) << rate.key << " at " << plato;
            }
        }
}

TEST(CellsInPacks, ScaleWithTheirNumber) {
    EXPECT_DOUBLE_EQ(billions(cells_in_liquid_packs(2).likely), 200);
    EXPECT_DOUBLE_EQ(billions(cells_in_liquid_packs(0.5).low), 29.4);
    EXPECT_DOUBLE_EQ(billions(cells_in_dry_yeast(11.5 * gram).low), 57.5);
    EXPECT_TRUE(ordered(cells_in_dry_yeast(11.5 * gram)));
}

TEST(CellsInPacks, RefuseWhatIsNoAmount) {
    for (const double bad : {-1.0, nan, endless}) {
        EXPECT_THROW((void)cells_in_liquid_packs(bad), OutOfRange);
        EXPECT_THROW((void)cells_in_dry_yeast(bad * gram), OutOfRange);
        EXPECT_THROW((void)cells_in_slurry(bad * litre), OutOfRange);
    }
}

TEST(LivingCells, MultiplyEndByEndAndNameBothSources) {
    const LivingCells living =
        living_cells(cells_in_liquid_packs(1), Estimate<double>{0.5, 0.8, 1.0, "WL3"});
    EXPECT_DOUBLE_EQ(billions(living.cells.low), 29.4);
    EXPECT_DOUBLE_EQ(billions(living.cells.likely), 80);
    EXPECT_DOUBLE_EQ(billions(living.cells.high), 150);
    EXPECT_EQ(living.cells.sources, "WL8 WYE2 WL6");
    EXPECT_EQ(living.viability_sources, "WL3");
}

TEST(LivingCells, RefuseAPercentage) {
    EXPECT_THROW((void)living_cells(cells_in_liquid_packs(1), {50, 80, 100, ""}), OutOfRange);
    EXPECT_THROW((void)living_cells(cells_in_liquid_packs(1), {nan, 0.8, 1, ""}), OutOfRange);
}

TEST(SlurryNeeded, IsTheInverseOfADensity) {
    EXPECT_DOUBLE_EQ(slurry_needed(180.0 * billion_cells, 1.2).in(millilitre), 150);
    EXPECT_THROW((void)slurry_needed(180.0 * billion_cells, 0), OutOfRange);
    EXPECT_THROW((void)slurry_needed(-1.0 * billion_cells, 1), OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
