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
    Planner(const Wanted& wanted, const Pantry& pantry)
        : wanted_{wanted}, pantry_{pantry}, jar_{pantry.jar(wanted.jar)},
          canner_{pantry.canner(wanted.canner)}, extract_{pantry.good(Category::extract,
                                                                      wanted.extract, "extract")},
          strength_{wanted.makes, wanted.at, wanted.weigh}, need_{need_of(strength_)} {
        (void)jar_class_of(jar_);
        for (const auto& lot : pantry.available_lots(extract_.name))
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
        if (const auto concern = headspace_concern(jar_))
            plan_.concerns.push_back(*concern);
        add_old_lots();
        return std::move(plan_);
    }

private:
    [[nodiscard]] Allocation filled(std::int64_t jars) const {
        return allocate(lots_, need_, jars, pantry_.cellar.scale_step);
    }

    std::int64_t count_jars() {
        if (wanted_.jars && wanted_.fill_canner)
            throw Error(ErrorKind::params, "too_much_said",
                        "Give a number of jars or fill_canner, not both.", "Leave one out.",
                        "/fill_canner");
        if (wanted_.jars) {
            plan_.limit = "the jars wanted";
            return *wanted_.jars;
        }
        if (wanted_.fill_canner) {
            if (canner_ == nullptr)
                throw Error(ErrorKind::not_found, "unknown_canner", "No canner is known to fill.",
                            "Add it: barm canner set.", "/canner");
            plan_.limit = "the canner '" + canner_->name + "'";
            return std::min(capacity_of(*canner_, jar_.name) * wanted_.loads, jars_max);
        }
        return from_stock();
    }

    std::int64_t from_stock() {
        const std::int64_t by_extract = filled(jars_max).jars;
        const Good& lids = pantry_.good(Category::lids, wanted_.lids, "lids");
        const std::int64_t by_lids = pantry_.available_of(lids).steps;
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
            groups = allocate(lots, need_, 1, pantry_.cellar.scale_step).groups;
        }
        plan_.each = content_of_all(groups, lots, jar_.fill, strength_);
        if (const auto concern = strength_concern(plan_.each, sensible))
            plan_.concerns.push_back(*concern);
        if (allocation.jars < jars)
            plan_.concerns.push_back("The extract on hand fills " +
                                     std::to_string(allocation.jars) + " of " +
                                     std::to_string(jars) + " jars; the card is for those.");
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
        if (wanted_.nutrient_in_jar)
            plan_.total.nutrient = *wanted_.nutrient_in_jar * static_cast<double>(allocation.jars);
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
        plan_.card.back().nutrient = wanted_.nutrient_in_jar;
        plan_.total.water += water * jars;
    }

    void add_loads(std::int64_t jars) {
        if (canner_ == nullptr) {
            plan_.concerns.emplace_back("No canner is known, so the loads are not counted.");
            return;
        }
        const std::int64_t most = capacity_of(*canner_, jar_.name);
        for (std::int64_t left = jars; left > 0; left -= most)
            plan_.loads.push_back(std::min(left, most));
    }

    void add_needs(const Allocation& allocation, std::int64_t jars) {
        Mass wanted = allocation.missing;
        if (wanted > Mass{})
            for (const ExtractLot& lot : lots_) // all there is goes in, and more
                wanted += lot.available;
        else
            for (const Taken& taken : plan_.lots)
                wanted += taken.mass;
        if (lots_.empty() && jars > 0)
            wanted = plan_.each.weighed * static_cast<double>(jars);
        add_need(extract_, amount_of(wanted));
        for (const Used& used : used_beside_extract(wanted_, pantry_, jars))
            add_need(named(used.good), used.amount);
        plan_.feasible = plan_.buying.empty() && jars > 0;
        if (!wanted_.nutrient)
            plan_.concerns.emplace_back("No nutrient is planned; about a quarter teaspoon a jar is "
                                        "common practice, no source.");
    }

    const Good& named(const std::string& name) const {
        return *std::ranges::find(pantry_.goods, name, &Good::name);
    }

    void add_need(const Good& good, const Amount& need) {
        Need row;
        row.good = good.name;
        row.need = need;
        row.available = pantry_.available_of(good);
        row.held = pantry_.held_of(good);
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
            plan_.concerns.push_back("Held by runs whose jars are not shelved yet, and so not "
                                     "available: " +
                                     text + ".");
    }

    void add_old_lots() {
        for (const Taken& taken : plan_.lots)
            if (taken.best_by && *taken.best_by < pantry_.today)
                plan_.concerns.push_back("Lot " + to_text(taken.lot) + " is past its best by, " +
                                         to_text(*taken.best_by) + ".");
    }

    const Wanted& wanted_;
    const Pantry& pantry_;
    const contract::JarSize& jar_;
    const contract::Canner* canner_;
    const Good& extract_;
    Strength strength_;
    JarNeed need_;
    std::vector<ExtractLot> lots_;
    Plan plan_;
};

} // namespace

std::vector<Used> used_beside_extract(const Wanted& wanted, const Pantry& pantry,
                                      std::int64_t jars) {
    std::vector<Used> used;
    used.push_back({pantry.good(Category::lids, wanted.lids, "lids").name, pieces(jars)});
    if (wanted.nutrient.has_value() != wanted.nutrient_in_jar.has_value())
        throw Error(ErrorKind::params, "missing",
                    "Nutrient needs both its name and how much goes into a jar.",
                    "Give `nutrient` and `nutrient_in_jar`, or neither.",
                    wanted.nutrient ? "/nutrient_in_jar" : "/nutrient");
    if (wanted.nutrient)
        used.push_back({pantry.good(Category::nutrient, wanted.nutrient, "nutrient").name,
                        amount_of(*wanted.nutrient_in_jar * static_cast<double>(jars))});
    return used;
}

std::optional<std::string> headspace_concern(const contract::JarSize& jar) {
    constexpr double least_inches = 1.0; // S22 S1
    if (!jar.headspace)
        return "The headspace of the jar '" + jar.name +
               "' is not known; 1 to 1.25 in is published for low-acid food.  [S22 S1]";
    constexpr double hair = 0.005; // lengths travel rounded to a tenth of a millimetre
    if (jar.headspace->in(brewing::inch) < least_inches - hair)
        return "The headspace of the jar '" + jar.name + "', " +
               brewing::print(*jar.headspace, brewing::System::us) +
               ", is below the published 1 to 1.25 in for low-acid food.  [S22 S1]";
    return std::nullopt;
}

Plan plan(const Wanted& wanted, const Pantry& pantry, const SensibleRange& sensible) {
    try {
        return Planner{wanted, pantry}.made(sensible);
    } catch (const brewing::OutOfRange& fault) {
        throw error_of(fault);
    }
}

} // namespace barmkeep::canning
