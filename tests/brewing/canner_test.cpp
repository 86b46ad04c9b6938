// Instruments, steam, air, gauges and fuel: what must hold everywhere, and what is refused.
#include "sdk/brewing/atmosphere.hpp"
#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/density.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/fuel.hpp"
#include "sdk/brewing/hydrometer.hpp"
#include "sdk/brewing/refractometer.hpp"
#include "sdk/brewing/steam.hpp"

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

namespace barmkeep::brewing {
namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

double within(double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

RC_GTEST_PROP(Hydrometer, ComesBackFromItsReading, ()) {
    const Gravity gravity = Gravity::sg(within(1.0001, 1.2));
    const Temperature sample = Temperature::celsius(within(0.0, 80.0));
    const Temperature calibration = Temperature::celsius(within(10.0, 25.0));
    const double reading = hydrometer_reading(gravity, sample, calibration);
    RC_ASSERT(std::abs(correct_hydrometer(reading, sample, calibration).gravity.sg() -
                       gravity.sg()) < 1e-11);
}

RC_GTEST_PROP(Hydrometer, NeedsNoCorrectionAtItsOwnTemperature, ()) {
    const double reading = within(1.0, 1.2);
    const Temperature own = Temperature::celsius(within(10.0, 25.0));
    RC_ASSERT(std::abs(correct_hydrometer(reading, own, own).added) < 1e-11);
}

RC_GTEST_PROP(Hydrometer, MadeForTwentyDegreesReadsTheApparentGravityThere, ()) {
    const double reading = within(1.0, 1.2);
    const Temperature own = Temperature::celsius(20.0);
    RC_ASSERT(std::abs(correct_hydrometer(reading, own, own).gravity.sg() - reading) < 1e-12);
}

RC_GTEST_PROP(Hydrometer, ReadsLowInWarmWort, ()) {
    const Temperature calibration = Temperature::celsius(20.0);
    const double reading = within(1.0, 1.15);
    const double celsius = within(20.5, 79.0);
    const double added =
        correct_hydrometer(reading, Temperature::celsius(celsius), calibration).added;
    RC_ASSERT(added > 0.0);
    RC_ASSERT(correct_hydrometer(reading, Temperature::celsius(celsius + 0.5), calibration).added >
              added);
}

TEST(Hydrometer, RefusesWhatNoWortReads) {
    const Temperature room = Temperature::celsius(20.0);
    for (const double reading : {0.99, 1.5, not_a_number, infinite})
        EXPECT_THROW((void)correct_hydrometer(reading, room, room), OutOfRange) << reading;
    EXPECT_THROW((void)correct_hydrometer(1.04, Temperature::celsius(90.0), room), OutOfRange);
    EXPECT_THROW((void)correct_hydrometer(1.04, room, Temperature::celsius(60.0)), OutOfRange);
}

TEST(Refractometer, CorrectsBetweenTheLinesOfItsTable) {
    EXPECT_DOUBLE_EQ(refractometer_temperature_correction(10.0, Temperature::celsius(20.0)), 0.0);
    EXPECT_NEAR(refractometer_temperature_correction(12.5, Temperature::celsius(15.5)), -0.295,
                1e-12);
    EXPECT_NEAR(refractometer_temperature_correction(10.0, Temperature::celsius(18.5)), -0.1,
                1e-12);
    EXPECT_LT(refractometer_temperature_correction(30.0, Temperature::celsius(9.99)), -0.69);
}

RC_GTEST_PROP(Refractometer, CorrectsLessTheWarmerItIs, ()) {
    const double brix = within(0.0, 75.0);
    const double celsius = within(10.0, 19.9);
    RC_ASSERT(refractometer_temperature_correction(brix, Temperature::celsius(celsius)) <
              refractometer_temperature_correction(brix, Temperature::celsius(celsius + 0.1)));
}

TEST(Refractometer, RefusesWhatItsTableDoesNotHold) {
    EXPECT_THROW((void)refractometer_temperature_correction(10.0, Temperature::celsius(21.0)),
                 OutOfRange);
    EXPECT_THROW((void)refractometer_temperature_correction(35.0, Temperature::celsius(8.0)),
                 OutOfRange);
    EXPECT_THROW((void)refractometer_temperature_correction(not_a_number, reference_temperature),
                 OutOfRange);
    EXPECT_THROW((void)plato_of_refractometer(12.0, 1.3), OutOfRange);
    EXPECT_THROW((void)plato_of_refractometer(-1.0), OutOfRange);
    EXPECT_THROW((void)brix_of_refractive_index(1.2), OutOfRange);
    EXPECT_THROW((void)measured_wort_factor(3.0, Plato::degrees(3.0)), OutOfRange);
    EXPECT_NEAR(measured_wort_factor(12.48, Plato::degrees(12.0)), 1.04, 1e-12);
}

RC_GTEST_PROP(Steam, PressureAndTemperatureAreInverse, ()) {
    const double celsius = within(0.0, 373.9);
    const Temperature steam = Temperature::celsius(celsius);
    RC_ASSERT(std::abs(saturation_temperature(saturation_pressure(steam)).celsius() - celsius) <
              1e-8);
}

RC_GTEST_PROP(Steam, GetsHotterWithPressure, ()) {
    const double pressure = within(1.0, 22000.0);
    RC_ASSERT(saturation_temperature(pressure * kilopascal) <
              saturation_temperature((pressure + 0.1) * kilopascal));
}

TEST(Steam, TakesTheEndsOfItsRange) {
    EXPECT_NEAR(saturation_pressure(Temperature::kelvin_scale(273.15)).in(kilopascal), 0.611213,
                1e-6);
    EXPECT_NEAR(saturation_temperature(22064.0 * kilopascal).kelvin_scale(), 647.096, 1e-3);
    for (const double celsius : {-0.1, 374.0, not_a_number, infinite})
        EXPECT_THROW((void)saturation_pressure(Temperature::celsius(celsius)), OutOfRange);
    for (const double pressure : {0.6, 23000.0, -1.0, not_a_number, infinite})
        EXPECT_THROW((void)saturation_temperature(pressure * kilopascal), OutOfRange);
}

RC_GTEST_PROP(Air, GetsThinnerWithAltitudeAndBack, ()) {
    const double height = within(-499.0, 10990.0);
    RC_ASSERT(standard_pressure(height * metre) > standard_pressure((height + 1.0) * metre));
    RC_ASSERT(std::abs(altitude_of(standard_pressure(height * metre)).in(metre)-height) < 1e-6);
}

TEST(Air, AtAGeometricAltitudeIsThatOfItsGeopotential) {
    const Length height = 3000.0 * metre;
    EXPECT_NEAR(geopotential_altitude(height).in(metre), 2998.585, 0.001);
    EXPECT_DOUBLE_EQ(
        standard_pressure(height).in(kilopascal),
        standard_pressure_at_geopotential(geopotential_altitude(height)).in(kilopascal));
    for (const double bad : {-600.0, 12000.0, not_a_number, infinite})
        EXPECT_THROW((void)standard_pressure(bad * metre), OutOfRange);
    EXPECT_THROW((void)altitude_of(10.0 * kilopascal), OutOfRange);
}

TEST(Gauge, OfFifteenPoundsMeansTwoHundredAndFiftyFahrenheit) {
    EXPECT_NEAR(steam_temperature(15.0 * psi_gauge, 0.0 * metre).fahrenheit(), 249.7, 0.05);
    EXPECT_NEAR(gauge_pressure_for(Temperature::fahrenheit(240.0), 0.0 * metre).in(psi_gauge), 10.3,
                0.05);
}

RC_GTEST_PROP(Gauge, ForATemperatureGivesThatTemperature, ()) {
    const Length altitude = within(-400.0, 3000.0) * metre;
    const Temperature steam = Temperature::celsius(within(100.0, 125.0));
    const GaugePressure gauge = gauge_pressure_for(steam, altitude);
    RC_ASSERT(std::abs((steam_temperature(gauge, altitude) - steam).in(kelvin)) < 1e-8);
}

TEST(Gauge, RefusesPressuresOfNoCanner) {
    EXPECT_THROW((void)steam_temperature(60.0 * psi_gauge, 0.0 * metre), OutOfRange);
    EXPECT_THROW((void)steam_temperature(not_a_number * psi_gauge, 0.0 * metre), OutOfRange);
    EXPECT_THROW((void)steam_temperature(10.0 * psi_gauge, 5.0 * kilopascal), OutOfRange);
    EXPECT_THROW((void)gauge_pressure_for(Temperature::celsius(200.0), 0.0 * metre), OutOfRange);
}

TEST(Bands, JoinWithoutGapsAndServeBelowTheSea) {
    EXPECT_EQ(published_band(GaugeType::dial, 2000.5 * foot).pressure, 12.0 * psi_gauge);
    EXPECT_EQ(published_band(GaugeType::weighted, 1000.1 * foot).pressure, 15.0 * psi_gauge);
    EXPECT_EQ(published_band(GaugeType::dial, -4.0 * metre).pressure, 11.0 * psi_gauge);
    EXPECT_THROW((void)published_band(GaugeType::dial, 10001.0 * foot), OutOfRange);
    EXPECT_THROW((void)published_band(GaugeType::dial, not_a_number * foot), OutOfRange);
}

TEST(DialGauge, ThatReadsHighMustShowMore) {
    EXPECT_NEAR(dial_target(11.0 * psi_gauge, 1.5 * psi_gauge).in(psi_gauge), 12.5, 1e-12);
    EXPECT_NEAR(true_pressure(12.5 * psi_gauge, 1.5 * psi_gauge).in(psi_gauge), 11.0, 1e-12);
}

TEST(DialGauge, ThatReadsLowIsGivenNoCredit) {
    EXPECT_NEAR(dial_target(11.0 * psi_gauge, -1.0 * psi_gauge).in(psi_gauge), 11.0, 1e-12);
    EXPECT_NEAR(true_pressure(11.0 * psi_gauge, -1.0 * psi_gauge).in(psi_gauge), 12.0, 1e-12);
}

TEST(DialGauge, OffByMoreThanTwoPoundsIsRefused) {
    EXPECT_THROW((void)dial_target(11.0 * psi_gauge, 2.5 * psi_gauge), OutOfRange);
    EXPECT_THROW((void)true_pressure(11.0 * psi_gauge, -2.5 * psi_gauge), OutOfRange);
    EXPECT_THROW((void)true_pressure(11.0 * psi_gauge, not_a_number * psi_gauge), OutOfRange);
}

TEST(CautionBoilTime, IsRoundedUpBetweenThousands) {
    EXPECT_EQ(caution_boil_time(999.0 * foot).count(), 10);
    EXPECT_EQ(caution_boil_time(1001.0 * foot).count(), 12);
    EXPECT_EQ(caution_boil_time(-10.0 * metre).count(), 10);
    EXPECT_THROW((void)caution_boil_time(20000.0 * foot), OutOfRange);
}

RC_GTEST_PROP(Fuel, RangesAreInOrder, ()) {
    const Energy useful = within(0.0, 100000.0) * kilojoule;
    const auto ordered = [](const auto& estimate) {
        return estimate.low <= estimate.likely && estimate.likely <= estimate.high &&
               !estimate.sources.empty();
    };
    for (const GasBurner burner : {GasBurner::cooktop, GasBurner::outdoor}) {
        RC_ASSERT(ordered(propane_for(useful, burner)));
        RC_ASSERT(ordered(natural_gas_for(useful, burner)));
    }
    for (const ElectricPlate plate : {ElectricPlate::resistance, ElectricPlate::induction})
        RC_ASSERT(ordered(electricity_for(useful, plate)));
}

TEST(Fuel, RefusesImpossibleLoads) {
    CannerLoad load{.wort = {1.0 * kilogram, wort_heat_capacity, Temperature::celsius(20.0)},
                    .glass = {},
                    .canner_water = {},
                    .canner = {},
                    .steam = Temperature::celsius(116.0),
                    .vent = std::chrono::minutes{10},
                    .vent_power = 1.0 * kilowatt,
                    .hold = std::chrono::minutes{15},
                    .hold_loss = 0.5 * kilowatt};
    EXPECT_NEAR(heat_need(load).total().in(kilojoule), 384.0 + 600.0 + 450.0, 1e-9);
    load.wort.mass = -1.0 * kilogram;
    EXPECT_THROW((void)heat_need(load), OutOfRange);
    load.wort.mass = 1.0 * kilogram;
    load.wort.start = Temperature::celsius(130.0);
    EXPECT_THROW((void)heat_need(load), OutOfRange);
    load.wort.start = Temperature::celsius(20.0);
    load.vent = std::chrono::minutes{-1};
    EXPECT_THROW((void)heat_need(load), OutOfRange);
    EXPECT_THROW((void)propane_for(not_a_number * kilojoule, GasBurner::cooktop), OutOfRange);
}

} // namespace
} // namespace barmkeep::brewing
