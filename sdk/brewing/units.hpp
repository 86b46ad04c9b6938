// Quantities as brewers write them, read and printed.
//
// What is accepted: a number and a unit, `113g`, `4 oz`, `1.5 kg`, `1/4 tsp`, `1 1/2 lb`, `1½ lb`,
// and sums from large to small, `1 lb 4 oz`.  Names may be long or short, singular or plural, in
// any case unless case separates two units (`T` tablespoon, `t` teaspoon; `Mg` is refused).
// The decimal mark is the point; a comma is refused with a hint, since it means thousands to one
// reader and decimals to the next.
//
// The field settles what a word means: `oz` is weight where a mass is wanted and fluid ounces
// where a volume is; gallons, quarts, pints, cups and spoons are United States measure, and
// imperial ones are written `imp gal`, `imp pt`, ...  A bare number is refused wherever more than
// one unit is in use.
//
// Every parser throws UnitError for text it cannot take, with a hint naming units that fit, and
// OutOfRange for an amount that cannot be (a negative mass, a temperature below absolute zero).
//
// Factors: exact definitions (NIST Handbook 44, appendix C; NIST SP 430; 27 CFR 25.158 for the
// beer barrel); unit_tables.cpp has them all.
//
// Thread safety: pure functions over constant tables.
#pragma once

#include "sdk/brewing/quantity.hpp"

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace barmkeep::brewing {

/// In whose units to print.
enum class System : unsigned char { metric, us, imperial };

// ParseContext.

/// `4 oz`, `113g`, `1 1/2 lb`, `1 lb 4 oz`, `2.5 kg`.  Not negative.
[[nodiscard]] Mass parse_mass(std::string_view text);
/// `1 pt`, `20 L`, `5 gal`, `2 imp gal`, `1/4 tsp`, `8 oz` (fluid).  Not negative.
[[nodiscard]] Volume parse_volume(std::string_view text);
/// `68 F`, `20 °C`, `293 K`.  A point on the scale, not below absolute zero.
[[nodiscard]] Temperature parse_temperature(std::string_view text);
/// `5 K`, `9 F` (nine Fahrenheit degrees, which are 5 K).  May be negative.
[[nodiscard]] TemperatureDifference parse_temperature_difference(std::string_view text);
/// `15 psi`, `3 kPa`, `1 bar`: above the air around; `15 lb` as gauge dials say.  Negative is
/// suction.
[[nodiscard]] GaugePressure parse_gauge_pressure(std::string_view text);
/// `101.3 kPa`, `29.9 inHg`, `14.7 psia`: above vacuum.  Not negative.
[[nodiscard]] AbsolutePressure parse_absolute_pressure(std::string_view text);
/// `1 in`, `5280 ft`, `1600 m`.  May be negative (an altitude below the sea).
[[nodiscard]] Length parse_length(std::string_view text);
/// `1.048`, `1.048 SG`, `12 P`, `12 °P`; Plato by the general fit of plato.hpp.  0.98 to 1.6.
[[nodiscard]] Gravity parse_gravity(std::string_view text);
/// `100 B`, `100 billion cells`, `2.5e11` (a bare number from a million up counts cells).
[[nodiscard]] Cells parse_cells(std::string_view text);
/// `3 kWh`, `12 MJ`, `10000 BTU`.  Not negative.
[[nodiscard]] Energy parse_energy(std::string_view text);

// Printing.  At least four significant digits, or all digits of a larger whole number; zeros at
// the end of a fraction are dropped.  ParseContext the text back with the parser of the same kind
// gives the quantity within half of the last digit kept.  Values must be finite.

[[nodiscard]] std::string print(Mass mass, System system);
[[nodiscard]] std::string print(Volume volume, System system);
[[nodiscard]] std::string print(Temperature temperature, System system);
[[nodiscard]] std::string print(TemperatureDifference difference, System system);
[[nodiscard]] std::string print(GaugePressure pressure, System system);
[[nodiscard]] std::string print(AbsolutePressure pressure, System system);
[[nodiscard]] std::string print(Length length, System system);
[[nodiscard]] std::string print(Energy energy, System system);
/// "1.048": three decimals, a fourth if it is not zero.
[[nodiscard]] std::string print(Gravity gravity);
/// "12.5 °P"
[[nodiscard]] std::string print(Plato plato);
/// "250 B", "12 M".
[[nodiscard]] std::string print(Cells cells);

// The unit table, for documents and completion.

/// One unit a parser takes.
struct UnitRow {
    std::string_view symbol;               ///< as printed
    std::array<std::string_view, 7> names; ///< other spellings; unused places are empty
    double canonical_per_unit = 1.0;       ///< in the canonical unit of quantity.hpp
    bool metric = false;                   ///< in which systems it is at home
    bool us = false;
    bool imperial = false;
    double zero_at = 0.0; ///< on a temperature scale, its reading at 0 C; otherwise 0
};

/// The units of one kind of quantity.
struct UnitTable {
    std::string_view kind;      ///< "mass", "volume", ...
    std::string_view canonical; ///< symbol of the canonical unit
    std::string_view examples;  ///< for a hint: "4 oz, 113 g"
    std::span<const UnitRow> rows;
};

/// Every table; those of gravity and of cells too.
[[nodiscard]] std::span<const UnitTable> unit_tables() noexcept;

/// The table of a kind; throws std::out_of_range for a kind that is not in unit_tables().
[[nodiscard]] const UnitTable& unit_table(std::string_view kind);

} // namespace barmkeep::brewing
