// The stock of a good compared with its reorder point, and the reminder that follows.
//
// A good is low if its available amount (as the core computes it), less what brew days need beyond
// their reservations, is at or below the reorder point.  If its stock, reserved or not, is there
// today, the restock is due today.  Otherwise it is due before the first brew day whose stock, less
// all that was taken until then, is at or below the reorder point: by the lead time, or at least by
// one day.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/reorder/messages.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/reminder.hpp"

#include <span>

namespace barmkeep::reorder {

/// What the comparison needs of the cellar.
struct Inventory {
    Date today;
    std::vector<contract::Shelf> shelves;
    std::vector<contract::Good> goods;
    std::vector<contract::Brew> brews;               ///< planned ones
    contract::Units units = contract::Units::metric; ///< in which texts are written
};

/// The good of that name, in its own spelling or another case; null if there is none.
[[nodiscard]] const contract::Good* find_good(std::span<const contract::Good> goods,
                                              const std::string& name);

/// The reorder point that a request asks for.
///
/// `order_up_to` left out is a package above the reorder point, or a piece, or twice the reorder
/// point. Throws Error(not_found) for an unknown good (with the nearest name), Error(params) for
/// amounts of another measure, negative ones, or an `order_up_to` that is not above the reorder
/// point.
[[nodiscard]] ReorderPoint point_of(const ReorderSet::Params& params,
                                    std::span<const contract::Good> goods);

/// If the good is gone, the status is not low and its note says so.
[[nodiscard]] GoodStatus status_of(const ReorderPoint& point, const Inventory& inventory);

/// The plugin's collection, and what a link to one of its records leads to.
inline constexpr std::string_view collection = "point";
inline constexpr std::string_view link_target = "reorder.point";

/// The name of a good's reminder.  Nothing parses it.
[[nodiscard]] std::string reminder_name(std::string_view good);

/// Why the plugin's reminders are there.
inline constexpr std::string_view cause = "low";

/// The reminder of a good that is low, about its reorder point (a record, by its number) and the
/// brew day that brings it there.  It keeps the due day of the reminder before it if that is
/// earlier, so that the day does not move on with each day.  If that reminder was done and the
/// figures have changed since, the due day is a new one.  REQUIRES: `status.low`.
[[nodiscard]] contract::ReminderPost::Params
reminder_of(const GoodStatus& status, std::int64_t point, const contract::Reminder* before);

/// The reorder point that a reminder is about, if it is one of this plugin's.
[[nodiscard]] std::optional<std::int64_t> point_about(const contract::Reminder& reminder);

} // namespace barmkeep::reorder
