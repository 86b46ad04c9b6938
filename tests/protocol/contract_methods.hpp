// Every method of the contract, described and without a handler.
#pragma once

#include "sdk/contract/brew.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/contract/event.hpp"
#include "sdk/contract/good.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/lot.hpp"
#include "sdk/contract/price.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/contract/reminder.hpp"
#include "sdk/contract/service.hpp"
#include "sdk/contract/stock.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::tests {

template <class... Methods>
void add_described(MethodTable& table) {
    (table.add(describe<Methods>(), "core", {}), ...);
}

inline void add_contract_methods(MethodTable& table) {
    using namespace contract;
    add_described<BrewPlan, BrewChange, BrewShow, BrewList, BrewNeed, BrewReserve, BrewUnreserve,
                  BrewFinish, BrewCancel>(table);
    add_described<CellarShow, CellarSet, CellarGlance>(table);
    add_described<EntryList, EntryShow, EntryPreview, EntryUndo>(table);
    add_described<CannerSet, JarSet, FlaskSet, EquipmentList, EquipmentRemove>(table);
    add_described<EventWatch, EventStop, EventPost>(table);
    add_described<GoodAdd, GoodList, GoodChange>(table);
    add_described<LedgerCheck, LedgerBackup, LedgerBatch, LedgerRecall>(table);
    add_described<LotShow, LotChange, LotHold, LotRelease, LotVouch, LotHistory>(table);
    add_described<PriceSet, PriceList>(table);
    add_described<RecordAdd, RecordAppend, RecordPut, RecordGet, RecordList, RecordRemove>(table);
    add_described<ReminderPost, ReminderList, ReminderDone, ReminderSnooze, ReminderClear>(table);
    add_described<ServiceStatus, ServiceSettings, ServiceReload, PluginList, PluginAdd,
                  PluginRetire, CallCancel, ClockSet>(table);
    add_described<StockBuy, StockUse, StockDiscard, StockRecount, StockConvert, StockList>(table);
}

} // namespace barmkeep::tests
