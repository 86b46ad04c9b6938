// A plan from what is wanted and what there is.  Pure: the plugin gathers the pantry, this decides.
#pragma once

#include "plugins/canning/jar_content.hpp"
#include "plugins/canning/run_document.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/equipment.hpp"

namespace barmkeep::canning {

/// What there is: one consistent picture of the cellar.
struct Pantry {
    Date today;
    contract::Cellar cellar;
    std::vector<contract::Good> goods;
    std::vector<contract::Shelf> shelves;
    contract::EquipmentList::Result equipment;
    /// Runs whose jars are not shelved yet.  What they were begun with leaves the ledger only with
    /// their seal test, but is weighed out already, so nothing here counts it as free.
    std::vector<RunDocument> open_runs;

    /// Throw Error(not_found) with the nearest name.
    [[nodiscard]] const contract::JarSize& jar(std::string_view name) const;
    /// The canner of that name; without a name the only one.  Null if there is none at all and none
    /// was named.
    [[nodiscard]] const contract::Canner* canner(const std::optional<std::string>& name) const;
    /// The good of that name, of that class; without a name the only one of the class.
    [[nodiscard]] const contract::Good& good(contract::GoodClass goods,
                                             const std::optional<std::string>& name,
                                             std::string_view field) const;
    /// Lots of a good with something free, first to expire first; `free` is less what runs hold.
    [[nodiscard]] std::vector<contract::Lot> free_lots(std::string_view good) const;
    [[nodiscard]] Amount free_of(const contract::Good& good) const;
    /// Which run holds how much of a good: "664.3 g by run 1, 94.9 g by run 2".
    [[nodiscard]] std::optional<std::string> held_of(const contract::Good& good) const;
};

/// Jars of a size that a canner takes in a load.  Throws Error(conflict, "capacity_unknown").
[[nodiscard]] std::int64_t capacity_of(const contract::Canner& canner, std::string_view jar);

/// Throws Error(params), Error(not_found) or Error(conflict); what is short is no error but told in
/// the plan.
[[nodiscard]] Plan plan(const Wanted& wanted, const Pantry& pantry, const SensibleRange& sensible);

/// What goes into the conversion beside extract: lids, and nutrient if there is some.
[[nodiscard]] std::vector<std::pair<std::string, Amount>>
used_beside_extract(const Wanted& wanted, const Pantry& pantry, std::int64_t jars);

} // namespace barmkeep::canning
