// The sheets of the plugin's methods: what a person reads of their answers.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/reorder/messages.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::reorder::sheets {

[[nodiscard]] sheet::Sheet set(const ReorderSet::Params&, const ReorderPoint& point);
[[nodiscard]] sheet::Sheet listed(const Nothing&, const ReorderList::Result& result);
[[nodiscard]] sheet::Sheet removed(const ReorderRemove::Params& params,
                                   const ReorderRemove::Result& result);
[[nodiscard]] sheet::Sheet checked(const ReorderCheck::Params& params,
                                   const ReorderCheck::Result& result);

} // namespace barmkeep::reorder::sheets
