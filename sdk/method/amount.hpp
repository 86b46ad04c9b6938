// An exact amount of a good, and what a person writes for one.
#pragma once

#include "sdk/brewing/quantity.hpp"
#include "sdk/method/field.hpp"

#include <compare>
#include <cstdint>
#include <string>

namespace barmkeep {

/// How a good is measured; each good has one measure for ever.
enum class Measure {
    mass,   ///< kept in integer milligrams
    volume, ///< kept in integer microlitres
    pieces, ///< kept as a count
};
constexpr auto enum_names(Measure) {
    return std::array{EnumName<Measure>{Measure::mass, "mass"},
                      EnumName<Measure>{Measure::volume, "volume"},
                      EnumName<Measure>{Measure::pieces, "pieces"}};
}

/// The unit an amount has on the wire: "g", "L" or "pieces".
[[nodiscard]] std::string_view wire_unit(Measure measure) noexcept;
/// Ledger steps in one wire unit: 1000 mg a gram, 1,000,000 uL a litre, 1.
[[nodiscard]] std::int64_t steps_per_wire_unit(Measure measure) noexcept;

/// What the ledger counts with: whole steps of the good's measure.  On the wire an object,
/// `{"quantity": 113.398, "unit": "g"}`.
struct Amount {
    std::int64_t steps = 0;
    Measure measure = Measure::pieces;

    bool operator==(const Amount&) const = default;
    [[nodiscard]] double in_wire_unit() const {
        return static_cast<double>(steps) / static_cast<double>(steps_per_wire_unit(measure));
    }
};

[[nodiscard]] Amount amount_of(brewing::Mass mass);
[[nodiscard]] Amount amount_of(brewing::Volume volume);
[[nodiscard]] Amount pieces(std::int64_t count);
/// REQUIRES: the measure fits.
[[nodiscard]] brewing::Mass as_mass(const Amount& amount);
[[nodiscard]] brewing::Volume as_volume(const Amount& amount);

/// "113.398 g", "1 L", "12".
[[nodiscard]] std::string to_text(const Amount& amount);

/// What came in for an amount before the good, and so the measure, is known: a number in the
/// good's wire unit, a text with a unit (`4 oz`), or an Amount's own object.
struct AmountGiven {
    json::value given;

    AmountGiven() = default;
    AmountGiven(const Amount& amount); // NOLINT: an exact amount is always one that may be given
    /// The exact amount for a good of this measure, rounded to the ledger's step.
    /// Throws Error(params) at `pointer` for a unit of another kind, an absurd size (beyond
    /// 10^12 steps) or a fraction of a piece.
    [[nodiscard]] Amount as(Measure measure, std::string_view pointer) const;
};

template <>
struct Codec<Amount> {
    static std::optional<Amount> read(const json::value& value, ParseContext& reading);
    static json::value write(const Amount& value);
    static json::object schema(Direction direction);
};

template <>
struct Codec<AmountGiven> {
    static std::optional<AmountGiven> read(const json::value& value, ParseContext& reading);
    static json::value write(const AmountGiven& value) { return value.given; }
    static json::object schema(Direction direction);
};

extern template struct detail::MemberOperations<Amount>;
extern template struct detail::MemberOperations<std::optional<Amount>>;
extern template struct detail::MemberOperations<AmountGiven>;
extern template struct detail::MemberOperations<std::optional<AmountGiven>>;

} // namespace barmkeep
