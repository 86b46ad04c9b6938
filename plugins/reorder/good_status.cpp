#include "plugins/reorder/good_status.hpp"

#include "sdk/brewing/units.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <cassert>
#include <fmt/format.h>

namespace barmkeep::reorder {
namespace {

using contract::Brew;
using contract::Category;
using contract::Good;

bool same_letters(std::string_view a, std::string_view b) {
    const auto lower = [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    };
    return std::ranges::equal(a, b, {}, lower, lower);
}

const Good& require_good(std::span<const Good> goods, const std::string& name) {
    if (const auto* good = find_good(goods, name))
        return *good;
    std::vector<std::string> known;
    for (const auto& one : goods)
        known.push_back(one.name);
    const auto near = nearest(name, known);
    throw Error(ErrorKind::not_found, "good_unknown", fmt::format("There is no good '{}'.", name),
                near ? fmt::format("Did you mean '{}'?", *near)
                     : fmt::format("List the goods with: barm good list\nAdd one with: barm good "
                                   "add '{}'",
                                   name),
                "/good");
}

Amount usual_order_up_to(const Amount& reorder_point, const Good& good) {
    if (good.package)
        return {reorder_point.steps + good.package->steps, reorder_point.measure};
    if (good.measure == Measure::pieces)
        return {reorder_point.steps + 1, reorder_point.measure};
    return {reorder_point.steps * 2, reorder_point.measure};
}

/// What a brew day needs of a good and could not reserve.
std::int64_t unmet(const Brew& brew, const std::string& good) {
    std::int64_t steps = 0;
    for (const auto& need : brew.needs)
        if (need.good == good)
            steps += std::max<std::int64_t>(0, need.amount.steps - need.reserved.steps);
    return steps;
}

bool takes(const Brew& brew, const std::string& good) {
    const auto is_of_good = [&](const auto& one) {
        return one.good == good;
    };
    return std::ranges::any_of(brew.reserved, is_of_good) ||
           std::ranges::any_of(brew.needs, is_of_good);
}

/// The planned brew days that take a good, next first.
std::vector<const Brew*> brews_taking(const std::string& good, std::span<const Brew> brews) {
    std::vector<const Brew*> found;
    for (const auto& brew : brews)
        if (brew.state == contract::BrewState::planned && takes(brew, good))
            found.push_back(&brew);
    std::ranges::sort(found, [](const Brew* a, const Brew* b) {
        return std::pair{a->day, a->number} < std::pair{b->day, b->number};
    });
    return found;
}

/// The stock of a day, reserved or not, less what the brew days until then take.  A reservation of
/// a lot that is no stock by then takes nothing off the rest.
std::int64_t left_on(Date day, const contract::Shelf* shelf, const std::string& good,
                     std::span<const Brew* const> taken) {
    std::int64_t left = 0;
    if (shelf != nullptr)
        for (const auto& lot : shelf->lots) {
            if (contract::standing_on(lot, day) != contract::Standing::stock)
                continue;
            left += lot.on_hand.steps;
            for (const Brew* brew : taken)
                for (const auto& part : brew->reserved)
                    if (part.lot == lot.code)
                        left -= part.amount.steps;
        }
    for (const Brew* brew : taken)
        left -= unmet(*brew, good);
    return left;
}

/// The brew day that brings the stock to the reorder point; null if it is there today.
const Brew* brew_that_takes(const ReorderPoint& point, const contract::Shelf* shelf,
                            const Inventory& inventory) {
    if (left_on(inventory.today, shelf, point.good, {}) <= point.reorder_point.steps)
        return nullptr;
    const auto brews = brews_taking(point.good, inventory.brews);
    for (std::size_t i = 0; i < brews.size(); ++i)
        if (left_on(brews[i]->day, shelf, point.good, std::span(brews).first(i + 1)) <=
            point.reorder_point.steps)
            return brews[i];
    return nullptr;
}

void set_due(GoodStatus& status, const ReorderPoint& point, const contract::Shelf* shelf,
             const Inventory& inventory) {
    status.due = inventory.today;
    if (const Brew* brew = brew_that_takes(point, shelf, inventory)) {
        status.brew = brew->number;
        const auto lead = static_cast<int>(std::max<std::int64_t>(1, point.lead_days));
        status.due = std::max(inventory.today, plus_days(brew->day, -lead));
    }
}

/// In the cellar's units.
std::string shown(const Amount& amount, const Inventory& inventory) {
    const auto system =
        inventory.units == contract::Units::us ? brewing::System::us : brewing::System::metric;
    switch (amount.measure) {
    case Measure::mass:
        return brewing::print(as_mass(amount), system);
    case Measure::volume:
        return brewing::print(as_volume(amount), system);
    case Measure::pieces:
        break;
    }
    return to_text(amount);
}

std::string title_of(const GoodStatus& status, const Inventory& inventory) {
    const auto missing = shown(*status.missing, inventory);
    if (status.category == Category::concentrate)
        return fmt::format("Can {} {} of {}", missing, status.missing->steps == 1 ? "jar" : "jars",
                           status.good);
    if (!status.packages)
        return fmt::format("Buy {} of {}", missing, status.good);
    return fmt::format("Buy {} {} of {} ({} each)", *status.packages,
                       *status.packages == 1 ? "package" : "packages", status.good,
                       shown(*status.package, inventory));
}

std::string note_of(const GoodStatus& status, const ReorderPoint& point,
                    const Inventory& inventory) {
    auto note = fmt::format(
        "Available: {}. Reorder point: {}. Restock {} to reach the order-up-to level of {}.",
        shown(status.available, inventory), shown(point.reorder_point, inventory),
        shown(*status.missing, inventory), shown(point.order_up_to, inventory));
    if (status.reserved.steps > 0)
        note += fmt::format(" Reserved: {}.", shown(status.reserved, inventory));
    if (status.needed.steps > 0)
        note += fmt::format(" Brew days need {} more.", shown(status.needed, inventory));
    if (status.brew)
        note += fmt::format(" Brew day {} brings it to the reorder point.", *status.brew);
    return note;
}

} // namespace

const Good* find_good(std::span<const Good> goods, const std::string& name) {
    const auto exact = std::ranges::find(goods, name, &Good::name);
    if (exact != goods.end())
        return &*exact;
    const auto alike = std::ranges::find_if(
        goods, [&](const Good& good) { return same_letters(good.name, name); });
    return alike == goods.end() ? nullptr : &*alike;
}

ReorderPoint point_of(const ReorderSet::Params& params, std::span<const Good> goods) {
    const Good& good = require_good(goods, params.good);
    ReorderPoint point;
    point.good = good.name;
    point.reorder_point = params.reorder_point.as(good.measure, "/reorder_point");
    if (point.reorder_point.steps < 0)
        throw Error(ErrorKind::params, "out_of_range",
                    fmt::format("The reorder point {} is negative; the least is 0.",
                                to_text(point.reorder_point)),
                    "Give 0 to get a reminder when nothing is left.", "/reorder_point");
    point.order_up_to = params.order_up_to ? params.order_up_to->as(good.measure, "/order_up_to")
                                           : usual_order_up_to(point.reorder_point, good);
    if (point.order_up_to.steps <= point.reorder_point.steps)
        throw Error(
            ErrorKind::params, "out_of_range",
            fmt::format("The order-up-to level {} of {} is not above its reorder point {}.",
                        to_text(point.order_up_to), good.name, to_text(point.reorder_point)),
            fmt::format("Give a level above {} with --order-up-to.", to_text(point.reorder_point)),
            "/order_up_to");
    point.lead_days = params.lead_days;
    return point;
}

GoodStatus status_of(const ReorderPoint& point, const Inventory& inventory) {
    GoodStatus status;
    status.good = point.good;
    status.reorder_point = point.reorder_point;
    status.order_up_to = point.order_up_to;
    status.available = status.reserved = status.needed = {0, point.reorder_point.measure};
    const auto good = std::ranges::find(inventory.goods, point.good, &Good::name);
    if (good == inventory.goods.end()) {
        status.note = fmt::format("No good has this name any more. If it was renamed, set a "
                                  "reorder point for the new name, and remove this one with: "
                                  "barm reorder remove '{}'",
                                  point.good);
        return status;
    }
    status.category = good->category;
    status.package = good->package;
    const auto found = std::ranges::find(inventory.shelves, point.good, &contract::Shelf::good);
    const contract::Shelf* shelf = found == inventory.shelves.end() ? nullptr : &*found;
    if (shelf != nullptr) {
        status.available = shelf->available;
        status.reserved = shelf->reserved;
    }
    for (const Brew* brew : brews_taking(point.good, inventory.brews))
        status.needed.steps += unmet(*brew, point.good);
    const std::int64_t left = status.available.steps - status.needed.steps;
    status.low = left <= point.reorder_point.steps;
    if (!status.low)
        return status;
    status.missing = {point.order_up_to.steps - left, point.order_up_to.measure};
    if (good->package && good->package->steps > 0 && good->category != Category::concentrate)
        status.packages = (status.missing->steps + good->package->steps - 1) / good->package->steps;
    set_due(status, point, shelf, inventory);
    status.title = title_of(status, inventory);
    status.note = note_of(status, point, inventory);
    return status;
}

std::string reminder_name(std::string_view good) {
    return fmt::format("reorder:{}", good);
}

contract::ReminderPost::Params reminder_of(const GoodStatus& status, std::int64_t point,
                                           const contract::Reminder* before) {
    assert(status.low && status.title && status.due);
    contract::ReminderPost::Params post;
    post.name = reminder_name(status.good);
    post.title = *status.title;
    post.note = status.note;
    post.due = *status.due;
    post.cause = cause;
    post.about = {{std::string(link_target), point}};
    if (status.brew)
        post.about.push_back({"brew", *status.brew});
    if (before == nullptr)
        return post;
    const bool same = before->title == post.title && before->note == post.note;
    if (same || before->state != contract::ReminderState::done)
        post.due = std::min(post.due, before->due);
    return post;
}

std::optional<std::int64_t> point_about(const contract::Reminder& reminder) {
    if (reminder.cause != cause)
        return std::nullopt;
    return contract::linked(reminder.about, link_target);
}

} // namespace barmkeep::reorder
