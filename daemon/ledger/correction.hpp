// Undoing an entry by its counter-entry.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// With its lines; or Error(not_found, "entry_unknown").
[[nodiscard]] contract::Entry require_entry(const View& view, std::int64_t sequence,
                                            std::string_view pointer);

/// Posts every line of the entry negated: what was bought leaves its lot, what was used comes back,
/// a conversion is turned back whole.  Refused for an entry that was corrected, for a correction,
/// and where a lot or its value would fall below zero because later entries built on this one.
[[nodiscard]] contract::Posted correct(Transaction& transaction, const Call& call,
                                       const contract::EntryCorrect::Params& params);

} // namespace barmkeep::ledger
