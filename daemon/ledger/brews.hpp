// Brew days.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// By number, or Error(not_found, "brew_unknown").
[[nodiscard]] contract::Brew require_brew(const View& view, std::int64_t number,
                                          std::string_view pointer);
/// Throws Error(conflict, "brew_closed") for one that was cancelled.
void require_not_cancelled(const View& view, std::int64_t number, std::string_view pointer);

[[nodiscard]] contract::BrewList::Result list_brews(const View& view, const Call& call,
                                                    const contract::BrewList::Params& params);

} // namespace barmkeep::ledger
