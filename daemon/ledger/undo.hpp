// Undoing an entry by its counter-entry.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// With its lines; or Error(not_found, "entry_unknown").
[[nodiscard]] contract::Entry require_entry(const View& view, std::int64_t sequence,
                                            std::string_view pointer);

/// What undoing would do, or why it cannot be undone.
[[nodiscard]] contract::Undoing preview_undo(const View& view, const Call& call,
                                             const contract::EntryPreview::Params& params);

/// Posts every line of the entry negated: what was bought leaves its lot, what was used comes back,
/// a conversion is turned back whole.  Refused for an entry that was undone, for one that undoes,
/// for one of another kind than the caller says, for a part that was split off to be held, for one
/// that belongs to a plugin's record (but by that plugin), and where a lot or its value would fall
/// below zero because later entries built on this one.
[[nodiscard]] contract::EntryUndo::Result undo(Transaction& transaction, const Call& call,
                                               const contract::EntryUndo::Params& params);

} // namespace barmkeep::ledger
