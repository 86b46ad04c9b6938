#include "plugins/cost/exact.hpp"

#include "sdk/method/error.hpp"

#include <cassert>
#include <limits>

namespace barmkeep::cost {
namespace {

__extension__ using Wide = __int128;

[[noreturn]] void too_large() {
    throw Error(ErrorKind::conflict, "sum_too_large", "A sum is too large to be computed.",
                "Look for a mistyped price or amount with: barm stock list");
}

Money narrowed(Wide millionths) {
    if (millionths > std::numeric_limits<std::int64_t>::max() ||
        millionths < std::numeric_limits<std::int64_t>::min())
        too_large();
    return {static_cast<std::int64_t>(millionths)};
}

} // namespace

Money scaled(Money money, std::int64_t times, std::int64_t per) {
    assert(times >= 0 && per > 0);
    const Wide product = static_cast<Wide>(money.millionths) * times;
    // Twice the product cannot overflow: the product has at most 126 bits.
    const Wide half = product < 0 ? -static_cast<Wide>(per) : static_cast<Wide>(per);
    return narrowed((product * 2 + half) / (static_cast<Wide>(per) * 2));
}

Money sum(Money a, Money b) {
    return narrowed(static_cast<Wide>(a.millionths) + b.millionths);
}

std::int64_t product(std::int64_t a, std::int64_t b) {
    std::int64_t result = 0;
    if (__builtin_mul_overflow(a, b, &result))
        too_large();
    return result;
}

std::int64_t total(std::int64_t a, std::int64_t b) {
    std::int64_t result = 0;
    if (__builtin_add_overflow(a, b, &result))
        too_large();
    return result;
}

std::vector<Money> split(Money money, const std::vector<std::int64_t>& weights) {
    std::vector<Money> parts;
    std::int64_t whole = 0;
    for (const auto weight : weights) {
        assert(weight >= 0);
        whole = total(whole, weight);
    }
    std::int64_t running = 0;
    Money given;
    for (const auto weight : weights) {
        running += weight;
        const Money until = whole == 0 ? Money{} : share_of(money, running, whole);
        parts.push_back(until - given);
        given = until;
    }
    return parts;
}

} // namespace barmkeep::cost
