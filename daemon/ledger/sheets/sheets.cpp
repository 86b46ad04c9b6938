// Which of the ledger's methods has which sheet.
//
// Without one are what only programs call: event, record, ledger.batch and ledger.recall.
#include "daemon/ledger/sheets/sheets.hpp"

#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {
namespace {

using namespace contract;

void add_stock_sheets(Methods& methods) {
    methods.sheet<CellarGlance>(&sheets::glance);
    methods.sheet<CellarShow>(&sheets::cellar_show);
    methods.sheet<CellarSet>(&sheets::cellar_set);
    methods.sheet<StockList>(&sheets::stock);
    methods.sheet<StockBuy>(&sheets::bought);
    methods.sheet<StockUse>(&sheets::used);
    methods.sheet<StockDiscard>(&sheets::discarded);
    methods.sheet<StockRecount>(&sheets::recounted);
    methods.sheet<StockConvert>(&sheets::converted);
    methods.sheet<GoodAdd>(&sheets::good_add);
    methods.sheet<GoodChange>(&sheets::good_change);
    methods.sheet<GoodList>(&sheets::good_list);
}

void add_lot_sheets(Methods& methods) {
    methods.sheet<LotShow>(&sheets::lot_show);
    methods.sheet<LotChange>(&sheets::lot_change);
    methods.sheet<LotHold>(&sheets::lot_hold);
    methods.sheet<LotRelease>(&sheets::lot_release);
    methods.sheet<LotVouch>(&sheets::lot_vouch);
    methods.sheet<LotHistory>(&sheets::lot_history);
    methods.sheet<EntryList>(&sheets::entry_list);
    methods.sheet<EntryShow>(&sheets::entry_show);
    methods.sheet<EntryPreview>(&sheets::entry_preview);
    methods.sheet<EntryUndo>(&sheets::entry_undo);
}

void add_plan_sheets(Methods& methods) {
    methods.sheet<BrewPlan>(&sheets::brew_plan);
    methods.sheet<BrewChange>(&sheets::brew_change);
    methods.sheet<BrewShow>(&sheets::brew_show);
    methods.sheet<BrewList>(&sheets::brew_list);
    methods.sheet<BrewNeed>(&sheets::brew_need);
    methods.sheet<BrewReserve>(&sheets::brew_reserve);
    methods.sheet<BrewUnreserve>(&sheets::brew_unreserve);
    methods.sheet<BrewFinish>(&sheets::brew_finish);
    methods.sheet<BrewCancel>(&sheets::brew_cancel);
    methods.sheet<ReminderPost>(&sheets::reminder_post);
    methods.sheet<ReminderList>(&sheets::reminder_list);
    methods.sheet<ReminderDone>(&sheets::reminder_done);
    methods.sheet<ReminderSnooze>(&sheets::reminder_snooze);
    methods.sheet<ReminderClear>(&sheets::reminder_clear);
}

void add_house_sheets(Methods& methods) {
    methods.sheet<PriceSet>(&sheets::price_set);
    methods.sheet<PriceList>(&sheets::price_list);
    methods.sheet<CannerSet>(&sheets::canner_set);
    methods.sheet<JarSet>(&sheets::jar_set);
    methods.sheet<FlaskSet>(&sheets::flask_set);
    methods.sheet<EquipmentList>(&sheets::equipment_list);
    methods.sheet<EquipmentRemove>(&sheets::equipment_remove);
    methods.sheet<LedgerCheck>(&sheets::ledger_check);
    methods.sheet<LedgerBackup>(&sheets::ledger_backup);
}

} // namespace

void add_sheets(Methods& methods) {
    add_stock_sheets(methods);
    add_lot_sheets(methods);
    add_plan_sheets(methods);
    add_house_sheets(methods);
}

} // namespace barmkeep::ledger
