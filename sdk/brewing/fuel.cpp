#include "sdk/brewing/fuel.hpp"

#include "sdk/brewing/errors.hpp"

namespace barmkeep::brewing {
namespace {

Energy to_heat(const HeatedPart& part, Temperature steam) {
    require_not_negative("mass to heat", part.mass.in(gram), "g");
    require_within("heat capacity", part.heat_capacity, 0.0, 5.0, "kJ/(kg K)",
                   "the heat capacity of water is 4.2; nothing else here has a higher one");
    require_within("temperature at the start", part.start.celsius(), -30.0, steam.celsius(), "°C",
                   "it cannot start hotter than the steam that heats it");
    return part.mass.in(kilogram)*part.heat_capacity * (steam - part.start).in(kelvin)*kilojoule;
}

Energy over(Power power, std::chrono::minutes time, const char* what) {
    require_not_negative(what, power.in(kilowatt), "kW");
    require_not_negative("time", static_cast<double>(time.count()), "min");
    return power * time;
}

/// Heat of the fuel per unit of it, gross.
struct HeatingValue {
    double low;
    double likely;
    double high;
};
// MJ/kg: LPG test gas of SNI 7368 (S58), propane (S56), n-butane (S56), since bottles hold both.
constexpr HeatingValue propane_value{49.14, 50.01, 50.34};
// MJ/m3: methane (S56), US mean of 2021 (S62), Californian pipeline gas (S56).
constexpr double btu_per_cubic_foot = 1.05505585262e-3 / 0.028316846592;
constexpr HeatingValue natural_gas_value{1011 * btu_per_cubic_foot, 1039 * btu_per_cubic_foot,
                                         1073 * btu_per_cubic_foot};

} // namespace

HeatNeed heat_need(const CannerLoad& load) {
    require_within("temperature of the steam", load.steam.celsius(), 80.0, 140.0, "°C",
                   "a canner's steam is between 100 and 122 °C");
    return {to_heat(load.wort, load.steam),
            to_heat(load.glass, load.steam),
            to_heat(load.canner_water, load.steam),
            to_heat(load.canner, load.steam),
            over(load.vent_power, load.vent, "power while venting"),
            over(load.hold_loss, load.hold, "heat lost while holding")};
}

Estimate<double> efficiency(GasBurner burner) noexcept {
    if (burner == GasBurner::outdoor)
        return {0.30, 0.40, 0.50, "from-memory"};
    return {0.32, 0.40, 0.55, "S63 S64 S65 S66"};
}

Estimate<double> efficiency(ElectricPlate plate) noexcept {
    // One test is quoted for resistance plates, so there is no range to give.
    if (plate == ElectricPlate::resistance)
        return {0.74, 0.74, 0.74, "S63 S64"};
    return {0.84, 0.85, 0.90, "S63 S64 S65"};
}

Estimate<Mass> propane_for(Energy useful, GasBurner burner) {
    require_not_negative("useful heat", useful.in(kilojoule), "kJ");
    const Estimate<double> share = efficiency(burner);
    const double megajoules = useful.in(kilojoule) / 1000.0;
    return {megajoules / (share.high * propane_value.high) * kilogram,
            megajoules / (share.likely * propane_value.likely) * kilogram,
            megajoules / (share.low * propane_value.low) * kilogram, "S56 S58 S63 S64 S65 S66"};
}

Estimate<Volume> natural_gas_for(Energy useful, GasBurner burner) {
    require_not_negative("useful heat", useful.in(kilojoule), "kJ");
    const Estimate<double> share = efficiency(burner);
    constexpr double litres = 1000.0; // in a cubic metre
    const double megajoules = useful.in(kilojoule) / 1000.0;
    return {megajoules / (share.high * natural_gas_value.high) * litres * litre,
            megajoules / (share.likely * natural_gas_value.likely) * litres * litre,
            megajoules / (share.low * natural_gas_value.low) * litres * litre,
            "S56 S62 S63 S64 S65 S66"};
}

Estimate<Energy> electricity_for(Energy useful, ElectricPlate plate) {
    require_not_negative("useful heat", useful.in(kilojoule), "kJ");
    const Estimate<double> share = efficiency(plate);
    return {useful / share.high, useful / share.likely, useful / share.low, share.sources};
}

} // namespace barmkeep::brewing
