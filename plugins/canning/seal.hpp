// The seal test: which jars become which lots, and what that costs.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run_state.hpp"
#include "plugins/canning/shelf_messages.hpp"

namespace barmkeep::canning {

/// What the house settles that is no published figure, or lies inside a published range.
struct ShelfRules {
    int best_by_days = 365;    // S23 S25: within one year
    int refrigerator_days = 3; // S20 "several days", S21 a week
};

/// A seal test as it is to be recorded.
struct Sealing {
    std::optional<contract::StockConvert::Params> conversion; ///< none if no jar is left
    std::vector<contract::StockUse::Params> thrown_out;       ///< in its place
    SealCounts seals;
    Date best_by;
    std::optional<Date> refrigerator_until;
    std::vector<std::string> held_because;
    std::string unsealed_until; ///< when jars that failed can only be thrown out, by local time
};

/// What jars are held for that wait to be processed again begins so.
inline constexpr std::string_view unsealed_hold = "Seal failed: ";

/// Checks and sorts.  Throws Error(params, "counts_differ"), Error(conflict, "not_now"),
/// "too_early" before 12 hours, "too_late" for failed jars that are kept after 24 hours,
/// "reason_missing" for a best by later than usual.
[[nodiscard]] Sealing sealing(const RunDocument& run, const RunState& state,
                              const RunSeal::Params& params, Date today, Instant now,
                              const ShelfRules& rules, const std::string& zone);

/// What the jars that carry no value would have carried.
[[nodiscard]] Money lost_value(Money value, const SealCounts& seals, FailedTo failed_to);

/// Takes a run's extract, lids and nutrient from stock with no jar to show for them.
[[nodiscard]] std::vector<contract::StockUse::Params> thrown_out(const RunDocument& run);

} // namespace barmkeep::canning
