// The sheets of the service's methods.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/service.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::daemon {

[[nodiscard]] sheet::Sheet status_sheet(const Nothing&,
                                        const contract::ServiceStatus::Result& status);
[[nodiscard]] sheet::Sheet settings_sheet(const Nothing&,
                                          const contract::ServiceSettings::Result& result);
[[nodiscard]] sheet::Sheet reload_sheet(const Nothing&,
                                        const contract::ServiceReload::Result& result);
[[nodiscard]] sheet::Sheet clock_sheet(const contract::ClockSet::Params&,
                                       const contract::ClockSet::Result& result);

} // namespace barmkeep::daemon
