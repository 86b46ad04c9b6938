// Physical quantities as types of their own, so that a mass is never taken for a volume.
//
// A `Quantity<Dimension>` holds one double in the canonical unit of its dimension, the unit that
// also travels on the wire (mass in grams, volume in litres, ...).  A number becomes a quantity
// only by naming its unit, and becomes a number again only the same way:
//
//     Mass m = 4.0 * ounce;            // 113.398 g
//     double grams = m.in(gram);
//
// Quantities of one dimension add, subtract, compare and scale; their ratio is a plain double.
// Anything else does not compile (tests/brewing/mixing has the proof).
//
// What is a *point* on a scale, not an amount, has a class of its own: Temperature, Gravity, Plato.
//
// Thread safety: values; no shared state.  Nothing here allocates or throws.
#pragma once

#include <chrono>
#include <compare>
#include <string_view>

namespace barmkeep::brewing {

template <class Dimension>
class Quantity;

/// A named unit: how many canonical units one of it makes.
template <class Dimension>
struct Unit {
    std::string_view symbol;   ///< as printed: "g", "fl oz"
    double canonical_per_unit; ///< exact where the unit is defined exactly
};

template <class Dimension>
class Quantity {
public:
    constexpr Quantity() noexcept = default;

    /// A quantity of `count` times `unit`.
    constexpr Quantity(double count, const Unit<Dimension>& unit) noexcept
        : canonical_{count * unit.canonical_per_unit} {}

    /// From the canonical unit of the dimension, which each dimension below names.
    [[nodiscard]] static constexpr Quantity of_canonical(double value) noexcept {
        Quantity made;
        made.canonical_ = value;
        return made;
    }

    [[nodiscard]] constexpr double in(const Unit<Dimension>& unit) const noexcept {
        return canonical_ / unit.canonical_per_unit;
    }
    [[nodiscard]] constexpr double canonical() const noexcept { return canonical_; }

    constexpr auto operator<=>(const Quantity&) const noexcept = default;

    constexpr Quantity& operator+=(Quantity other) noexcept {
        canonical_ += other.canonical_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) noexcept {
        canonical_ -= other.canonical_;
        return *this;
    }
    friend constexpr Quantity operator+(Quantity a, Quantity b) noexcept { return a += b; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) noexcept { return a -= b; }
    friend constexpr Quantity operator-(Quantity a) noexcept { return of_canonical(-a.canonical_); }
    friend constexpr Quantity operator*(Quantity a, double factor) noexcept {
        return of_canonical(a.canonical_ * factor);
    }
    friend constexpr Quantity operator*(double factor, Quantity a) noexcept { return a * factor; }
    friend constexpr Quantity operator/(Quantity a, double divisor) noexcept {
        return of_canonical(a.canonical_ / divisor);
    }
    friend constexpr double operator/(Quantity a, Quantity b) noexcept {
        return a.canonical_ / b.canonical_;
    }

private:
    double canonical_ = 0.0;
};

template <class Dimension>
constexpr Quantity<Dimension> operator*(double count, const Unit<Dimension>& unit) noexcept {
    return {count, unit};
}

// The dimensions.  Each names its canonical unit.
struct MassDimension;                  // gram
struct VolumeDimension;                // litre
struct AbsolutePressureDimension;      // kilopascal above vacuum
struct GaugePressureDimension;         // kilopascal above the air around
struct LengthDimension;                // metre
struct EnergyDimension;                // kilojoule
struct CellsDimension;                 // billion (10^9) cells
struct TemperatureDifferenceDimension; // kelvin
struct DensityDimension;               // kilogram in a cubic metre, which is gram in a litre
struct PowerDimension;                 // kilowatt

using Mass = Quantity<MassDimension>;
using Volume = Quantity<VolumeDimension>;
using AbsolutePressure = Quantity<AbsolutePressureDimension>;
using GaugePressure = Quantity<GaugePressureDimension>;
using Length = Quantity<LengthDimension>;
using Energy = Quantity<EnergyDimension>;
using Cells = Quantity<CellsDimension>;
using TemperatureDifference = Quantity<TemperatureDifferenceDimension>;
using Density = Quantity<DensityDimension>;
using Power = Quantity<PowerDimension>;

// The canonical units and the ones code here needs by name.  The full list of what people may
// write is in units.hpp.  Exact factors: NIST Handbook 44, appendix C.
inline constexpr Unit<MassDimension> gram{"g", 1.0};
inline constexpr Unit<MassDimension> milligram{"mg", 0.001};
inline constexpr Unit<MassDimension> kilogram{"kg", 1000.0};
inline constexpr Unit<MassDimension> pound{"lb", 453.59237};
inline constexpr Unit<MassDimension> ounce{"oz", 28.349523125};

inline constexpr Unit<VolumeDimension> litre{"L", 1.0};
inline constexpr Unit<VolumeDimension> millilitre{"mL", 0.001};
inline constexpr Unit<VolumeDimension> us_gallon{"gal", 3.785411784};
inline constexpr Unit<VolumeDimension> us_quart{"qt", 0.946352946};
inline constexpr Unit<VolumeDimension> us_pint{"pt", 0.473176473};
inline constexpr Unit<VolumeDimension> us_fluid_ounce{"fl oz", 0.0295735295625};

inline constexpr Unit<AbsolutePressureDimension> kilopascal{"kPa", 1.0};
inline constexpr Unit<AbsolutePressureDimension> psi_absolute{"psia", 6.894757293168361};
inline constexpr Unit<GaugePressureDimension> kilopascal_gauge{"kPa", 1.0};
inline constexpr Unit<GaugePressureDimension> psi_gauge{"psi", 6.894757293168361};

inline constexpr Unit<LengthDimension> metre{"m", 1.0};
inline constexpr Unit<LengthDimension> foot{"ft", 0.3048};
inline constexpr Unit<LengthDimension> inch{"in", 0.0254};

inline constexpr Unit<EnergyDimension> kilojoule{"kJ", 1.0};
inline constexpr Unit<EnergyDimension> kilowatt_hour{"kWh", 3600.0};

inline constexpr Unit<CellsDimension> billion_cells{"B", 1.0};
inline constexpr Unit<CellsDimension> million_cells{"M", 0.001};

inline constexpr Unit<TemperatureDifferenceDimension> kelvin{"K", 1.0};
inline constexpr Unit<TemperatureDifferenceDimension> fahrenheit_degree{"F", 5.0 / 9.0};

inline constexpr Unit<DensityDimension> gram_per_litre{"g/L", 1.0};
inline constexpr Unit<DensityDimension> kilogram_per_cubic_metre{"kg/m3", 1.0};
inline constexpr Unit<DensityDimension> pound_per_us_gallon{"lb/gal", 453.59237 / 3.785411784};

inline constexpr Unit<PowerDimension> kilowatt{"kW", 1.0};

// The mixtures the science needs; no other two dimensions multiply or add.
[[nodiscard]] constexpr Mass operator*(Volume volume, Density density) noexcept {
    return Mass::of_canonical(volume.canonical() * density.canonical());
}
[[nodiscard]] constexpr Mass operator*(Density density, Volume volume) noexcept {
    return volume * density;
}
[[nodiscard]] constexpr Volume operator/(Mass mass, Density density) noexcept {
    return Volume::of_canonical(mass.canonical() / density.canonical());
}
[[nodiscard]] constexpr Density operator/(Mass mass, Volume volume) noexcept {
    return Density::of_canonical(mass.canonical() / volume.canonical());
}
/// What a canner holds: the air around it and what its gauge shows.
[[nodiscard]] constexpr AbsolutePressure operator+(AbsolutePressure air,
                                                   GaugePressure gauge) noexcept {
    return AbsolutePressure::of_canonical(air.canonical() + gauge.canonical());
}
[[nodiscard]] constexpr Energy operator*(Power power, std::chrono::duration<double> time) noexcept {
    return Energy::of_canonical(power.canonical() * time.count());
}

/// A temperature on a scale.  Two temperatures subtract to a TemperatureDifference; they do not
/// add, and degrees Fahrenheit of a point (32 F = 0 C) are never those of a difference.
class Temperature {
public:
    constexpr Temperature() noexcept = default;
    [[nodiscard]] static constexpr Temperature celsius(double value) noexcept {
        return Temperature{value};
    }
    [[nodiscard]] static constexpr Temperature fahrenheit(double value) noexcept {
        return Temperature{(value - 32.0) / 1.8};
    }
    [[nodiscard]] static constexpr Temperature kelvin_scale(double value) noexcept {
        return Temperature{value - 273.15};
    }
    [[nodiscard]] constexpr double celsius() const noexcept { return celsius_; }
    [[nodiscard]] constexpr double fahrenheit() const noexcept { return celsius_ * 1.8 + 32.0; }
    [[nodiscard]] constexpr double kelvin_scale() const noexcept { return celsius_ + 273.15; }

    constexpr auto operator<=>(const Temperature&) const noexcept = default;
    friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) noexcept {
        return (a.celsius_ - b.celsius_) * kelvin;
    }
    friend constexpr Temperature operator+(Temperature a, TemperatureDifference d) noexcept {
        return Temperature{a.celsius_ + d.in(kelvin)};
    }
    friend constexpr Temperature operator-(Temperature a, TemperatureDifference d) noexcept {
        return Temperature{a.celsius_ - d.in(kelvin)};
    }

private:
    explicit constexpr Temperature(double celsius) noexcept : celsius_{celsius} {}
    double celsius_ = 0.0;
};

/// The apparent specific gravity of a liquid at 20 C against water at 20 C, both weighed in air:
/// what a brewer's hydrometer reads.  Degrees Plato and density follow from it by a named fit
/// (extract.hpp), so this class only carries the number; it starts as water, 1.
class Gravity {
public:
    constexpr Gravity() noexcept = default;
    [[nodiscard]] static constexpr Gravity sg(double value) noexcept { return Gravity{value}; }
    [[nodiscard]] constexpr double sg() const noexcept { return sg_; }
    /// Gravity points: thousandths above water; 1.048 has 48.
    [[nodiscard]] constexpr double points() const noexcept { return (sg_ - 1.0) * 1000.0; }

    constexpr auto operator<=>(const Gravity&) const noexcept = default;

private:
    explicit constexpr Gravity(double sg) noexcept : sg_{sg} {}
    double sg_ = 1.0;
};

/// Degrees Plato: grams of extract in 100 g of wort, counted as sucrose.  A point on a scale; the
/// fits that lead from and to Gravity are in extract.hpp.
class Plato {
public:
    constexpr Plato() noexcept = default;
    [[nodiscard]] static constexpr Plato degrees(double value) noexcept { return Plato{value}; }
    [[nodiscard]] static constexpr Plato of_mass_fraction(double fraction) noexcept {
        return Plato{fraction * 100.0};
    }
    [[nodiscard]] constexpr double degrees() const noexcept { return degrees_; }
    /// Extract by mass of the whole: 12 P is 0.12.
    [[nodiscard]] constexpr double mass_fraction() const noexcept { return degrees_ / 100.0; }

    constexpr auto operator<=>(const Plato&) const noexcept = default;

private:
    explicit constexpr Plato(double degrees) noexcept : degrees_{degrees} {}
    double degrees_ = 0.0;
};

} // namespace barmkeep::brewing
