// The cellar at a glance: what `barm` alone prints.
#pragma once

#include "daemon/client/style.hpp"
#include "sdk/contract/cellar.hpp"

namespace barmkeep::barm {

/// The shelf, what is due, the next brew days, in a layout of its own; where it does not fit the
/// terminal, columns go from the least needed on.
[[nodiscard]] std::string glance_text(const contract::Glance& glance, const Style& style);

} // namespace barmkeep::barm
