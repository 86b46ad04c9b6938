// Gravity, density, extract and dilution: what must hold everywhere, and what is refused.
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/extract.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

using ::testing::HasSubstr;

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

/// A number from low to high.
double within(double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}
const PlatoFit& any_fit() {
    return **rc::gen::element(&general_fit, &laboratory_fit);
}
Wort any_wort() {
    return {within(0.01, 100.0) * litre, Gravity::sg(within(1.001, 1.175))};
}

RC_GTEST_PROP(Plato, RisesWithGravity, ()) {
    const PlatoFit& fit = any_fit();
    const double sg = within(fit.lowest_sg, fit.highest_sg - 1e-6);
    RC_ASSERT(plato_of(Gravity::sg(sg), fit) < plato_of(Gravity::sg(sg + 1e-6), fit));
}

RC_GTEST_PROP(Plato, ComesBackFromGravity, ()) {
    const PlatoFit& fit = any_fit();
    const double sg = within(fit.lowest_sg, fit.highest_sg);
    RC_ASSERT(std::abs(gravity_of(plato_of(Gravity::sg(sg), fit), fit).sg() - sg) < 1e-14);
}

TEST(OutOfRangeText, HasRoundedFiguresThatDifferFromTheLimit) {
    EXPECT_THAT(OutOfRange("gauge pressure", 0.1 + 0.2, 1.0 / 3.0, 2.0, "kPa", "").what(),
                HasSubstr("gauge pressure is 0.3 kPa, valid from 0.333333 to 2 kPa"));
    EXPECT_THAT(OutOfRange("gauge pressure", 2.0 + 1e-8, 0.0, 2.0, "kPa", "").what(),
                HasSubstr("is 2.00000001 kPa, valid from 0 to 2 kPa"));
    EXPECT_THAT(OutOfRange("age", -1e-300, 0.0, 2.0, "days", "").what(),
                HasSubstr("is -1e-300 days"));
}

TEST(Plato, HasFitsThatAgreeWhereBothHold) {
    for (double sg = 1.0; sg <= 1.083; sg += 0.0005)
        EXPECT_NEAR(plato_of(Gravity::sg(sg)).degrees(),
                    plato_of(Gravity::sg(sg), laboratory_fit).degrees(), 0.002);
}

TEST(Plato, OfWaterIsWater) {
    EXPECT_NEAR(gravity_of(Plato::degrees(0.0)).sg(), 1.0, 0.00002);
    EXPECT_NEAR(gravity_of(Plato::degrees(0.0), laboratory_fit).sg(), 1.0, 0.00002);
}

TEST(Plato, RefusesGravitiesItsFitDoesNotHoldFor) {
    for (const double sg : {0.9999, 1.18, 0.0, -1.0, not_a_number, infinite})
        EXPECT_THROW((void)plato_of(Gravity::sg(sg)), OutOfRange) << sg;
    EXPECT_THROW((void)plato_of(Gravity::sg(1.09), laboratory_fit), OutOfRange);
    for (const double degrees : {-0.1, 40.1, not_a_number, infinite})
        EXPECT_THROW((void)gravity_of(Plato::degrees(degrees)), OutOfRange) << degrees;
}

TEST(OutOfRange, NamesTheRangeAndWhatToDo) {
    try {
        (void)plato_of(Gravity::sg(1.09), laboratory_fit);
        FAIL();
    } catch (const OutOfRange& error) {
        EXPECT_THAT(error.what(), HasSubstr("apparent specific gravity is 1.09"));
        EXPECT_THAT(error.what(), HasSubstr("valid from 1 to 1.083"));
        EXPECT_EQ(error.given(), 1.09);
        EXPECT_EQ(error.lowest(), 1.0);
        EXPECT_EQ(error.highest(), 1.083);
        EXPECT_THAT(error.advice(), HasSubstr("dilute"));
    }
    try {
        (void)mass_of({not_a_number * litre, Gravity::sg(1.04)});
        FAIL();
    } catch (const OutOfRange& error) {
        EXPECT_THAT(error.what(), HasSubstr("is not a number, valid from 0 L up"));
    }
}

RC_GTEST_PROP(Density, ComesBackFromSucrose, ()) {
    const Plato plato = Plato::degrees(within(0.0, 70.0));
    const Temperature temperature = Temperature::celsius(within(0.0, 80.0));
    const Plato back = plato_of_density(sucrose_density(plato, temperature), temperature);
    RC_ASSERT(std::abs(back.degrees() - plato.degrees()) < 1e-10);
}

RC_GTEST_PROP(Density, RisesWithExtract, ()) {
    const double degrees = within(0.0, 69.9);
    const Temperature temperature = Temperature::celsius(within(0.0, 80.0));
    RC_ASSERT(sucrose_density(Plato::degrees(degrees), temperature) <
              sucrose_density(Plato::degrees(degrees + 0.01), temperature));
}

RC_GTEST_PROP(Density, ComesBackFromApparentGravity, ()) {
    const Gravity gravity = Gravity::sg(within(0.981, 1.599));
    RC_ASSERT(std::abs(apparent_gravity(density_of(gravity)).sg() - gravity.sg()) < 1e-14);
}

TEST(Density, RefusesWhatItsFormulasDoNotHoldFor) {
    for (const double celsius : {-1.0, 101.0, not_a_number, infinite})
        EXPECT_THROW((void)water_density(Temperature::celsius(celsius)), OutOfRange);
    EXPECT_THROW((void)sucrose_density(Plato::degrees(71.0), reference_temperature), OutOfRange);
    EXPECT_THROW((void)sucrose_density(Plato::degrees(10.0), Temperature::celsius(81.0)),
                 OutOfRange);
    EXPECT_THROW((void)plato_of_density(990.0 * kilogram_per_cubic_metre, reference_temperature),
                 OutOfRange);
    EXPECT_THROW((void)density_of(Gravity::sg(0.97)), OutOfRange);
    EXPECT_THROW((void)apparent_gravity(not_a_number * kilogram_per_cubic_metre), OutOfRange);
}

TEST(Density, OfWortFollowsItsTemperature) {
    const Gravity gravity = Gravity::sg(1.048);
    EXPECT_DOUBLE_EQ(density_of(gravity, reference_temperature).in(gram_per_litre),
                     density_of(gravity).in(gram_per_litre));
    // 0.02: the fit and the polynomial differ by that much at 12 P.
    const Plato plato = plato_of(gravity);
    for (const double celsius : {0.0, 40.0, 80.0})
        EXPECT_NEAR(density_of(gravity, Temperature::celsius(celsius)).in(gram_per_litre),
                    sucrose_density(plato, Temperature::celsius(celsius)).in(gram_per_litre), 0.02);
    EXPECT_NEAR(density_of(Gravity::sg(1.0), Temperature::celsius(4.0)).in(gram_per_litre), 999.97,
                0.005);
}

TEST(Density, MakesHotWortFillMore) {
    EXPECT_NEAR(volume_ratio_to_20(Plato::degrees(12.0), Temperature::celsius(80.0)), 1.027, 0.001);
    EXPECT_DOUBLE_EQ(volume_ratio_to_20(Plato::degrees(12.0), reference_temperature), 1.0);
}

RC_GTEST_PROP(Extract, AndWaterMakeTheWort, ()) {
    const Wort wort = any_wort();
    const Wort again = dissolve(extract_in(wort), water_in(wort));
    RC_ASSERT(std::abs(again.gravity.sg() - wort.gravity.sg()) < 1e-13);
    RC_ASSERT(std::abs(again.volume / wort.volume - 1.0) < 1e-12);
}

RC_GTEST_PROP(Extract, MadeUpToAVolumeIsAllThere, ()) {
    const Volume volume = within(0.05, 100.0) * litre;
    const Mass extract = within(0.0, 450.0) * gram * volume.in(litre);
    const Wort wort = made_up(extract, volume);
    // Near 0 P the fit lies beside zero by 0.005 P, which is 0.05 g in a litre.
    RC_ASSERT(std::abs((extract_in(wort) - extract).in(gram)) < 1e-9 * volume.in(litre)*1000.0);
}

RC_GTEST_PROP(Dilution, KeepsTheExtractAndCountsTheWater, ()) {
    const Wort wort = any_wort();
    const Gravity target = Gravity::sg(within(1.001, 1.175));
    const Dilution dilution = to_gravity(wort, target);
    const double size = mass_of(wort).in(gram);
    RC_ASSERT(std::abs((extract_in(dilution.after) - extract_in(wort)).in(gram)) < 1e-12 * size);
    RC_ASSERT(std::abs((water_in(dilution.after) - water_in(wort) - dilution.water).in(gram)) <
              1e-11 * (size + mass_of(dilution.after).in(gram)));
    RC_ASSERT((dilution.water.in(gram) >= 0.0) == (target <= wort.gravity));
}

RC_GTEST_PROP(Dilution, LosesVolumeWhenWaterIsAdded, ()) {
    const Wort wort = any_wort();
    RC_PRE(wort.gravity.sg() > 1.02);
    const Gravity target = Gravity::sg(within(1.01, wort.gravity.sg() - 0.005));
    RC_ASSERT(to_gravity(wort, target).contraction.in(litre) > 0.0);
}

RC_GTEST_PROP(Dilution, ToAVolumeAndBackChangesNothing, ()) {
    const Wort wort = any_wort();
    const Dilution there = to_volume(wort, wort.volume * within(1.0, 8.0));
    const Dilution back = to_volume(there.after, wort.volume);
    RC_ASSERT(std::abs(back.after.gravity.sg() - wort.gravity.sg()) < 1e-12);
    RC_ASSERT(std::abs((there.water + back.water).in(gram)) < 1e-9 * mass_of(there.after).in(gram));
}

RC_GTEST_PROP(Dilution, ByTheWaterItAskedForReachesItsGravity, ()) {
    const Wort wort = any_wort();
    const Gravity target = Gravity::sg(within(1.001, 1.175));
    const Dilution asked = to_gravity(wort, target);
    RC_ASSERT(std::abs(add_water(wort, asked.water).after.gravity.sg() - target.sg()) < 1e-12);
}

RC_GTEST_PROP(Blend, KeepsExtractAndWater, ()) {
    const std::array<Wort, 3> parts{any_wort(), any_wort(), any_wort()};
    Mass extract;
    Mass water;
    for (const Wort& part : parts) {
        extract += extract_in(part);
        water += water_in(part);
    }
    const Wort mixed = blend(parts);
    RC_ASSERT(std::abs(extract_in(mixed) / extract - 1.0) < 1e-12);
    RC_ASSERT(std::abs(water_in(mixed) / water - 1.0) < 1e-12);
}

TEST(Blend, RefusesNothing) {
    EXPECT_THROW((void)blend({}), OutOfRange);
}

RC_GTEST_PROP(Points, ErrorIsTheDifferenceFromMassBalance, ()) {
    const Wort wort = any_wort();
    const Volume target = wort.volume * within(1.0, 6.0);
    const PointsGravity shortcut = points_at_volume(wort, target);
    RC_ASSERT(std::abs(shortcut.gravity.points() - shortcut.error_points -
                       to_volume(wort, target).after.gravity.points()) < 1e-9);
}

TEST(Dilution, RefusesImpossibleTargets) {
    const Wort wort{1.0 * litre, Gravity::sg(1.09)};
    EXPECT_THROW((void)to_gravity(wort, Gravity::sg(1.0)), OutOfRange);
    EXPECT_THROW((void)to_gravity(wort, Gravity::sg(not_a_number)), OutOfRange);
    EXPECT_THROW((void)to_volume(wort, 0.1 * litre), OutOfRange);
    EXPECT_THROW((void)to_volume(wort, -1.0 * litre), OutOfRange);
    EXPECT_THROW((void)add_water(wort, -1.0 * kilogram), OutOfRange);
    EXPECT_THROW((void)dissolve(-1.0 * gram, 1.0 * kilogram), OutOfRange);
    EXPECT_THROW((void)made_up(1.0 * kilogram, 1.0 * litre), OutOfRange);
    EXPECT_THROW((void)extract_in({1.0 * litre, Gravity::sg(0.99)}), OutOfRange);
}

RC_GTEST_PROP(ExtractPotential, ComesBackFromPoints, ()) {
    const double points = within(1.0, 46.9);
    RC_PRE(points <= 46.9);
    const auto potential = ExtractPotential::of_points_per_pound_gallon(points);
    RC_ASSERT(std::abs(potential.points_per_pound_gallon() - points) < 1e-9);
    const auto metric =
        ExtractPotential::of_litre_degrees_per_kilogram(potential.litre_degrees_per_kilogram());
    RC_ASSERT(std::abs(metric.mass_fraction() - potential.mass_fraction()) < 1e-12);
}

TEST(ExtractPotential, HasTheFiguresOfTheDocuments) {
    EXPECT_NEAR(ExtractPotential::of_points_per_pound_gallon(45.0).mass_fraction(), 0.9745, 5e-5);
    EXPECT_NEAR(ExtractPotential::of_mass_fraction(1.0).points_per_pound_gallon(), 46.17, 0.005);
    EXPECT_NEAR(litre_degrees_per_point, 8.345404, 5e-7);
}

TEST(ExtractPotential, RefusesMoreThanSugar) {
    try {
        (void)ExtractPotential::of_points_per_pound_gallon(60.0);
        ADD_FAILURE() << "it was taken";
    } catch (const OutOfRange& error) { // in the unit that was typed, not as a share
        EXPECT_EQ(error.highest(), 47.0);
        EXPECT_EQ(error.unit(), "points of 1 lb in 1 US gal");
    }
    EXPECT_THROW((void)ExtractPotential::of_mass_fraction(0.0), OutOfRange);
    EXPECT_THROW((void)ExtractPotential::of_mass_fraction(not_a_number), OutOfRange);
}

TEST(FillJar, AddsWaterToWhatTheProductBrings) {
    const JarFill jar = fill_jar(100.0 * gram, ExtractPotential::of_points_per_pound_gallon(44.0),
                                 400.0 * millilitre);
    EXPECT_NEAR((jar.water + 100.0 * gram - mass_of(jar.wort)).in(gram), 0.0, 1e-9);
    EXPECT_THROW(
        (void)fill_jar(400.0 * gram, ExtractPotential::of_mass_fraction(0.3), 300.0 * millilitre),
        OutOfRange);
}

TEST(TheRule, OfFourOuncesIsOffAsTheDocumentsSay) {
    const auto jar = [](double fill, double points) {
        return fill_jar(4.0 * ounce, ExtractPotential::of_points_per_pound_gallon(points),
                        fill * millilitre)
            .wort;
    };
    EXPECT_NEAR(jar(430.0, 42.0).gravity.points(), 90.0 + 2.0, 0.5);
    EXPECT_NEAR(jar(400.0, 45.0).gravity.points(), 90.0 + 16.0, 0.5);
    EXPECT_NEAR(to_volume(jar(415.0, 42.0), 1.0 * litre).after.gravity.points(), 35.0 + 5.0, 0.5);
    EXPECT_NEAR(to_volume(jar(415.0, 45.0), 1.0 * litre).after.gravity.points(), 35.0 + 8.0, 0.5);
    EXPECT_NEAR(jar(473.176473, 44.0).gravity.points(), 88.0, 0.5);
    // What makes 1.035 in a litre.
    const Mass wanted = extract_in({1.0 * litre, Gravity::sg(1.035)});
    EXPECT_NEAR(
        (wanted / ExtractPotential::of_points_per_pound_gallon(44.0).mass_fraction()).in(gram),
        95.0, 0.5);
    EXPECT_NEAR(
        (wanted / ExtractPotential::of_points_per_pound_gallon(45.0).mass_fraction()).in(gram),
        93.0, 0.5);
}

} // namespace
} // namespace barmkeep::brewing
