// Loss of viability (sdk/brewing/viability.hpp).
#include "sdk/brewing/viability.hpp"

#include "sdk/brewing/errors.hpp"
#include "tests/brewing/yeast_property.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <limits>
#include <set>
#include <string>

namespace barmkeep::brewing {
namespace {

using ::testing::HasSubstr;

constexpr std::array materials{YeastMaterial::liquid_pack, YeastMaterial::slurry,
                               YeastMaterial::dry_pack, YeastMaterial::home_dried,
                               YeastMaterial::sterile_water};
const Temperature refrigerator = Temperature::celsius(4);

/// A temperature that some statement on the material covers.
Temperature covered_temperature(YeastMaterial material) {
    double lowest = 1e9;
    double highest = -1e9;
    for (const ViabilityModel& model : viability_models(material)) {
        lowest = std::min(lowest, model.lowest_celsius);
        highest = std::max(highest, model.highest_celsius);
    }
    return Temperature::celsius(number_between(lowest, highest));
}

std::string refusal(YeastMaterial material, double age, Temperature kept_at) {
    try {
        (void)viable_share(material, age, kept_at);
    } catch (const OutOfRange& error) {
        return error.what();
    }
    return "not refused";
}

TEST(ViableShare, FreshPacksHoldForTwoMonthsByTheLikelyFigure) {
    EXPECT_GT(viable_share(YeastMaterial::liquid_pack, 61, refrigerator).likely, 0.98);
    EXPECT_LT(viable_share(YeastMaterial::liquid_pack, 182, refrigerator).likely, 0.72);
}

TEST(ViableShare, NamesEverySourceThatMadeIt) {
    EXPECT_EQ(viable_share(YeastMaterial::liquid_pack, 10, refrigerator).sources,
              "WL3 WL2-vial BAR-linear BAR-monthly");
    EXPECT_EQ(viable_share(YeastMaterial::slurry, 1, Temperature::celsius(20)).sources, "MCB WOO5");
}

TEST(ViableShare, GivesTheSpreadOfTheSourcesAndTheMeanOfTheMeasuredOnes) {
    const Estimate<double> share = viable_share(YeastMaterial::slurry, 3, refrigerator);
    const auto by = [](const char* key) {
        return viable_share_by(*find_viability_model(key), 3, refrigerator);
    };
    EXPECT_DOUBLE_EQ(share.likely, (by("MCB").likely + by("WOO1").likely) / 2);
    EXPECT_DOUBLE_EQ(share.low, std::min(by("MCB").low, by("WL2-slurry").low));
    EXPECT_DOUBLE_EQ(share.high, 1.0);
}

TEST(ViableShare, IsNowhereAboveTheLowestOfTheSourcesInItsLowFigure) {
    for (const YeastMaterial material : materials)
        for (const ViabilityModel& model : viability_models(material))
            for (const double celsius : {model.lowest_celsius, model.highest_celsius})
                for (const double age : {model.lowest_age_days, model.highest_age_days}) {
                    const Temperature kept_at = Temperature::celsius(celsius);
                    EXPECT_LE(viable_share(material, age, kept_at).low,
                              viable_share_by(model, age, kept_at).low)
                        << model.key << " at " << age << " days and " << celsius << " C";
                }
}

TEST(ViableShare, WhatDiedByTheEndOfAShortStudyStaysDead) {
    const double at_its_end = viable_share(YeastMaterial::slurry, 6, refrigerator).likely;
    const Estimate<double> later = viable_share(YeastMaterial::slurry, 7, refrigerator);
    EXPECT_DOUBLE_EQ(later.likely, at_its_end);
    EXPECT_THAT(std::string{later.sources}, HasSubstr("MCB"));
}

TEST(ViableShare, FallsWithAgeAndKeepsItsOrder) {
    holds_always([] {
        const auto material = *rc::gen::elementOf(materials);
        const Temperature kept_at = covered_temperature(material);
        const double oldest = oldest_covered_age(material, kept_at);
        const double younger = number_between(0, oldest);
        const double older = number_between(younger, oldest);
        const Estimate<double> before = viable_share(material, younger, kept_at);
        const Estimate<double> after = viable_share(material, older, kept_at);
        RC_ASSERT(after.low <= before.low);
        RC_ASSERT(after.likely <= before.likely);
        RC_ASSERT(after.high <= before.high);
        RC_ASSERT(0.0 < after.low && after.low <= after.likely);
        RC_ASSERT(after.likely <= after.high && after.high <= 1.0);
        RC_ASSERT(!after.sources.empty());
    });
}

TEST(ViableShare, RefusesAnAgeBeyondEverySourceAndNamesTheRange) {
    EXPECT_THAT(refusal(YeastMaterial::liquid_pack, 270, refrigerator),
                HasSubstr("age of a liquid pack is 270 days, valid from 0 to 182 days"));
    EXPECT_THAT(refusal(YeastMaterial::slurry, 7, Temperature::celsius(20)),
                HasSubstr("valid from 0 to 6 days"));
}

TEST(ViableShare, RefusesATemperatureWithoutASourceAndNamesTheRange) {
    EXPECT_THAT(refusal(YeastMaterial::liquid_pack, 10, Temperature::celsius(20)),
                HasSubstr("storage temperature of a liquid pack is 20 C, valid from 1 to 8 C"));
}

TEST(ViableShare, RefusesWhatIsNoNumber) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double endless = std::numeric_limits<double>::infinity();
    for (const YeastMaterial material : materials) {
        const Temperature cold =
            material == YeastMaterial::home_dried ? Temperature::celsius(-18) : refrigerator;
        for (const double age : {nan, endless, -endless, -1.0}) {
            EXPECT_THROW((void)viable_share(material, age, cold), OutOfRange) << age;
            EXPECT_THROW((void)viable_share_extrapolated(material, age, cold), OutOfRange) << age;
        }
        for (const double celsius : {nan, endless, -endless})
            EXPECT_THROW((void)viable_share(material, 1, Temperature::celsius(celsius)),
                         OutOfRange);
    }
}

TEST(ViableShareBy, HoldsEachStatementToItsOwnRange) {
    const ViabilityModel& old_vial = *find_viability_model("WL2-vial");
    EXPECT_NO_THROW((void)viable_share_by(old_vial, 30, refrigerator));
    EXPECT_THROW((void)viable_share_by(old_vial, 31, refrigerator), OutOfRange);
    EXPECT_THROW((void)viable_share_by(old_vial, 30, Temperature::celsius(9)), OutOfRange);
}

TEST(ViableShareBy, WarmerStorageKillsFaster) {
    holds_always([] {
        const auto* key = *rc::gen::elementOf(std::array{"MCB", "CONE", "CONE-KSU"});
        const ViabilityModel& model = *find_viability_model(key);
        const double cooler = number_between(model.lowest_celsius, model.highest_celsius);
        const double warmer = number_between(cooler, model.highest_celsius);
        const double age = number_between(0, model.highest_age_days);
        const auto cool = viable_share_by(model, age, Temperature::celsius(cooler));
        const auto warm = viable_share_by(model, age, Temperature::celsius(warmer));
        RC_ASSERT(warm.low <= cool.low * (1 + 1e-12));
        RC_ASSERT(warm.likely <= cool.likely * (1 + 1e-12));
        RC_ASSERT(warm.high <= cool.high * (1 + 1e-12));
    });
}

TEST(ViableShareBy, GoesThroughEveryPointOfItsSeries) {
    for (const YeastMaterial material : materials)
        for (const ViabilityModel& model : viability_models(material)) {
            if (model.shape != LossShape::series)
                continue;
            const Temperature kept_at = Temperature::celsius(model.lowest_celsius);
            for (const LossPoint& point : model.points) {
                const auto share = viable_share_by(model, point.at, kept_at);
                EXPECT_DOUBLE_EQ(share.low, point.low) << model.key;
                EXPECT_DOUBLE_EQ(share.likely, point.likely) << model.key;
                EXPECT_DOUBLE_EQ(share.high, point.high) << model.key;
            }
        }
}

TEST(ViableShareExtrapolated, IsThePublishedFigureInsideTheSources) {
    const ExtrapolatedShare inside =
        viable_share_extrapolated(YeastMaterial::liquid_pack, 100, refrigerator);
    EXPECT_FALSE(inside.extrapolated);
    EXPECT_EQ(inside.share.likely,
              viable_share(YeastMaterial::liquid_pack, 100, refrigerator).likely);
}

TEST(ViableShareExtrapolated, SaysThatANineMonthsOldPackIsAGuess) {
    const ExtrapolatedShare guess =
        viable_share_extrapolated(YeastMaterial::liquid_pack, 274, refrigerator);
    EXPECT_TRUE(guess.extrapolated);
    EXPECT_EQ(guess.covered_to_days, 182);
    EXPECT_NEAR(guess.share.likely, 0.7159 * std::exp(-std::log(0.9026 / 0.7159) * 92 / 91), 1e-9);
}

TEST(ViableShareExtrapolated, GoesOnWithoutAJumpFallsAndWidens) {
    holds_always([] {
        const auto material = *rc::gen::elementOf(materials);
        const Temperature kept_at = covered_temperature(material);
        const double oldest = oldest_covered_age(material, kept_at);
        const auto ratio = [](const ExtrapolatedShare& at) {
            return at.share.high / at.share.low;
        };
        const auto edge = viable_share_extrapolated(material, oldest, kept_at);
        const auto beyond = viable_share_extrapolated(material, oldest * 1.000001, kept_at);
        RC_ASSERT(beyond.extrapolated && !edge.extrapolated);
        RC_ASSERT(std::abs(beyond.share.likely - edge.share.likely) < 1e-4);
        const double age = oldest * number_between(1.01, 3);
        const auto far = viable_share_extrapolated(material, age, kept_at);
        const auto farther = viable_share_extrapolated(material, age * 1.5, kept_at);
        RC_ASSERT(farther.share.likely < far.share.likely);
        RC_ASSERT(farther.share.low <= far.share.low && farther.share.high <= far.share.high);
        RC_ASSERT(ratio(farther) > ratio(far) && ratio(far) > ratio(edge));
    });
}

TEST(ViabilityModels, HaveKeysOfTheirOwnAndStandWithTheBestEvidenceFirst) {
    std::set<std::string_view> keys;
    for (const YeastMaterial material : materials) {
        Evidence last = Evidence::measured;
        for (const ViabilityModel& model : viability_models(material)) {
            EXPECT_TRUE(keys.insert(model.key).second) << model.key;
            EXPECT_EQ(model.material, material) << model.key;
            EXPECT_LE(last, model.evidence) << model.key;
            EXPECT_EQ(model.lowest_age_days, 0) << model.key;
            EXPECT_EQ(find_viability_model(model.key), &model);
            last = model.evidence;
        }
    }
    EXPECT_EQ(find_viability_model("nobody"), nullptr);
}

TEST(ViabilityModels, LeaveNoTemperatureUncoveredBetweenTheirEnds) {
    holds_always([] {
        const auto material = *rc::gen::elementOf(materials);
        RC_ASSERT(oldest_covered_age(material, covered_temperature(material)) > 0);
    });
}

} // namespace
} // namespace barmkeep::brewing
