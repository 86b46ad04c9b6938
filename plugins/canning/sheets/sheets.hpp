// The sheets of the plugin's methods: what a person reads of their answers.
//
// Each is a pure function of what was asked and answered; sheets.cpp lists which method has which.
// Nothing here may make a jar look ready that should not be eaten: whatever names a lot of jars
// says why it is held or chilled.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/messages.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::canning::sheets {

using sheet::Sheet;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

// plan.cpp
[[nodiscard]] Sheet plan(const CanningPlan::Params&, const Plan&);

// run.cpp: a load in the canner
[[nodiscard]] Sheet run_started(const RunStart::Params&, const RunDetails&);
[[nodiscard]] Sheet run_logged(const RunLog::Params&, const RunSummary&);
[[nodiscard]] Sheet run_read(const RunGauge::Params&, const RunSummary&);
[[nodiscard]] Sheet run_struck(const RunStrike::Params&, const RunSummary&);
[[nodiscard]] Sheet run_status(const RunNumber&, const RunSummary&);
[[nodiscard]] Sheet run_abandoned(const RunAbandon::Params&, const RunSummary&);
[[nodiscard]] Sheet seal_test_undone(const RunUndoSealTest::Params&, const RunSummary&);

// run_record.cpp: a run as it was logged
[[nodiscard]] Sheet run_shown(const RunNumber&, const RunShow::Result&);
[[nodiscard]] Sheet run_list(const RunList::Params&, const RunList::Result&);

// seal.cpp
[[nodiscard]] Sheet seal_test(const RunSealTest::Params&, const RunSealTest::Result&);

// jars.cpp: the jars of a run once they are shelved
[[nodiscard]] Sheet measured(const RunMeasure::Params&, const RunMeasure::Result&);
[[nodiscard]] Sheet held(const RunHold::Params&, const RunDecision&);
[[nodiscard]] Sheet released(const RunRelease::Params&, const RunDecision&);

// process.cpp
[[nodiscard]] Sheet process_set(const ProcessSet::Params&, const ProcessShown&);
[[nodiscard]] Sheet process_list(const Nothing&, const ProcessList::Result&);
[[nodiscard]] Sheet process_reference(const Nothing&, const ProcessReference::Result&);

// storage.cpp
[[nodiscard]] Sheet inspected(const StorageInspect::Params&, const StorageInspect::Result&);
[[nodiscard]] Sheet temperature(const StorageTemperature::Params&,
                                const StorageTemperature::Result&);
[[nodiscard]] Sheet storage(const Nothing&, const StorageShow::Result&);

// opening.cpp
[[nodiscard]] Sheet opening(const OpeningShow::Params&, const OpeningShow::Result&);
[[nodiscard]] Sheet opened(const OpeningRecord::Params&, const OpeningRecord::Result&);

// trace.cpp
[[nodiscard]] Sheet traced_lot(const TraceLot::Params&, const TraceResult&);
[[nodiscard]] Sheet traced_brew(const TraceBrew::Params&, const TraceResult&);

// cautions.cpp
[[nodiscard]] Sheet all_cautions(const CanningCautions::Params&, const CanningCautions::Result&);

} // namespace barmkeep::canning::sheets
