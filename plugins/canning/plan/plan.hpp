// A plan from a request and the inventory. Pure: the plugin reads the inventory, this decides.
#pragma once

#include "plugins/canning/plan/inventory.hpp"
#include "plugins/canning/plan/jar_content.hpp"
#include "plugins/canning/settings.hpp"

namespace barmkeep::canning {

/// Throws Error(params), Error(not_found) or Error(conflict), among them a jar that is too large or
/// whose size is not stated; what is short is no error but stands in the plan.
[[nodiscard]] Plan plan(const LoadRequest& request, const Inventory& inventory,
                        const SensibleRange& sensible);

/// What goes into the conversion beside extract: lids, and nutrient if there is some.
[[nodiscard]] std::vector<GoodUse>
used_beside_extract(const LoadRequest& request, const Inventory& inventory, std::int64_t jars);

/// Warns of a headspace below the published range, or of one that is not known.
[[nodiscard]] std::optional<std::string> headspace_warning(const contract::JarSize& jar);

} // namespace barmkeep::canning
