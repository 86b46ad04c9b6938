// The seal test: which jars become which lots, and what that costs.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/run/seal_messages.hpp"
#include "plugins/canning/run/state.hpp"

#include <map>

namespace barmkeep::canning {

/// When the seals are judged.
struct SealTime {
    Instant now;
    Date today;
    std::string zone; ///< the cellar's
};

/// A seal test as it is to be recorded.
struct SealOutcome {
    SealTest test;
    std::optional<contract::StockConvert::Params> conversion; ///< none if no jar is kept
    std::vector<contract::StockUse::Params> thrown_out;       ///< in its place
};

/// Checks and sorts. Throws Error(params, "counts_differ"), "reason_missing" for a best by later
/// than usual; Error(conflict): "not_now", "already_ended", "too_early" before 12 hours (not for a
/// run with a known deviation, whose jars have no 12 hours), "too_late" for jars that failed 24
/// hours after heat off and for those of a deviation 2 hours after the canner was opened,
/// "log_incomplete" for jars that failed in a run whose log has a gap.
///
/// Jars keep the codes on their lids: those of an earlier count that was undone.
[[nodiscard]] SealOutcome seal_outcome(const Run& run, const RunState& state,
                                       const RunSealTest::Params& params, const SealTime& moment,
                                       const JarRules& rules);

/// What the jars that carry no value would have carried.
[[nodiscard]] Money lost_value(Money value, const SealTest& test);

/// What to do with the jars after the test.
[[nodiscard]] std::string what_now_of(const SealTest& test, const RunState& state);

/// Takes a run's extract, lids and nutrient from stock with no jar to show for them.
[[nodiscard]] std::vector<contract::StockUse::Params> thrown_out(const Run& run);

/// The codes on lids from counts that were undone, the newest of each kind of jar.
[[nodiscard]] std::map<JarKind, LotCode> codes_on_lids(const Run& run);

} // namespace barmkeep::canning
