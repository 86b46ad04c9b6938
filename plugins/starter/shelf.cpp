#include "plugins/starter/shelf.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using contract::Standing;

std::int64_t steps_reserved(const contract::Lot& lot, const contract::Brew* brew) {
    std::int64_t steps = 0;
    if (brew != nullptr)
        for (const auto& part : brew->reserved)
            if (part.lot == lot.code)
                steps += part.amount.steps;
    return steps;
}

bool may_be_taken(const contract::Lot& lot, const Taking& taking, bool is_named) {
    switch (contract::standing_on(lot, taking.day)) {
    case Standing::stock:
        return true;
    case Standing::past:
        return is_named;
    case Standing::held:
        return is_named && taking.is_boiled && contract::is_usable_chilled(lot, taking.day);
    case Standing::emptied:
        break;
    }
    return false;
}

} // namespace

Amount available(const contract::Lot& lot, const Taking& taking, bool is_named) {
    Amount amount{0, lot.on_hand.measure};
    if (may_be_taken(lot, taking, is_named))
        amount.steps = lot.on_hand.steps - lot.reserved.steps + steps_reserved(lot, taking.brew);
    return amount;
}

Amount reserved_of(const contract::Lot& lot, const Taking& taking) {
    const bool is_stock = contract::standing_on(lot, taking.day) == Standing::stock;
    return {is_stock ? steps_reserved(lot, taking.brew) : 0, lot.on_hand.measure};
}

std::string why_held(const contract::Lot& lot) {
    if (lot.holds.empty())
        return fmt::format("it is kept in the {}", to_string(lot.kept));
    std::string why;
    for (const auto& hold : lot.holds)
        why += fmt::format("{}{} ({})", why.empty() ? "" : "; ", contract::meaning_of(hold.kind),
                           hold.note);
    return why;
}

void add_releases(std::vector<contract::UsedDespite>& despite, const contract::Lot& lot) {
    const auto is_of_lot = [&](const contract::UsedDespite& one) {
        return one.lot == lot.code;
    };
    if (std::ranges::any_of(despite, is_of_lot))
        return;
    for (const auto& hold : lot.released)
        despite.push_back({lot.code, hold});
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
                                   contract::Category category) {
    std::vector<contract::Lot> lots;
    for (const auto& shelf : shelves)
        if (shelf.category == category)
            lots.insert(lots.end(), shelf.lots.begin(), shelf.lots.end());
    std::ranges::sort(lots, contract::is_taken_before);
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
                    fmt::format("No lot or good on the shelf is called '{}'.", *what),
                    "See the codes of the lots and the names of the goods: barm stock list",
                    pointer);
    std::vector<contract::Lot> found;
    for (const auto& lot : lots)
        if (meant(lot) && available(lot, taking, what && is_code_of(lot, *what)).steps > 0 &&
            (found.empty() || found.front().good == lot.good))
            found.push_back(lot);
    return found;
}

} // namespace barmkeep::starter
