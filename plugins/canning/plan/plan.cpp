#include "plugins/canning/plan/plan.hpp"

#include "plugins/canning/process/check.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::canning {
namespace {

using brewing::gram;
using brewing::Mass;
using contract::Category;
using contract::Good;

constexpr std::int64_t jars_max = 1000;

/// A plan while it is made.
class Planner {
public:
    Planner(const LoadRequest& request, const Inventory& inventory)
        : request_{request}, inventory_{inventory}, jar_{inventory.jar(request.jar)},
          canner_{inventory.canner(request.canner)}, extract_{inventory.good(Category::extract,
                                                                             request.extract,
                                                                             "extract")},
          strength_{request.makes, request.at, request.weigh}, need_{need_of(strength_)} {
        (void)jar_class_of(jar_);
        for (const auto& lot : inventory.available_lots(extract_.name))
            lots_.push_back({lot.code, as_mass(lot.on_hand), potential_of(lot.facts, extract_.name),
                             lot.supplier, lot.best_by});
    }

    Plan made(const SensibleRange& sensible) {
        const std::int64_t jars = count_jars();
        const Allocation allocation = filled(jars);
        plan_.jar = jar_.name;
        plan_.jars = jars;
        plan_.cautions = cautions(Moment::planning);
        if (jars > 0)
            describe_jars(allocation, jars, sensible);
        add_loads(jars);
        add_needs(allocation, jars);
        add_held();
        if (const auto warning = headspace_warning(jar_))
            plan_.warnings.push_back(*warning);
        add_old_lots();
        return std::move(plan_);
    }

private:
    [[nodiscard]] Allocation filled(std::int64_t jars) const {
        return allocate(lots_, need_, jars, inventory_.cellar.scale_step);
    }

    std::int64_t count_jars() {
        if (request_.jars && request_.fill_canner)
            throw Error(ErrorKind::params, "too_much_said",
                        "You gave a number of jars and --fill-canner.", "Leave one of them out.",
                        "/fill_canner");
        if (request_.jars) {
            plan_.limit = "the number of jars asked for";
            return *request_.jars;
        }
        if (request_.fill_canner) {
            if (canner_ == nullptr)
                throw Error(ErrorKind::not_found, "unknown_canner", "No canner is known to fill.",
                            "Add yours with barm canner set.", "/canner");
            plan_.limit = "the canner '" + canner_->name + "'";
            return std::min(capacity_of(*canner_, jar_.name) * request_.loads, jars_max);
        }
        return from_stock();
    }

    std::int64_t from_stock() {
        const std::int64_t by_extract = filled(jars_max).jars;
        const Good& lids = inventory_.good(Category::lids, request_.lids, "lids");
        const std::int64_t by_lids = inventory_.available_of(lids).steps;
        plan_.limit = by_lids < by_extract ? "lids on hand" : "extract on hand";
        return std::min(by_lids, by_extract);
    }

    void describe_jars(const Allocation& allocation, std::int64_t jars,
                       const SensibleRange& sensible) {
        std::vector<JarGroup> groups = allocation.groups;
        std::vector<ExtractLot> lots = lots_;
        // With nothing on the shelf the jar is described by what the good itself is known to yield.
        if (groups.empty()) {
            lots = {{LotCode{}, Mass{}, potential_of(extract_.facts, extract_.name), {}, {}}};
            lots.front().available = 1e6 * gram;
            groups = allocate(lots, need_, 1, inventory_.cellar.scale_step).groups;
        }
        plan_.each = content_of_all(groups, lots, jar_.fill, strength_);
        if (const auto warning = strength_warning(plan_.each, sensible))
            plan_.warnings.push_back(*warning);
        if (allocation.jars < jars)
            plan_.warnings.push_back("The extract on hand fills " +
                                     std::to_string(allocation.jars) + " of " +
                                     std::to_string(jars) + " jars. The card is for these.");
        write_card(allocation);
    }

    void write_card(const Allocation& allocation) {
        std::vector<Mass> taken(lots_.size());
        std::int64_t first = 1;
        for (const JarGroup& group : allocation.groups) {
            write_lines(group, first, taken);
            first += group.jars;
        }
        plan_.total.ounces = ounces_of(plan_.total.extract);
        plan_.total.water_ounces = ounces_of(plan_.total.water);
        if (request_.nutrient_in_jar)
            plan_.total.nutrient = *request_.nutrient_in_jar * static_cast<double>(allocation.jars);
        for (std::size_t i = 0; i < lots_.size(); ++i)
            if (taken[i] > Mass{})
                plan_.lots.push_back({lots_[i].code, taken[i], ounces_of(taken[i]),
                                      Range<double>{lots_[i].points}, lots_[i].supplier,
                                      lots_[i].best_by});
    }

    void write_lines(const JarGroup& group, std::int64_t first, std::vector<Mass>& taken) {
        const auto jars = static_cast<double>(group.jars);
        for (const Part& part : group.parts) {
            CardLine line;
            line.first = first;
            line.last = first + group.jars - 1;
            line.lot = lots_[part.lot].code;
            line.extract = part.mass;
            line.ounces = ounces_of(part.mass);
            taken[part.lot] += part.mass * jars;
            plan_.total.extract += part.mass * jars;
            plan_.card.push_back(std::move(line));
        }
        const Mass water = content_of(group, lots_, jar_.fill, strength_).water;
        plan_.card.back().water = water;
        plan_.card.back().water_ounces = ounces_of(water);
        plan_.card.back().nutrient = request_.nutrient_in_jar;
        plan_.total.water += water * jars;
    }

    void add_loads(std::int64_t jars) {
        if (canner_ == nullptr) {
            plan_.warnings.emplace_back("No canner is known, so the loads are not counted. "
                                        "Add yours with barm canner set.");
            return;
        }
        const std::int64_t most = capacity_of(*canner_, jar_.name);
        for (std::int64_t left = jars; left > 0; left -= most)
            plan_.loads.push_back(std::min(left, most));
    }

    void add_needs(const Allocation& allocation, std::int64_t jars) {
        Mass need = allocation.missing;
        if (need > Mass{})
            for (const ExtractLot& lot : lots_) // all there is goes in, and more
                need += lot.available;
        else
            for (const LotUse& taken : plan_.lots)
                need += taken.mass;
        if (lots_.empty() && jars > 0)
            need = plan_.each.weighed * static_cast<double>(jars);
        add_need(extract_, amount_of(need));
        for (const GoodUse& used : used_beside_extract(request_, inventory_, jars))
            add_need(named(used.good), used.amount);
        plan_.feasible = plan_.buying.empty() && jars > 0;
        if (!request_.nutrient)
            plan_.warnings.emplace_back("No nutrient is planned.");
    }

    const Good& named(const std::string& name) const {
        return *std::ranges::find(inventory_.goods, name, &Good::name);
    }

    void add_need(const Good& good, const Amount& need) {
        Need row;
        row.good = good.name;
        row.need = need;
        row.available = inventory_.available_of(good);
        row.held = inventory_.held_of(good);
        row.package = good.package;
        row.short_by.measure = good.measure;
        row.short_by.steps = std::max<std::int64_t>(0, need.steps - row.available.steps);
        if (row.short_by.steps > 0 && good.package && good.package->steps > 0)
            row.buy = (row.short_by.steps + good.package->steps - 1) / good.package->steps;
        if (row.short_by.steps > 0)
            plan_.buying.push_back(row);
        plan_.needs.push_back(std::move(row));
    }

    void add_held() {
        std::string text;
        for (const Need& need : plan_.needs)
            if (need.held)
                text += (text.empty() ? "" : "; ") + need.good + ", " + *need.held;
        if (!text.empty())
            plan_.warnings.push_back("Open runs hold stock until their jars are shelved: " + text +
                                     ".");
    }

    void add_old_lots() {
        for (const LotUse& taken : plan_.lots)
            if (taken.best_by && *taken.best_by < inventory_.today)
                plan_.warnings.push_back("Lot " + to_text(taken.lot) + " is past its best by, " +
                                         to_text(*taken.best_by) + ".");
    }

    const LoadRequest& request_;
    const Inventory& inventory_;
    const contract::JarSize& jar_;
    const contract::Canner* canner_;
    const Good& extract_;
    Strength strength_;
    JarNeed need_;
    std::vector<ExtractLot> lots_;
    Plan plan_;
};

} // namespace

std::vector<GoodUse> used_beside_extract(const LoadRequest& request, const Inventory& inventory,
                                         std::int64_t jars) {
    std::vector<GoodUse> used;
    used.push_back({inventory.good(Category::lids, request.lids, "lids").name, pieces(jars)});
    if (request.nutrient.has_value() != request.nutrient_in_jar.has_value())
        throw Error(ErrorKind::params, "missing",
                    "You gave only one of nutrient and nutrient_in_jar.",
                    "Give --nutrient and --nutrient-in-jar, or neither.",
                    request.nutrient ? "/nutrient_in_jar" : "/nutrient");
    if (request.nutrient)
        used.push_back({inventory.good(Category::nutrient, request.nutrient, "nutrient").name,
                        amount_of(*request.nutrient_in_jar * static_cast<double>(jars))});
    return used;
}

std::optional<std::string> headspace_warning(const contract::JarSize& jar) {
    constexpr double least_inches = 1.0; // S22 S1
    if (!jar.headspace)
        return "The headspace of the jar '" + jar.name +
               "' is not known. Leave 1 to 1.25 in, and state it with barm jar set. [S22 S1]";
    constexpr double tolerance = 0.005; // lengths travel rounded to a tenth of a millimetre
    if (jar.headspace->in(brewing::inch) < least_inches - tolerance)
        return "The headspace of the jar '" + jar.name + "', " +
               brewing::print(*jar.headspace, brewing::System::us) +
               ", is below the published 1 to 1.25 in for low-acid food. [S22 S1]";
    return std::nullopt;
}

Plan plan(const LoadRequest& request, const Inventory& inventory, const SensibleRange& sensible) {
    try {
        return Planner{request, inventory}.made(sensible);
    } catch (const brewing::OutOfRange& fault) {
        throw error_of(fault);
    }
}

} // namespace barmkeep::canning
