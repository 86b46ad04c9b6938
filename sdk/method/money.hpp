// Money, exact to the millionth of the cellar's currency.
#pragma once

#include "sdk/method/field.hpp"

#include <compare>
#include <cstdint>
#include <string>

namespace barmkeep {

/// An amount of the cellar's one currency, in integer millionths.  On the wire it is a decimal
/// string ("18.50"), for a JSON number would be read as a double by most programs.
///
/// Range: up to nine million million either way; sums are checked by the ledger.
struct Money {
    std::int64_t millionths = 0;

    constexpr auto operator<=>(const Money&) const = default;
    friend constexpr Money operator+(Money a, Money b) { return {a.millionths + b.millionths}; }
    friend constexpr Money operator-(Money a, Money b) { return {a.millionths - b.millionths}; }
    friend constexpr Money operator-(Money a) { return {-a.millionths}; }
    [[nodiscard]] constexpr double units() const { return static_cast<double>(millionths) / 1e6; }
};

/// `whole * part / of`, rounded to the nearest millionth (halves away from zero), without
/// overflow on the way.  With part == of it is `whole` itself, so that taking the last of a lot
/// takes all of its value.  REQUIRES: of > 0, 0 <= part <= of.
[[nodiscard]] Money share_of(Money whole, std::int64_t part, std::int64_t of);

/// "18.50", "0.006125", "-3.00": at least two decimals, at most six.
[[nodiscard]] std::string to_text(Money money);

/// Reads a decimal with a point and at most six decimals.  Throws std::invalid_argument that says
/// what to write instead.
[[nodiscard]] Money parse_money(std::string_view text);

template <>
struct Codec<Money> {
    static std::optional<Money> read(const json::value& value, ParseContext& reading);
    static json::value write(Money value) { return json::value(to_text(value)); }
    static json::object schema(Direction direction);
    static double measure(Money value) { return value.units(); }
};

extern template struct detail::MemberOperations<Money>;
extern template struct detail::MemberOperations<std::optional<Money>>;

} // namespace barmkeep
