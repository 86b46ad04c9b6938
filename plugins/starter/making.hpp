// What making a starter writes, and how the answers are read back.
//
// Each write is one ledger.batch, whose first step adds the record or appends to its log; the
// journal entries after it are about that record and the brew day.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/plan.hpp"
#include "plugins/starter/starter_record.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/ledger.hpp"

namespace barmkeep::starter {

/// A starter and the version of the record that it was read from.
struct StoredStarter {
    StarterRecord starter;
    std::int64_t version = 0;
};

/// When a request arrived, and the cellar's local day then.
struct RequestTime {
    Instant at;
    Date today;
};

/// The writes of the first step: the record, then yeast, jars and nutrient.
/// Throws Error(conflict) if the plan has no step, Error(params, "day_ahead") if its day has not
/// come, Error(not_enough) if jars are missing.
[[nodiscard]] contract::LedgerBatch::Params
writes_of_making(const Plan& plan, const StarterRequest& request, const RequestTime& now);

/// The writes of the next step of a starter, filled from the shelf as it is now.
/// Throws Error(conflict) if it does not grow any more or all steps are made, Error(not_enough) if
/// jars are missing.
[[nodiscard]] contract::LedgerBatch::Params writes_of_step(const StoredStarter& before,
                                                           const StarterStep::Params& params,
                                                           const CellarView& view, Instant at,
                                                           const Settings& settings);

/// The line that ends a starter.  Throws Error(conflict, "not_growing") if it has ended already.
[[nodiscard]] contract::RecordAppend::Params writes_of_ending(const StoredStarter& before,
                                                              StarterState state,
                                                              const RequestTime& now,
                                                              std::optional<std::string> note);

/// The writes that take back the last line in force; `entries` are those about the starter, newest
/// first.  Throws Error(conflict, "nothing_to_undo") if no line is in force.
[[nodiscard]] contract::LedgerBatch::Params
writes_of_undoing(const StoredStarter& before, std::span<const contract::Entry> entries,
                  const RequestTime& now, const std::string& reason);

/// What the batch changed of the record: its first result.
[[nodiscard]] contract::RecordChanged changed_by(const contract::LedgerBatch::Result& written);
/// The answer about `starter`, from what the ledger stored of the uses after the first result.
[[nodiscard]] StockChange stock_taken(StarterRecord starter,
                                      const contract::LedgerBatch::Result& written);
/// The same from the undoings.
[[nodiscard]] StockChange stock_returned(StarterRecord starter,
                                         const contract::LedgerBatch::Result& written);

} // namespace barmkeep::starter
