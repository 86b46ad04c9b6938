// What the ledger takes: amounts, sums and days within reason.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/good.hpp"

namespace barmkeep::ledger {

/// The most that one purchase or price may come to: a thousand million.  Sums of thousands of them
/// still fit an integer of millionths.
inline constexpr Money money_max{1'000'000'000LL * 1'000'000};

/// The exact amount for a measure; it must be above zero.  Throws Error(params) at `pointer`.
[[nodiscard]] Amount positive(const AmountGiven& given, Measure measure, std::string_view pointer);
/// The same, zero allowed.
[[nodiscard]] Amount not_negative(const AmountGiven& given, Measure measure,
                                  std::string_view pointer);
/// Throws Error(params) for a sum below zero or above `money_max`.
void check_money(Money money, std::string_view pointer);

/// Sums that say so when they would overflow.  Throw Error(conflict, "sum_too_large").
[[nodiscard]] std::int64_t add_checked(std::int64_t a, std::int64_t b);
[[nodiscard]] Money add_checked(Money a, Money b);

/// The day given, or today.  Throws Error(params, "day_ahead") for one later than tomorrow: a
/// person in another time zone may be a day ahead of the cellar, more is a slip of the pen.
[[nodiscard]] Date day_or_today(const View& view, const std::optional<Date>& day,
                                std::string_view pointer);
/// Throws Error(params, "day_ahead") for a day after today.
void check_past(const View& view, const std::optional<Date>& day, std::string_view pointer,
                std::string_view what);

/// The dates of one lot.
struct LotDates {
    std::optional<Date> bought;
    std::optional<Date> packed;
    std::optional<Date> canned;
    std::optional<Date> best_by;
};
/// Throws Error(params, "best_by_before") if it was to expire before it was made or bought.
void check_dates(const LotDates& dates, std::string_view pointer);

} // namespace barmkeep::ledger
