// Heat and fuel against the worked example and the published heating values.
#include "sdk/brewing/fuel.hpp"
#include "tests/published/comparison.hpp"

#include <stdexcept>

namespace barmkeep::published {
namespace {

using namespace brewing;
using std::chrono::minutes;

/// The example's load: seven quart jars.
CannerLoad example_load() {
    const Temperature room = Temperature::celsius(25.0);
    return {.wort = {7.0 * 0.88 * 1.04 * kilogram, 4.0, Temperature::celsius(80.0)},
            .glass = {7.0 * 0.41 * kilogram, 0.84, Temperature::celsius(80.0)},
            .canner_water = {2.84 * kilogram, 4.186, Temperature::celsius(60.0)},
            .canner = {5.0 * kilogram, 0.90, room},
            .steam = Temperature::celsius(116.0),
            .vent = minutes{10},
            .vent_power = 1.41 * kilowatt,
            .hold = minutes{25},
            .hold_loss = 0.5 * kilowatt};
}

double computed_step(const std::string& step) {
    const HeatNeed need = heat_need(example_load());
    const auto begins = [&](const char* with) {
        return step.starts_with(with);
    };
    if (begins("7 quart jars"))
        return need.wort.in(kilojoule);
    if (begins("jar glass"))
        return need.glass.in(kilojoule);
    if (begins("canner water"))
        return need.canner_water.in(kilojoule);
    if (begins("aluminium"))
        return need.canner.in(kilojoule);
    if (begins("sum of"))
        return need.sensible().in(kilojoule);
    if (begins("10 min vent"))
        return need.vent.in(kilojoule);
    if (begins("25 min hold"))
        return need.hold.in(kilojoule);
    if (begins("total"))
        return need.total().in(kilojoule);
    throw std::runtime_error{"no such step: " + step};
}

/// The example's fuels for its own printed total, at its likely figures.
std::vector<Pair> example_fuel(const std::string& begins, double computed) {
    return pairs_from(
        "canning/energy_example.csv",
        [&](const Row& row) { return row["step"].starts_with(begins); },
        [=](const Row&) { return computed; }, [](const Row& row) { return row.number("value"); });
}

} // namespace

std::vector<Comparison> fuel_comparisons() {
    const Energy useful = 3681.0 * kilojoule;
    std::vector<Comparison> all;
    // Printed to 1 kJ; the canner's glass and water are sums of rounded masses.
    all.push_back({"heat of a canner load, by part", "worked example (inputs from memory)",
                   "7 quart jars", "kJ", 1.5,
                   pairs_from(
                       "canning/energy_example.csv",
                       [](const Row& row) { return row["unit"].starts_with("kJ"); },
                       [](const Row& row) { return computed_step(row["step"]); },
                       [](const Row& row) { return row.number("value"); })});
    all.push_back(
        {"propane for that heat", "worked example", "40 %", "kg", 0.00051,
         example_fuel("propane", propane_for(useful, GasBurner::cooktop).likely.in(kilogram))});
    all.push_back(
        {"natural gas for that heat", "worked example", "40 %", "m3", 0.00051,
         example_fuel("natural gas",
                      natural_gas_for(useful, GasBurner::cooktop).likely.in(litre) / 1000.0)});
    all.push_back(
        {"electricity for that heat, resistance", "worked example", "74 %", "kWh", 0.0051,
         example_fuel(
             "electric resistance",
             electricity_for(useful, ElectricPlate::resistance).likely.in(kilowatt_hour))});
    all.push_back(
        {"electricity for that heat, induction", "worked example", "85 %", "kWh", 0.0051,
         example_fuel("induction",
                      electricity_for(useful, ElectricPlate::induction).likely.in(kilowatt_hour))});
    return all;
}

} // namespace barmkeep::published
