#include "plugins/starter/living_yeast.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::starter {
namespace {

using brewing::billion_cells;
using test::day;
using testing::Contains;
using testing::HasSubstr;

Storage keeping(std::string_view on = "2026-03-14", double celsius = 4.0) {
    return {day(on), brewing::Temperature::celsius(celsius), 11.5 * brewing::gram};
}

double likely(const LivingYeast& yeast) {
    return yeast.cells->likely.in(billion_cells);
}

TEST(LivingYeast, AFreshPackHoldsWhatTheSourcesSay) {
    const auto yeast = living_yeast(test::packs_of(1, 3, "2026-03-14"), pieces(1), keeping());
    ASSERT_TRUE(yeast.cells);
    EXPECT_EQ(yeast.age_days, 0);
    EXPECT_EQ(yeast.aged_from, AgedFrom::packed);
    // pack.hpp: 58.8 by one lot's report, 100 by its maker, 150 by an older leaflet.  Of the first
    // the series WL3 calls 96.4 % alive at worst on the day of packing: 56.683.
    EXPECT_NEAR(yeast.cells->low.in(billion_cells), 56.683, 0.001);
    EXPECT_NEAR(likely(yeast), 100.0, 1e-9);
    EXPECT_NEAR(yeast.cells->high.in(billion_cells), 150.0, 1e-9);
    EXPECT_THAT(yeast.cells->sources, HasSubstr("WYE2"));
    EXPECT_FALSE(yeast.extrapolated);
}

TEST(LivingYeast, OwnCellsOutrankTheSources) {
    auto lot = test::packs_of(1, 2, "2026-03-14");
    lot.facts.cells = 200.0 * billion_cells;
    const auto yeast = living_yeast(lot, pieces(2), keeping());
    // Two packs of 200; at worst 96.4 % of them live on the first day (WL3).
    EXPECT_NEAR(yeast.cells->low.in(billion_cells), 385.6, 0.001);
    EXPECT_NEAR(yeast.cells->high.in(billion_cells), 400.0, 1e-9);
    EXPECT_THAT(yeast.cells->sources, HasSubstr("own"));
}

TEST(LivingYeast, DryYeastOfAYearHasLostWhatItsSourceStates) {
    auto lot = test::packs_of(1, 1, "2025-03-14");
    lot.facts.form = contract::Form::dry;
    const auto yeast = living_yeast(lot, pieces(1), keeping());
    EXPECT_EQ(yeast.material, Material::dry_pack);
    EXPECT_EQ(yeast.age_days, 365);
    // 5 % a year at 4 C, so 0.95 of 11.5 g x 7.5 billion a gram = 86.25: 81.94 billion.
    EXPECT_NEAR(yeast.alive->likely, 0.95, 1e-4);
    EXPECT_NEAR(likely(yeast), 81.94, 0.01);
    // Half and twice the rate: 0.9747 and 0.9026.
    EXPECT_NEAR(yeast.alive->high, 0.9747, 1e-4);
    EXPECT_NEAR(yeast.alive->low, 0.9026, 1e-4);
}

TEST(LivingYeast, OlderYeastNeverHasMoreCells) {
    double before = 1e9;
    for (int age = 0; age < 400; age += 13) {
        const auto lot = test::packs_of(1, 1, to_text(plus_days(day("2026-03-14"), -age)));
        const auto yeast = living_yeast(lot, pieces(1), keeping());
        ASSERT_TRUE(yeast.cells) << age;
        EXPECT_LE(likely(yeast), before) << age;
        before = likely(yeast);
    }
}

TEST(LivingYeast, BeyondEverySourceItSaysThatItGuesses) {
    const auto yeast = living_yeast(test::packs_of(1, 1, "2025-01-01"), pieces(1), keeping());
    EXPECT_TRUE(yeast.extrapolated);
    EXPECT_THAT(yeast.notes, Contains(HasSubstr("guess")));
    EXPECT_TRUE(yeast.cells);
}

TEST(LivingYeast, WithoutADayOfPackingItCountsFromTheDayBought) {
    auto lot = test::packs_of(1, 1, "2026-03-14");
    lot.packed.reset();
    lot.bought = day("2026-03-04");
    const auto yeast = living_yeast(lot, pieces(1), keeping());
    EXPECT_EQ(yeast.age_days, 10);
    EXPECT_EQ(yeast.aged_from, AgedFrom::bought);
    EXPECT_THAT(yeast.notes, Contains(HasSubstr("so the yeast is older")));
}

TEST(LivingYeast, TheAgeCountsFromPackingWhereBothDaysAreKnown) {
    auto lot = test::packs_of(1, 1, "2026-02-02");
    lot.bought = day("2026-03-04");
    const auto yeast = living_yeast(lot, pieces(1), keeping());
    EXPECT_EQ(yeast.age_days, 40);
    EXPECT_EQ(yeast.aged_from, AgedFrom::packed);
    EXPECT_THAT(yeast.notes, testing::Not(Contains(HasSubstr("so the yeast is older"))));
}

TEST(LivingYeast, WithoutAnyDayItSaysHowToSetOne) {
    auto lot = test::packs_of(1, 1, "2026-03-14");
    lot.packed.reset();
    const auto yeast = living_yeast(lot, pieces(1), keeping());
    EXPECT_FALSE(yeast.cells);
    EXPECT_THAT(yeast.notes,
                Contains(HasSubstr("barm lot change " + test::code('Y', 1) + " --packed")));
}

TEST(LivingYeast, APackingDayAheadGivesNoFigure) {
    const auto yeast = living_yeast(test::packs_of(1, 1, "2026-03-20"), pieces(1), keeping());
    EXPECT_FALSE(yeast.cells);
    EXPECT_FALSE(yeast.age_days);
    EXPECT_THAT(yeast.notes, Contains(HasSubstr("after the day of the list")));
}

TEST(LivingYeast, ATemperatureNoSourceCoversGivesNoFigure) {
    const auto lot = test::packs_of(1, 1, "2026-03-01");
    const auto yeast = living_yeast(lot, pieces(1), keeping("2026-03-14", 30.0));
    EXPECT_FALSE(yeast.cells);
    EXPECT_FALSE(yeast.notes.empty());
}

TEST(LivingYeast, ABestByDayThatIsPastIsFlagged) {
    auto lot = test::packs_of(1, 1, "2026-01-01");
    lot.best_by = day("2026-03-13");
    EXPECT_TRUE(living_yeast(lot, pieces(1), keeping()).past_best_by);
    EXPECT_FALSE(living_yeast(lot, pieces(1), keeping("2026-03-13")).past_best_by);
}

TEST(LivingYeast, SlurryIsKnownByItsVolume) {
    auto lot = test::lot_of(test::code('Y', 2), "slurry", contract::Category::yeast,
                            amount_of(0.1 * brewing::litre));
    lot.packed = day("2026-03-14");
    const auto yeast = living_yeast(lot, lot.available, keeping());
    EXPECT_EQ(yeast.material, Material::slurry);
    // slurry.hpp: 0.32, 1.06 and 2.11 billion a millilitre, to two digits of its unit.
    EXPECT_NEAR(likely(yeast), 106.0, 0.5);
    EXPECT_NEAR(yeast.cells->low.in(billion_cells), 32.0, 0.5);
}

TEST(LivingYeast, ALotOfSlurryInPiecesNeedsItsCellsNoted) {
    auto lot = test::packs_of(1, 1, "2026-03-14");
    lot.facts.form = contract::Form::slurry;
    const auto yeast = living_yeast(lot, pieces(1), keeping());
    EXPECT_FALSE(yeast.cells);
    EXPECT_THAT(yeast.notes, Contains(HasSubstr("--cells")));
}

TEST(LivingYeast, CellsOfSeveralLotsAdd) {
    const std::vector<LivingYeast> both{
        living_yeast(test::packs_of(1, 1, "2026-03-14"), pieces(1), keeping()),
        living_yeast(test::packs_of(2, 2, "2026-03-14"), pieces(2), keeping())};
    EXPECT_NEAR(cells_of(both).likely.in(billion_cells), 300.0, 1e-9);
}

TEST(JoinedSources, NamesEachKeyOnce) {
    EXPECT_EQ(joined_sources("WZ1 WZ2", "WZ WZ2 KAI1"), "WZ1 WZ2 WZ KAI1");
    EXPECT_EQ(joined_sources("", "A"), "A");
}

} // namespace
} // namespace barmkeep::starter
