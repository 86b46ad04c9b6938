// The typed values that stand in the sentences and cells of a sheet.
//
// A sheet never holds a number as prose: "add 880 mL" is the word "add" and a volume.  The writer
// prints the volume in the reader's units, a sum with the digits of its currency, a day as
// "tomorrow" where it is tomorrow.  So one sheet serves every reader.
//
// In JSON a typed value is an object with one member, whose name says what it is:
//
//     {"volume": 0.88}                                    litres
//     {"cells": {"low": 18, "likely": 72, "high": 75}}    billions, a range
//     {"count": {"number": 2, "one": "jar", "many": "jars"}}
//     {"money": {"sum": "18.50", "currency": "EUR"}}
//
// Thread safety: values; no shared state.
#pragma once

#include "sdk/method/amount.hpp"
#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

#include <optional>
#include <string>
#include <variant>

namespace barmkeep::sheet {

/// What a quantity measures, and so the unit of its number and of its printed form.
enum class QuantityKind {
    mass,                   ///< grams
    volume,                 ///< litres
    temperature,            ///< degrees Celsius, a point on the scale
    temperature_difference, ///< kelvins
    pressure,               ///< kilopascals above the air around: what a gauge shows
    absolute_pressure,      ///< kilopascals above vacuum
    length,                 ///< metres: a headspace, a diameter
    altitude,               ///< metres above the sea
    gravity,                ///< specific gravity, 1.048
    energy,                 ///< kilojoules
    cells,                  ///< billions (10^9) of cells
    duration,               ///< seconds
    share,                  ///< 0 to 1, printed in per cent
    number,                 ///< a number without a unit; for the axis of a chart and for ranges
};
constexpr auto enum_names(QuantityKind) {
    using enum QuantityKind;
    using N = EnumName<QuantityKind>;
    return std::array{N{mass, "mass"},
                      N{volume, "volume"},
                      N{temperature, "temperature"},
                      N{temperature_difference, "temperature_difference"},
                      N{pressure, "pressure"},
                      N{absolute_pressure, "absolute_pressure"},
                      N{length, "length"},
                      N{altitude, "altitude"},
                      N{gravity, "gravity"},
                      N{energy, "energy"},
                      N{cells, "cells"},
                      N{duration, "duration"},
                      N{share, "share"},
                      N{number, "number"}};
}

/// A measured or computed quantity.  It is printed with the figures it is worth, so give it
/// unrounded.  What the ledger counts is an Amount, which is printed as it was typed.
struct Quantity {
    QuantityKind kind = QuantityKind::number;
    double number = 0; ///< in the unit of the kind; finite
    bool operator==(const Quantity&) const = default;
};

/// A quantity known as a range.  REQUIRES: low <= likely <= high, all finite.
struct QuantityRange {
    QuantityKind kind = QuantityKind::number;
    double low = 0;
    std::optional<double> likely{}; ///< nothing: only the two ends are known
    double high = 0;
    bool operator==(const QuantityRange&) const = default;
};

/// A sum of money.  Without a currency it is in the cellar's, which the reader knows.
struct Sum {
    Money sum{};
    std::string currency{}; ///< ISO 4217 code, "EUR", or empty
    bool operator==(const Sum&) const = default;
    static FieldList fields(auto) {
        return {
            field<&Sum::sum>("The sum, as a decimal text."),
            field<&Sum::currency>("ISO 4217 code. Empty: the currency of the cellar.").defaulted()};
    }
};

/// A count with its noun in singular and plural: "1 jar", "3 jars".
struct Count {
    std::int64_t number = 0;
    std::string one{};
    std::string many{};
    bool operator==(const Count&) const = default;
    static FieldList fields(auto) {
        return {field<&Count::number>("How many."), field<&Count::one>("The noun for one."),
                field<&Count::many>("The noun for any other number.")};
    }
};

/// A plain number with so many decimals: a ratio, a pH.  For anything with a unit there is a kind.
struct Number {
    double number = 0;
    std::int64_t decimals = 0; ///< 0 to 6
    bool operator==(const Number&) const = default;
    static FieldList fields(auto) {
        return {field<&Number::number>("The number."),
                field<&Number::decimals>("Decimals to print.").defaulted()};
    }
};

/// A call that a sentence names.  The terminal writes the `barm` command for it; others write the
/// method.
struct Command {
    std::string method{};
    json::object params{};
    bool operator==(const Command&) const = default;
    static FieldList fields(auto) {
        return {field<&Command::method>("Name of the method."),
                field<&Command::params>("Its parameters.").defaulted()};
    }
};

/// The key of a published source; it is printed in brackets.
struct Source {
    std::string key{};
    bool operator==(const Source&) const = default;
};

/// A typed value that a newer program wrote and this one does not know.  It is kept as it came; a
/// text or number in it is printed as it is, anything else is not printed.
struct UnknownValue {
    json::object given{};
    bool operator==(const UnknownValue&) const = default;
};

/// A plain text or one typed value.
using Value = std::variant<std::string, Amount, Quantity, QuantityRange, Sum, Date, Instant, Count,
                           LotCode, Number, Command, Source, UnknownValue>;

} // namespace barmkeep::sheet
