// Figures with units, rounded to what they are worth to this reader.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/reader.hpp"

namespace barmkeep::sheet {

/// A unit in which numbers of a kind are printed, and how they are rounded there.
struct Scale {
    std::string unit; ///< may be empty
    double per = 1;   ///< canonical units in one of it
    double zero = 0;  ///< its reading at the canonical zero: 32 for Fahrenheit
    int figures = 3;  ///< significant figures kept
    int decimals_max = 2;
    int decimals_min = 0;

    [[nodiscard]] double of(double canonical) const { return canonical / per + zero; }
    [[nodiscard]] double back(double number) const { return (number - zero) * per; }
};

/// The scale for numbers about as large as this one (in the unit of the kind).
[[nodiscard]] Scale scale_of(QuantityKind kind, double size, const Reader& reader);
/// A number already in a scale's unit, as text without the unit.
[[nodiscard]] std::string rounded_text(double number, const Scale& scale);
/// Decimals fixed, zeros at the end dropped down to `fewest`.
[[nodiscard]] std::string fixed_text(double number, int decimals, int fewest);

[[nodiscard]] std::string quantity_text(const Quantity& measured, const Reader& reader);
[[nodiscard]] std::string range_text(const QuantityRange& measured, const Reader& reader);
[[nodiscard]] std::string amount_text(const Amount& amount, const Reader& reader);
[[nodiscard]] std::string money_text(const Sum& sum, const Reader& reader);
/// Decimals of a currency by ISO 4217: 2 for one that is not known.
[[nodiscard]] int currency_digits(std::string_view code);

} // namespace barmkeep::sheet
