#include "daemon/ledger/limits.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

[[noreturn]] void refuse_amount(const Amount& amount, std::string_view must,
                                std::string_view pointer) {
    throw Error(
        ErrorKind::params, "out_of_range",
        fmt::format("The amount {} is not possible here; it must {}.", to_text(amount), must),
        "Give an amount such as 1.5 kg, 4 oz or 12.", pointer);
}

} // namespace

Amount positive(const AmountGiven& given, Measure measure, std::string_view pointer) {
    const Amount amount = given.as(measure, pointer);
    if (amount.steps <= 0)
        refuse_amount(amount, "be above zero", pointer);
    return amount;
}

Amount not_negative(const AmountGiven& given, Measure measure, std::string_view pointer) {
    const Amount amount = given.as(measure, pointer);
    if (amount.steps < 0)
        refuse_amount(amount, "not be negative", pointer);
    return amount;
}

void check_money(Money money, std::string_view pointer) {
    if (money >= Money{} && money <= money_max)
        return;
    throw Error(ErrorKind::params, "out_of_range",
                fmt::format("The sum {} is out of range: it must be from 0 to {}.", to_text(money),
                            to_text(money_max)),
                "Check the sum.", pointer);
}

std::int64_t add_checked(std::int64_t a, std::int64_t b) {
    std::int64_t sum = 0;
    if (__builtin_add_overflow(a, b, &sum))
        throw Error(ErrorKind::conflict, "sum_too_large", "A sum is too large to be stored.",
                    "Look for an entry with a mistyped amount with: barm entry list");
    return sum;
}

Money add_checked(Money a, Money b) {
    return {add_checked(a.millionths, b.millionths)};
}

Date day_or_today(const View& view, const std::optional<Date>& day, std::string_view pointer) {
    const Date today = view.today();
    if (!day)
        return today;
    if (*day > plus_days(today, 1))
        throw Error(ErrorKind::params, "day_ahead",
                    fmt::format("The day {} is in the future; today is {} in the cellar.",
                                to_text(*day), to_text(today)),
                    "Check the date. If it is right, check the time zone with: barm cellar show",
                    pointer);
    return *day;
}

void check_past(const View& view, const std::optional<Date>& day, std::string_view pointer,
                std::string_view what) {
    if (!day || *day <= view.today())
        return;
    throw Error(ErrorKind::params, "day_ahead",
                fmt::format("It cannot have been {} on {}: that day is in the future.", what,
                            to_text(*day)),
                "Check the date. If it is right, check the time zone with: barm cellar show",
                pointer);
}

void check_dates(const LotDates& dates, std::string_view pointer) {
    const auto check = [&](const std::optional<Date>& made, std::string_view what) {
        if (!dates.best_by || !made || *made <= *dates.best_by)
            return;
        throw Error(ErrorKind::params, "best_by_before",
                    fmt::format("The best-by day {} is before the day it was {}, {}.",
                                to_text(*dates.best_by), what, to_text(*made)),
                    "Check both dates.", pointer);
    };
    check(dates.canned, "canned");
    check(dates.packed, "packed");
    check(dates.bought, "bought");
}

} // namespace barmkeep::ledger
