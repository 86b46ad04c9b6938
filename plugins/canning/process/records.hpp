// Processes in the cellar's records: collection "process", by name.
#pragma once

#include "plugins/canning/process/messages.hpp"
#include "sdk/plugin/host.hpp"

namespace barmkeep::canning {

inline constexpr std::string_view processes = "process";

/// Throws Error(not_found, "unknown_process").
[[nodiscard]] ProcessRecord load_process(const plugin::Requester& core, const std::string& name);
[[nodiscard]] std::vector<ProcessRecord> load_processes(const plugin::Requester& core);

} // namespace barmkeep::canning
