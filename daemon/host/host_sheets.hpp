// The sheets of the host's methods.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/service.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::host {

[[nodiscard]] sheet::Sheet list_sheet(const Nothing&, const contract::PluginList::Result& result);
[[nodiscard]] sheet::Sheet added_sheet(const contract::PluginAdd::Params&,
                                       const contract::PluginInfo& plugin);
[[nodiscard]] sheet::Sheet retired_sheet(const contract::PluginRetire::Params&,
                                         const contract::PluginInfo& plugin);

} // namespace barmkeep::host
