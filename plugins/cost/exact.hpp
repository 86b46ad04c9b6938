// Exact shares of money.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/method/money.hpp"

#include <cstdint>
#include <vector>

namespace barmkeep::cost {

/// `money * times / per`, rounded to the nearest millionth (halves away from zero), computed whole.
/// As share_of, but `times` may be above `per`.
/// Throws Error(conflict), "sum_too_large", beyond what money holds.  REQUIRES: times >= 0, per >
/// 0.
[[nodiscard]] Money scaled(Money money, std::int64_t times, std::int64_t per);

/// Sum; throws as scaled().
[[nodiscard]] Money sum(Money a, Money b);

/// Whole numbers multiplied and added; throw as scaled() beyond what 64 bits hold.
[[nodiscard]] std::int64_t product(std::int64_t a, std::int64_t b);
[[nodiscard]] std::int64_t total(std::int64_t a, std::int64_t b);

/// Splits `money` in proportion to `weights`, so that the parts add up to it exactly: each is the
/// difference of two rounded running shares.  All nothing if the weights add up to nothing.
/// REQUIRES: no weight is negative.
[[nodiscard]] std::vector<Money> split(Money money, const std::vector<std::int64_t>& weights);

} // namespace barmkeep::cost
