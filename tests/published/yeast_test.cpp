// Every published value on yeast and counting held to its tolerance.
#include "tests/published/hold.hpp"
#include "tests/published/yeast_comparisons.hpp"

#include "sdk/brewing/counting.hpp"
#include "sdk/brewing/dispersion.hpp"
#include "sdk/brewing/pitching.hpp"

#include <gtest/gtest.h>

namespace barmkeep::published {
namespace {

TEST(PublishedYeast, ViabilityAgreesWithItsStatements) {
    hold(yeast_viability_comparisons());
}
TEST(PublishedYeast, PitchingAgreesWithItsStatements) {
    hold(yeast_pitching_comparisons());
}
TEST(PublishedYeast, GrowthAgreesWithItsStatements) {
    hold(yeast_growth_comparisons());
}
TEST(PublishedYeast, CountingAgreesWithItsExamples) {
    hold(counting_comparisons());
}

// The example prints 180 billion for 5.25 gal of 1.048 with a quarter of the points for the Plato
// and 20 L for the volume; the file's note says what the polynomial and the true volume give.
TEST(PublishedYeast, AGravityGivesLessThanAQuarterOfItsPoints) {
    using namespace brewing;
    const Cells cells =
        cells_needed(5.25 * us_gallon, Gravity::sg(1.048), BeerClass::ale).cells.likely;
    EXPECT_NEAR(cells.in(billion_cells), 177.5, 0.05);
}

// p-values by scipy 1.10.1 (chi2.sf): 0.0049, 0.641, 0.100 and 0.734.
TEST(PublishedYeast, OnlyOneOfFourSamplesScattersMoreThanChance) {
    for (const Row& sample : read_csv("yeast/squares_summary.csv")) {
        std::vector<std::uint32_t> fields;
        for (const Row& row : read_csv("yeast/squares_counted.csv"))
            if (row["sample"] == sample["sample"])
                fields.insert(fields.end(), static_cast<std::size_t>(row.number("squares")),
                              static_cast<std::uint32_t>(row.number("cells_in_square")));
        ASSERT_EQ(fields.size(), static_cast<std::size_t>(sample.number("squares")));
        EXPECT_EQ(brewing::dispersion_test(fields).scattered(), sample["sample"] == "A")
            << sample.place();
    }
}

// Ten fields of one preparation, one with 70 cells (MBAA): a brewer asked whether it may be left
// out. Figures by scipy 1.10.1.
TEST(PublishedYeast, AFieldOfSeventyIsMoreThanChance) {
    std::vector<std::uint32_t> fields;
    for (const Row& row : read_csv("yeast/ten_fields.csv"))
        fields.push_back(static_cast<std::uint32_t>(row.number("cells")));
    const brewing::DispersionTest test = brewing::dispersion_test(fields);
    EXPECT_NEAR(test.chi_square, 24.62124711316397, 1e-6);
    EXPECT_NEAR(test.p_value, 0.0034199979559404355, 1e-8);
    EXPECT_TRUE(test.scattered());
    EXPECT_EQ(brewing::field_mean(fields).scatter, brewing::Scatter::observed);
}

TEST(NumbersIn, ReadsRangesListsSignsAndWords) {
    EXPECT_EQ(numbers_in("70-140"), (std::vector<double>{70, 140}));
    EXPECT_EQ(numbers_in("drop of 7"), (std::vector<double>{7}));
    EXPECT_EQ(numbers_in("-0.20 %/day"), (std::vector<double>{-0.2}));
    EXPECT_EQ(numbers_in("28.3 / 23.1"), (std::vector<double>{28.3, 23.1}));
    EXPECT_EQ(numbers_in("factor 2.5e5 per square"), (std::vector<double>{2.5e5}));
    EXPECT_THROW((void)numbers_in("fridge"), std::runtime_error);
}

TEST(NumbersIn, ARowThatIsNotThereIsAnError) {
    EXPECT_THROW((void)row_of("yeast/packs.csv", "PK99"), std::runtime_error);
}

} // namespace
} // namespace barmkeep::published
