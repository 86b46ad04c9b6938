#include "plugins/canning/plan/inventory.hpp"

#include "sdk/contract/shelf.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::Category;
using contract::Good;

template <class Named>
const Named* named(const std::vector<Named>& all, std::string_view name) {
    const auto found = std::ranges::find(all, name, &Named::name);
    return found == all.end() ? nullptr : &*found;
}

template <class Named>
Error not_known(std::string_view kind, const std::vector<Named>& all, std::string_view name,
                std::string_view field, std::string_view how) {
    std::vector<std::string> names;
    for (const auto& one : all)
        names.push_back(one.name);
    const auto near = nearest(name, names);
    return {ErrorKind::not_found, "unknown_" + std::string(kind),
            "No " + std::string(kind) + " is named '" + std::string(name) + "'.",
            near ? "Did you mean '" + *near + "'?" : std::string(how), "/" + std::string(field)};
}

std::vector<contract::Lot> lots_of(const Inventory& inventory, std::string_view good) {
    const auto shelf = std::ranges::find(inventory.shelves, good, &contract::Shelf::good);
    return shelf == inventory.shelves.end() ? std::vector<contract::Lot>{} : shelf->lots;
}

/// In steps: what the weighing card of a run takes from a lot.
std::int64_t held_of_lot(const OpenRun& run, const LotCode& lot) {
    std::int64_t steps = 0;
    for (const LotUse& taken : run.lots)
        if (taken.lot == lot)
            steps += amount_of(taken.mass).steps;
    return steps;
}

/// In steps: what a run takes of a good without naming lots.
std::int64_t held_unsorted(const OpenRun& run, std::string_view good) {
    std::int64_t steps = 0;
    for (const GoodUse& used : run.used)
        if (used.good == good)
            steps += used.amount.steps;
    return steps;
}

} // namespace

const contract::JarSize& Inventory::jar(std::string_view name) const {
    if (const auto* found = named(equipment.jars, name))
        return *found;
    throw not_known(
        "jar", equipment.jars, name, "jar",
        "Add it with barm jar set. To measure its fill, fill it with water up to the headspace "
        "and weigh it.");
}

const contract::Canner* Inventory::canner(const std::optional<std::string>& name) const {
    if (name) {
        if (const auto* found = named(equipment.canners, *name))
            return found;
        throw not_known("canner", equipment.canners, *name, "canner",
                        "Add it with barm canner set.");
    }
    if (equipment.canners.size() > 1)
        throw Error(ErrorKind::params, "missing", "You have several canners.",
                    "Name one with --canner; barm equipment list shows them.", "/canner");
    return equipment.canners.empty() ? nullptr : &equipment.canners.front();
}

const Good& Inventory::good(Category category, const std::optional<std::string>& name,
                            std::string_view field) const {
    const std::string word{to_string(category)};
    if (name) {
        const auto* found = named(goods, *name);
        if (found == nullptr)
            throw not_known("good", goods, *name, field, "Add it with barm good add.");
        if (found->category != category)
            throw Error(ErrorKind::params, "wrong_class",
                        "'" + *name + "' is in the category " +
                            std::string(to_string(found->category)) + ", not " + word + ".",
                        "Name a good of the category " + word + "; barm good list shows them.",
                        "/" + std::string(field));
        return *found;
    }
    const auto is_of_class = [&](const Good& one) {
        return one.category == category;
    };
    const auto count = std::ranges::count_if(goods, is_of_class);
    if (count != 1)
        throw Error(count == 0 ? ErrorKind::not_found : ErrorKind::params,
                    count == 0 ? "unknown_good" : "missing",
                    count == 0 ? "You have no good of the category " + word + "."
                               : "You have several goods of the category " + word + ".",
                    count == 0 ? "Add one with barm good add."
                               : "Name one; barm good list shows them.",
                    "/" + std::string(field));
    return *std::ranges::find_if(goods, is_of_class);
}

std::vector<contract::Lot> Inventory::available_lots(std::string_view good_name) const {
    std::vector<contract::Lot> lots = lots_of(*this, good_name);
    for (contract::Lot& lot : lots) {
        lot.on_hand = contract::available_on(lot, today);
        for (const OpenRun& run : open_runs)
            lot.on_hand.steps -= held_of_lot(run, lot.code);
    }
    std::erase_if(lots, [](const contract::Lot& lot) { return lot.on_hand.steps <= 0; });
    std::ranges::stable_sort(lots, contract::is_taken_before);
    return lots;
}

Amount Inventory::available_of(const Good& good) const {
    Amount sum{0, good.measure};
    for (const auto& lot : available_lots(good.name))
        sum.steps += lot.on_hand.steps;
    for (const OpenRun& run : open_runs)
        sum.steps -= held_unsorted(run, good.name);
    sum.steps = std::max<std::int64_t>(0, sum.steps);
    return sum;
}

std::optional<std::string> Inventory::held_of(const Good& good) const {
    std::string text;
    for (const OpenRun& run : open_runs) {
        Amount held{held_unsorted(run, good.name), good.measure};
        for (const auto& lot : lots_of(*this, good.name))
            held.steps += held_of_lot(run, lot.code);
        if (held.steps > 0)
            text +=
                (text.empty() ? "" : ", ") + to_text(held) + " by run " + std::to_string(run.run);
    }
    return text.empty() ? std::nullopt : std::optional{std::move(text)};
}

std::int64_t capacity_of(const contract::Canner& canner, std::string_view jar) {
    const auto found = std::ranges::find(canner.capacity, jar, &contract::Capacity::jar);
    if (found == canner.capacity.end())
        throw Error(ErrorKind::conflict, "capacity_unknown",
                    "The canner '" + canner.name + "' has no capacity for '" + std::string(jar) +
                        "' jars.",
                    "State it with barm canner set --capacity.", "/canner");
    return found->count;
}

} // namespace barmkeep::canning
