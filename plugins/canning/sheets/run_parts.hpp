// What is said of a run wherever it shows: what to do now, its clocks, its alarm, the next actions.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

/// "Run 3: at pressure".
[[nodiscard]] Text run_title(const RunSummary& now);
/// What to do now, in one sentence.
[[nodiscard]] Text lead_of(const RunSummary& now);
/// What a mistake asks for at once, with the call that records it.
[[nodiscard]] sheet::Warning alarm_of(const Alarm& alarm, const RunSummary& now);
/// "12.5 psi or slightly above (the dial reads 0.5 psi high)".
[[nodiscard]] Text target_of(const RunSummary& now);
[[nodiscard]] bool has_deviation(const RunSummary& now);

void add_clocks(SheetBuilder& made, const RunSummary& now);
/// The warnings that the alarm does not say already, and what is said of the process.
void add_run_warnings(SheetBuilder& made, const RunSummary& now);
/// The cautions of the phase; those of its very step in full.
void add_run_cautions(SheetBuilder& made, const RunSummary& now,
                      const std::vector<Caution>& cautions);
/// The next step as the usual action, a slip of the hand undone, and the topics.
void add_run_actions(SheetBuilder& made, const RunSummary& now);

} // namespace barmkeep::canning::sheets
