#include "plugins/starter/shelf.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <tuple>

namespace barmkeep::starter {
namespace {

constexpr Date never{std::chrono::year{9999}, std::chrono::month{12}, std::chrono::day{31}};

bool expires_before(const contract::Lot& a, const contract::Lot& b) {
    return std::tuple{a.best_by.value_or(never), a.code.number()} <
           std::tuple{b.best_by.value_or(never), b.code.number()};
}

} // namespace

Amount available(const contract::Lot& lot, const Taking& taking, bool is_named) {
    Amount amount{0, lot.free.measure};
    if (lot.hold || (contract::is_past_best_by(lot, taking.today) && !is_named))
        return amount;
    amount.steps = lot.on_hand.steps - lot.set_aside.steps;
    if (taking.brew != nullptr)
        for (const auto& part : taking.brew->set_aside)
            if (part.lot == lot.code)
                amount.steps += part.amount.steps;
    return amount;
}

bool is_code_of(const contract::Lot& lot, const std::string& text) {
    try {
        return parse_lot_code(text) == lot.code;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

bool is_meant(const contract::Lot& lot, const std::string& what) {
    return lot.good == what || is_code_of(lot, what);
}

std::vector<contract::Lot> lots_of(std::span<const contract::Shelf> shelves,
                                   contract::GoodClass goods) {
    std::vector<contract::Lot> lots;
    for (const auto& shelf : shelves)
        if (shelf.goods == goods)
            lots.insert(lots.end(), shelf.lots.begin(), shelf.lots.end());
    std::ranges::sort(lots, expires_before);
    return lots;
}

std::vector<contract::Lot> to_take_from(const std::vector<contract::Lot>& lots,
                                        const std::optional<std::string>& what,
                                        const Taking& taking, std::string_view pointer) {
    const auto meant = [&](const contract::Lot& lot) {
        return !what || is_meant(lot, *what);
    };
    if (what && std::ranges::none_of(lots, meant))
        throw Error(ErrorKind::not_found, "not_on_the_shelf",
                    fmt::format("There is nothing on the shelf that '{}' means here.", *what),
                    "Give a lot's code or a good's name; see what there is: barm stock list",
                    pointer);
    std::vector<contract::Lot> found;
    for (const auto& lot : lots)
        if (meant(lot) && available(lot, taking, what && is_code_of(lot, *what)).steps > 0 &&
            (found.empty() || found.front().good == lot.good))
            found.push_back(lot);
    return found;
}

} // namespace barmkeep::starter
