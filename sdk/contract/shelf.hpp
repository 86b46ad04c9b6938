// What is stock, and in which order it is taken: the one place that the ledger and every plugin
// ask.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/lot.hpp"

#include <algorithm>
#include <tuple>

namespace barmkeep::contract {

/// How a lot stands on a day.
enum class Standing {
    stock,   ///< may be taken without being named
    past,    ///< sealed food past its best by: taken only when its lot is named
    held,    ///< on hold
    emptied, ///< nothing left
};

[[nodiscard]] inline bool is_past_best_by(const Lot& lot, Date day) {
    return is_sealed_food(lot.category) && lot.best_by && *lot.best_by < day;
}

[[nodiscard]] inline Standing standing_on(const Lot& lot, Date day) {
    if (!lot.holds.empty() || (is_sealed_food(lot.category) && lot.kept != Keeping::shelf))
        return Standing::held;
    if (is_past_best_by(lot, day))
        return Standing::past;
    return lot.on_hand.steps > 0 ? Standing::stock : Standing::emptied;
}

/// What can be taken on a day without naming the lot: on hand, less what brew days have reserved.
[[nodiscard]] inline Amount available_on(const Lot& lot, Date day) {
    const bool is_stock = standing_on(lot, day) == Standing::stock;
    return {is_stock ? lot.on_hand.steps - lot.reserved.steps : 0, lot.on_hand.measure};
}

/// Whether a lot that never becomes shelf stock may still be used, named and boiled first: the
/// record of its run put it into the refrigerator or freezer, and its days there are not over.  A
/// hold that somebody set later, without such a record, forbids even that.
[[nodiscard]] inline bool is_usable_chilled(const Lot& lot, Date day) {
    const auto is_record = [](const Link& link) {
        return link.to.find('.') != std::string::npos;
    };
    const auto is_final = [&](const Hold& hold) {
        return (hold.kind == HoldKind::seal_failed || hold.kind == HoldKind::deviation_known) &&
               std::any_of(hold.about.begin(), hold.about.end(), is_record);
    };
    return lot.kept != Keeping::shelf && lot.best_by && *lot.best_by >= day &&
           std::all_of(lot.holds.begin(), lot.holds.end(), is_final);
}

/// Whether `a` is taken before `b`: first expired, first out; lots without a best by come last,
/// then the older goes first, then the lower number.
[[nodiscard]] inline bool is_taken_before(const Lot& a, const Lot& b) {
    constexpr Date never{std::chrono::year{9999}, std::chrono::month{12}, std::chrono::day{31}};
    const auto rank = [&](const Lot& lot) {
        const auto made = lot.packed ? lot.packed : lot.canned ? lot.canned : lot.bought;
        return std::tuple{lot.best_by.value_or(never), made.value_or(never), lot.code.number()};
    };
    return rank(a) < rank(b);
}

} // namespace barmkeep::contract
