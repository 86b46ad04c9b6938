// How a good stands against its reorder point, and the reminder that follows.
//
// A good is low when what is free to use (as the core computes it), less what brew days need and
// could not reserve, is at its reorder point or below.  Two days matter then: if what is stock,
// reserved or not, is at the reorder point already, it is due today; otherwise the first brew day
// is found on which the stock of that day, less all that was taken until then, is at the reorder
// point, and it is due before that, by the lead time or at least a day.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/reorder/messages.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/reminder.hpp"

#include <span>

namespace barmkeep::reorder {

/// The cellar as a reorder point sees it.
struct Scene {
    Date today;
    std::vector<contract::Shelf> shelves;
    std::vector<contract::Good> goods;
    std::vector<contract::Brew> brews;               ///< planned ones
    contract::Units units = contract::Units::metric; ///< that its people read
};

/// The good of that name, in its own spelling or another case; null if there is none.
[[nodiscard]] const contract::Good* find_good(std::span<const contract::Good> goods,
                                              const std::string& name);

/// The reorder point that a request asks for.
///
/// `order_up_to` left out is a package above the reorder point, or a piece, or twice the reorder
/// point. Throws Error(not_found) for an unknown good (with the nearest name), Error(params) for
/// amounts of another measure, below zero, or an `order_up_to` that is not above the reorder point.
[[nodiscard]] ReorderPoint point_of(const ReorderSet::Params& params,
                                    std::span<const contract::Good> goods);

/// A reorder point whose good is gone is not low, and its detail says so.
[[nodiscard]] Standing standing_of(const ReorderPoint& point, const Scene& scene);

/// The plugin's collection, and what a link to one of its records leads to.
inline constexpr std::string_view collection = "point";
inline constexpr std::string_view link_target = "reorder.point";

/// The name of a good's reminder; nothing is read back out of it.
[[nodiscard]] std::string reminder_name(std::string_view good);

/// Why the plugin's reminders are there.
inline constexpr std::string_view cause = "low";

/// The reminder of a good that is low, about its reorder point (a record, by its number) and the
/// brew day that takes it there.  The due day of the one that is there already is kept if it is
/// earlier, so that a reminder does not become younger day by day; one that was done and whose
/// figures have changed since begins anew.  REQUIRES: `standing.low`.
[[nodiscard]] contract::ReminderPost::Params
reminder_of(const Standing& standing, std::int64_t point, const contract::Reminder* before);

/// The reorder point that a reminder is about, if it is one of this plugin's.
[[nodiscard]] std::optional<std::int64_t> point_about(const contract::Reminder& reminder);

} // namespace barmkeep::reorder
