// The sheets of the ledger's methods: what a person reads of their answers.
//
// Each is a pure function of what was asked and answered; sheets.cpp lists which method has which.
// One file a concept; parts.hpp has what they share.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/cellar.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/price.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::ledger::sheets {

/// The sheet of a method: of its params and its result.
template <Method M>
using Made = sheet::Sheet(const typename M::Params&, const typename M::Result&);

// glance.cpp and cellar.cpp
Made<contract::CellarGlance> glance;
Made<contract::CellarShow> cellar_show;
Made<contract::CellarSet> cellar_set;
// stock.cpp
Made<contract::StockList> stock;
// posting.cpp: what happens to stock
Made<contract::StockBuy> bought;
Made<contract::StockUse> used;
Made<contract::StockDiscard> discarded;
Made<contract::StockRecount> recounted;
Made<contract::StockConvert> converted;
// lots.cpp and lot_history.cpp
Made<contract::LotShow> lot_show;
Made<contract::LotChange> lot_change;
Made<contract::LotHold> lot_hold;
Made<contract::LotRelease> lot_release;
Made<contract::LotVouch> lot_vouch;
Made<contract::LotHistory> lot_history;
// entries.cpp
Made<contract::EntryList> entry_list;
Made<contract::EntryShow> entry_show;
Made<contract::EntryPreview> entry_preview;
Made<contract::EntryUndo> entry_undo;
// brews.cpp
Made<contract::BrewPlan> brew_plan;
Made<contract::BrewChange> brew_change;
Made<contract::BrewShow> brew_show;
Made<contract::BrewList> brew_list;
Made<contract::BrewNeed> brew_need;
Made<contract::BrewReserve> brew_reserve;
Made<contract::BrewUnreserve> brew_unreserve;
Made<contract::BrewFinish> brew_finish;
Made<contract::BrewCancel> brew_cancel;
// goods.cpp
Made<contract::GoodAdd> good_add;
Made<contract::GoodChange> good_change;
Made<contract::GoodList> good_list;
// reminders.cpp
Made<contract::ReminderPost> reminder_post;
Made<contract::ReminderList> reminder_list;
Made<contract::ReminderDone> reminder_done;
Made<contract::ReminderSnooze> reminder_snooze;
Made<contract::ReminderClear> reminder_clear;
// prices.cpp
Made<contract::PriceSet> price_set;
Made<contract::PriceList> price_list;
// equipment.cpp
Made<contract::CannerSet> canner_set;
Made<contract::JarSet> jar_set;
Made<contract::FlaskSet> flask_set;
Made<contract::EquipmentList> equipment_list;
Made<contract::EquipmentRemove> equipment_remove;
// copies.cpp: the ledger as a whole
Made<contract::LedgerCheck> ledger_check;
Made<contract::LedgerBackup> ledger_backup;

} // namespace barmkeep::ledger::sheets
