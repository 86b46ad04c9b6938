// A plan from what is wanted and what there is.  Pure: the plugin gathers the pantry, this decides.
#pragma once

#include "plugins/canning/plan/jar_content.hpp"
#include "plugins/canning/plan/pantry.hpp"
#include "plugins/canning/settings.hpp"

namespace barmkeep::canning {

/// Throws Error(params), Error(not_found) or Error(conflict), among them a jar that is too large or
/// whose size is not stated; what is short is no error but stands in the plan.
[[nodiscard]] Plan plan(const Wanted& wanted, const Pantry& pantry, const SensibleRange& sensible);

/// What goes into the conversion beside extract: lids, and nutrient if there is some.
[[nodiscard]] std::vector<Used> used_beside_extract(const Wanted& wanted, const Pantry& pantry,
                                                    std::int64_t jars);

/// Warns of a headspace below the published range, or of one that is not known.
[[nodiscard]] std::optional<std::string> headspace_concern(const contract::JarSize& jar);

} // namespace barmkeep::canning
