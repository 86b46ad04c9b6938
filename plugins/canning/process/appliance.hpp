// Appliances in which wort must not be canned, and the words by which people name them.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/process/messages.hpp"

namespace barmkeep::canning {

/// Refuses, with Error(params) at `pointer`, every appliance but a pressure canner; the reason is
/// the appliance's name ("boiling_water_bath").
void require_pressure_canner(Appliance appliance, std::string_view pointer);

/// The first other appliance that a text names, unless the name is denied by a word before it in
/// the same clause: "pressure canner, never a boiling water bath" names none.
[[nodiscard]] std::optional<Appliance> appliance_named_in(std::string_view text);

} // namespace barmkeep::canning
