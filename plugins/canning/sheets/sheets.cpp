// Which of the plugin's methods has which sheet.
#include "plugins/canning/sheets/sheets.hpp"

#include "plugins/canning/canning.hpp"

namespace barmkeep::canning {

void declare_sheets(Declaration& plugin) {
    plugin.sheet<CanningPlan>(&sheets::plan);
    plugin.sheet<CanningCautions>(&sheets::all_cautions);
    plugin.sheet<RunStart>(&sheets::run_started);
    plugin.sheet<RunLog>(&sheets::run_logged);
    plugin.sheet<RunGauge>(&sheets::run_read);
    plugin.sheet<RunStrike>(&sheets::run_struck);
    plugin.sheet<RunStatus>(&sheets::run_status);
    plugin.sheet<RunShow>(&sheets::run_shown);
    plugin.sheet<RunList>(&sheets::run_list);
    plugin.sheet<RunAbandon>(&sheets::run_abandoned);
    plugin.sheet<RunSealTest>(&sheets::seal_test);
    plugin.sheet<RunUndoSealTest>(&sheets::seal_test_undone);
    plugin.sheet<RunMeasure>(&sheets::measured);
    plugin.sheet<RunHold>(&sheets::held);
    plugin.sheet<RunRelease>(&sheets::released);
    plugin.sheet<ProcessSet>(&sheets::process_set);
    plugin.sheet<ProcessList>(&sheets::process_list);
    plugin.sheet<ProcessReference>(&sheets::process_reference);
    plugin.sheet<StorageInspect>(&sheets::inspected);
    plugin.sheet<StorageTemperature>(&sheets::temperature);
    plugin.sheet<StorageShow>(&sheets::storage);
    plugin.sheet<OpeningShow>(&sheets::opening);
    plugin.sheet<OpeningRecord>(&sheets::opened);
    plugin.sheet<TraceLot>(&sheets::traced_lot);
    plugin.sheet<TraceBrew>(&sheets::traced_brew);
}

} // namespace barmkeep::canning
