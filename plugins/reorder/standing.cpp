#include "plugins/reorder/standing.hpp"

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
                     : "See what there is: barm good list; make it known: barm good add",
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

/// What is stock on a day, whoever it is reserved for, less what the brew days until then take.
/// What a brew day reserved of a lot that is no stock by then takes nothing off the rest.
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

/// The brew day that takes what is stock to the reorder point; null if it is there today.
const Brew* brew_that_takes(const ReorderPoint& point, const contract::Shelf* shelf,
                            const Scene& scene) {
    if (left_on(scene.today, shelf, point.good, {}) <= point.reorder_point.steps)
        return nullptr;
    const auto brews = brews_taking(point.good, scene.brews);
    for (std::size_t i = 0; i < brews.size(); ++i)
        if (left_on(brews[i]->day, shelf, point.good, std::span(brews).first(i + 1)) <=
            point.reorder_point.steps)
            return brews[i];
    return nullptr;
}

void set_due(Standing& standing, const ReorderPoint& point, const contract::Shelf* shelf,
             const Scene& scene) {
    standing.due = scene.today;
    if (const Brew* brew = brew_that_takes(point, shelf, scene)) {
        standing.brew = brew->number;
        const auto lead = static_cast<int>(std::max<std::int64_t>(1, point.lead_days));
        standing.due = std::max(scene.today, plus_days(brew->day, -lead));
    }
}

/// In the units the cellar's people read.
std::string shown(const Amount& amount, const Scene& scene) {
    const auto system =
        scene.units == contract::Units::us ? brewing::System::us : brewing::System::metric;
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

std::string title_of(const Standing& standing, const Scene& scene) {
    const auto missing = shown(*standing.missing, scene);
    if (standing.category == Category::concentrate)
        return fmt::format("Can again: {} {} of {}", missing,
                           standing.missing->steps == 1 ? "jar" : "jars", standing.good);
    if (!standing.packages)
        return fmt::format("Buy {} of {}", missing, standing.good);
    return fmt::format("Buy {} {} of {} ({} each)", *standing.packages,
                       *standing.packages == 1 ? "package" : "packages", standing.good,
                       shown(*standing.package, scene));
}

std::string note_of(const Standing& standing, const ReorderPoint& point, const Scene& scene) {
    auto detail = fmt::format("{} free, the reorder point is {}; {} brings it to {}.",
                              shown(standing.available, scene), shown(point.reorder_point, scene),
                              shown(*standing.missing, scene), shown(point.order_up_to, scene));
    if (standing.reserved.steps > 0)
        detail += fmt::format("  {} more is reserved.", shown(standing.reserved, scene));
    if (standing.needed.steps > 0)
        detail += fmt::format("  Brew days need {} beyond that.", shown(standing.needed, scene));
    if (standing.brew)
        detail += fmt::format("  Brew day {} takes it there.", *standing.brew);
    return detail;
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
        throw Error(ErrorKind::params, "out_of_range", "A reorder point cannot be below nothing.",
                    "Write 0 to be reminded when nothing is left.", "/reorder_point");
    point.order_up_to = params.order_up_to ? params.order_up_to->as(good.measure, "/order_up_to")
                                           : usual_order_up_to(point.reorder_point, good);
    if (point.order_up_to.steps <= point.reorder_point.steps)
        throw Error(ErrorKind::params, "out_of_range",
                    fmt::format("To have {} again would leave {} at its reorder point of {}.",
                                to_text(point.order_up_to), good.name,
                                to_text(point.reorder_point)),
                    "Say with order_up_to how much there should be afterwards: more than the "
                    "reorder point.",
                    "/order_up_to");
    point.lead_days = params.lead_days;
    return point;
}

Standing standing_of(const ReorderPoint& point, const Scene& scene) {
    Standing standing;
    standing.good = point.good;
    standing.reorder_point = point.reorder_point;
    standing.order_up_to = point.order_up_to;
    standing.available = standing.reserved = standing.needed = {0, point.reorder_point.measure};
    const auto good = std::ranges::find(scene.goods, point.good, &Good::name);
    if (good == scene.goods.end()) {
        standing.note = fmt::format("No good has this name any more.  If it was renamed, set its "
                                    "point anew and remove this one: barm reorder remove '{}'",
                                    point.good);
        return standing;
    }
    standing.category = good->category;
    standing.package = good->package;
    const auto found = std::ranges::find(scene.shelves, point.good, &contract::Shelf::good);
    const contract::Shelf* shelf = found == scene.shelves.end() ? nullptr : &*found;
    if (shelf != nullptr) {
        standing.available = shelf->available;
        standing.reserved = shelf->reserved;
    }
    for (const Brew* brew : brews_taking(point.good, scene.brews))
        standing.needed.steps += unmet(*brew, point.good);
    const std::int64_t left = standing.available.steps - standing.needed.steps;
    standing.low = left <= point.reorder_point.steps;
    if (!standing.low)
        return standing;
    standing.missing = {point.order_up_to.steps - left, point.order_up_to.measure};
    if (good->package && good->package->steps > 0 && good->category != Category::concentrate)
        standing.packages =
            (standing.missing->steps + good->package->steps - 1) / good->package->steps;
    set_due(standing, point, shelf, scene);
    standing.title = title_of(standing, scene);
    standing.note = note_of(standing, point, scene);
    return standing;
}

std::string reminder_name(std::string_view good) {
    return fmt::format("reorder:{}", good);
}

contract::ReminderPost::Params reminder_of(const Standing& standing, std::int64_t point,
                                           const contract::Reminder* before) {
    assert(standing.low && standing.title && standing.due);
    contract::ReminderPost::Params post;
    post.name = reminder_name(standing.good);
    post.title = *standing.title;
    post.note = standing.note;
    post.due = *standing.due;
    post.cause = cause;
    post.about = {{std::string(link_target), point}};
    if (standing.brew)
        post.about.push_back({"brew", *standing.brew});
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
