// What heating a canner costs in gas or electricity: an estimate, and a wide one.
//
// The heat a load takes up is summed from its parts; the burner's efficiency, which published tests
// give from 0.32 to 0.55 for gas alone, makes most of the range.  A measured cylinder or meter
// outranks it.
//
// Sources: docs/science.md.  Thread safety: pure functions.  They allocate nothing unless they
// throw.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/brewing/quantity.hpp"

#include <chrono>

namespace barmkeep::brewing {

/// One thing that is heated.  Heat capacities in kJ/(kg K).
struct HeatedPart {
    Mass mass;
    double heat_capacity = 0.0;
    Temperature start;
};

/// Heat capacities for the parts, from memory but for water's, which is that of the steam tables.
inline constexpr double wort_heat_capacity = 4.0;
inline constexpr double water_heat_capacity = 4.186;
inline constexpr double glass_heat_capacity = 0.84;
inline constexpr double aluminium_heat_capacity = 0.90;
inline constexpr double steel_heat_capacity = 0.50;

/// A load of jars in a canner, from the cold start to the end of the hold.
struct CannerLoad {
    HeatedPart wort;
    HeatedPart glass;
    HeatedPart canner_water;
    HeatedPart canner;
    Temperature steam;         ///< reached by all of it
    std::chrono::minutes vent; ///< steam flowing freely
    Power vent_power;          ///< heat that goes into the canner meanwhile
    std::chrono::minutes hold; ///< at pressure
    Power hold_loss;           ///< what the canner loses to the room meanwhile
};

/// The heat a load needs, by what takes it.
struct HeatNeed {
    Energy wort;
    Energy glass;
    Energy canner_water;
    Energy canner;
    Energy vent;
    Energy hold;
    [[nodiscard]] constexpr Energy sensible() const noexcept {
        return wort + glass + canner_water + canner;
    }
    [[nodiscard]] constexpr Energy total() const noexcept { return sensible() + vent + hold; }
};

/// @throws OutOfRange for negative masses, capacities, times or powers, and for a part that starts
///         hotter than the steam.
[[nodiscard]] HeatNeed heat_need(const CannerLoad& load);

/// What stands under the canner.
enum class GasBurner : unsigned char { cooktop, outdoor };
enum class ElectricPlate : unsigned char { resistance, induction };

/// The share of the fuel's heat (gross) that reaches the canner.
[[nodiscard]] Estimate<double> efficiency(GasBurner burner) noexcept;
[[nodiscard]] Estimate<double> efficiency(ElectricPlate plate) noexcept;

/// Fuel for an amount of useful heat.  Gross heating values, as the efficiencies are on that
/// footing (assumed: the sources do not all say so).
/// @throws OutOfRange for negative heat.
[[nodiscard]] Estimate<Mass> propane_for(Energy useful, GasBurner burner);
/// Volume at the meter.
[[nodiscard]] Estimate<Volume> natural_gas_for(Energy useful, GasBurner burner);
[[nodiscard]] Estimate<Energy> electricity_for(Energy useful, ElectricPlate plate);

} // namespace barmkeep::brewing
