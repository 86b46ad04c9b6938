// The inventory that a plan is made from: one consistent snapshot of the cellar.
#pragma once

#include "plugins/canning/plan/messages.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/plugin/host.hpp"

namespace barmkeep::canning {

/// What an open run started with. It leaves the ledger only with the seal test but is weighed
/// out already, so nothing here counts it as available.
struct OpenRun {
    std::int64_t run = 0;
    std::string canner;
    std::vector<LotUse> lots;
    std::vector<GoodUse> used;
};

struct Inventory {
    Date today;
    contract::Cellar cellar;
    std::vector<contract::Good> goods;
    std::vector<contract::Shelf> shelves;
    contract::EquipmentList::Result equipment;
    std::vector<OpenRun> open_runs;

    /// Throw Error(not_found) with the nearest name.
    [[nodiscard]] const contract::JarSize& jar(std::string_view name) const;
    /// The canner of that name; without a name the only one. Null if there is none at all and none
    /// was named.
    [[nodiscard]] const contract::Canner* canner(const std::optional<std::string>& name) const;
    /// The good of that name and category; without a name the only one of the category.
    [[nodiscard]] const contract::Good& good(contract::Category category,
                                             const std::optional<std::string>& name,
                                             std::string_view field) const;
    /// Lots of a good with something available, in the order in which they are taken; their
    /// `on_hand` is what is available: less what is reserved and what open runs hold.
    [[nodiscard]] std::vector<contract::Lot> available_lots(std::string_view good) const;
    [[nodiscard]] Amount available_of(const contract::Good& good) const;
    /// Which run holds how much of a good: "664.3 g by run 1, 94.9 g by run 2".
    [[nodiscard]] std::optional<std::string> held_of(const contract::Good& good) const;
};

/// Reads the cellar, with the runs that are open.
[[nodiscard]] Inventory read_inventory(const plugin::Requester& core);

/// Jars of a size that a canner takes in a load. Throws Error(conflict, "capacity_unknown").
[[nodiscard]] std::int64_t capacity_of(const contract::Canner& canner, std::string_view jar);

} // namespace barmkeep::canning
