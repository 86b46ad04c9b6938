#include "tests/client/fake_cellar.hpp"

#include "daemon/sheets/sheet_methods.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/contract/price.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/contract/service.hpp"
#include <spdlog/sinks/null_sink.h>

namespace barmkeep::test {
namespace {

using namespace contract;

/// Long work that only ends when it is cancelled.
struct DemoSlow {
    static constexpr About about{"demo.slow", Access::look, Effect::reads, "Waits.", true};
    using Params = Nothing;
    using Result = Nothing;
};

template <Method... Ms>
void add_unavailable(MethodTable& table) {
    (table.add(describe<Ms>(), "core",
               [](const Call&, const json::object& params, const Done& done) {
                   answer(done, [&]() -> json::value {
                       (void)read_as<typename Ms::Params>(params);
                       throw Error(ErrorKind::unavailable, "fake", "This fake does not do that.",
                                   "List prices with price.list.");
                   });
               }),
     ...);
}

Lot concentrate_lot() {
    Lot lot;
    lot.code = LotCode('J', 14);
    lot.good = "pint jars";
    lot.category = Category::concentrate;
    lot.on_hand = pieces(7);
    lot.available = pieces(0);
    lot.value = parse_money("10.50");
    lot.canned = parse_date("2026-02-01");
    lot.best_by = parse_date("2027-02-01");
    lot.facts.gravity = brewing::Gravity::sg(1.09);
    contract::Hold hold;
    hold.kind = contract::HoldKind::evidence_missing;
    hold.note = "seal not tested";
    lot.holds = {hold};
    lot.origin = 3;
    return lot;
}

Lot extract_lot() {
    Lot lot;
    lot.code = LotCode('E', 12);
    lot.good = "light dry extract";
    lot.category = Category::extract;
    lot.on_hand = amount_of(2.5 * brewing::kilogram);
    lot.reserved = amount_of(500 * brewing::gram);
    lot.available = amount_of(2 * brewing::kilogram);
    lot.value = parse_money("18.50");
    lot.best_by = parse_date("2026-04-01");
    lot.origin = 1;
    return lot;
}

Shelf shelf_of(const Lot& lot) {
    return {lot.good,      lot.category, lot.on_hand, lot.reserved,
            lot.available, lot.value,    lot.best_by, {lot}};
}

/// Buys each key once, and counts how often it really bought.
class Purchases {
public:
    StockBuy::Result buy(const Call& call, const StockBuy::Params& params) {
        const std::lock_guard lock{mutex_};
        const auto [at, is_new] = by_key_.emplace(call.key, by_key_.size() + 1);
        Lot lot = extract_lot();
        lot.good = params.good;
        lot.on_hand = lot.available = params.amount.as(Measure::mass, "/amount");
        lot.reserved = amount_of(0 * brewing::gram);
        lot.value = params.paid;
        lot.facts = params.facts;
        lot.best_by = params.best_by;
        return {static_cast<std::int64_t>(at->second), lot};
    }

private:
    std::mutex mutex_;
    std::map<std::string, std::size_t> by_key_;
};

void add_answering(MethodTable& table) {
    add_direct<CellarShow>(table, "core",
                           [](const Call&, const auto&) { return sample_glance().cellar; });
    add_direct<CellarGlance>(table, "core",
                             [](const Call&, const auto&) { return sample_glance(); });
    add_direct<StockList>(table, "core", [](const Call&, const StockList::Params& params) {
        StockList::Result result{sample_glance().shelves, sample_glance().value};
        if (params.good == "nothing")
            result.shelves.clear();
        return result;
    });
    const auto purchases = std::make_shared<Purchases>();
    add_direct<StockBuy>(table, "core", [purchases](const Call& call, const auto& params) {
        return purchases->buy(call, params);
    });
    add_direct<GoodList>(table, "core", [](const Call&, const auto&) {
        Good good;
        good.name = "light dry extract";
        good.category = Category::extract;
        good.measure = Measure::mass;
        return GoodList::Result{{}, {good}};
    });
    add_direct<BrewList>(table, "core", [](const Call&, const auto&) {
        return BrewList::Result{{"c2"}, sample_glance().brews};
    });
    add_direct<ReminderList>(table, "core",
                             [](const Call&, const auto&) { return ReminderList::Result{}; });
    add_direct<BrewPlan>(table, "core", [](const Call&, const BrewPlan::Params& params) {
        Brew brew = sample_glance().brews.front();
        brew.day = params.day;
        brew.reserved.clear();
        return brew;
    });
    add_direct<EquipmentRemove>(table, "core", [](const Call&, const auto&) { return Nothing{}; });
}

void add_serving(MethodTable& table) {
    add_direct<ServiceStatus>(table, "core", [](const Call&, const auto&) {
        ServiceStatus::Result result;
        result.version = "0.9.9";
        result.protocol = "1";
        result.schema = 3;
        return result;
    });
    add_direct<LedgerBackup>(table, "core",
                             [](const Call& call, const LedgerBackup::Params& params) {
                                 send_progress(call, 1, 4, "copying");
                                 send_progress(call, 4, 4, "checking");
                                 return LedgerBackup::Result{params.file, 4096, 12};
                             });
    add_direct<DemoSlow>(table, "core", [](const Call& call, const auto&) -> Nothing {
        while (!call.cancelled.stop_requested())
            std::this_thread::yield();
        throw Error(ErrorKind::cancelled, "cancelled", "Stopped as asked.");
    });
    add_direct<CallCancel>(table, "core", [](const Call&, const auto&) { return Nothing{}; });
    table.add(describe<EventWatch>(), "core", {});
    table.add(describe<EventStop>(), "core", {});
}

} // namespace

contract::Glance sample_glance() {
    Glance glance;
    glance.sequence = 41;
    glance.today = parse_date("2026-03-14");
    glance.cellar.name = "Home";
    glance.cellar.currency = "EUR";
    glance.shelves = {shelf_of(extract_lot()), shelf_of(concentrate_lot())};
    glance.value = parse_money("29.00");
    Reminder reminder;
    reminder.name = "gauge";
    reminder.title = "Have the dial gauge tested";
    reminder.due = parse_date("2026-03-12");
    reminder.owner = "canning";
    glance.due = {reminder};
    Brew brew;
    brew.number = 4;
    brew.day = parse_date("2026-03-21");
    brew.name = "Porter";
    brew.volume = 20 * brewing::litre;
    brew.gravity = brewing::Gravity::sg(1.048);
    brew.reserved = {{LotCode('E', 12), "light dry extract", amount_of(500 * brewing::gram)}};
    glance.brews = {brew};
    return glance;
}

void add_fake_cellar(MethodTable& table) {
    sheets::add_sheet_methods(table, std::make_shared<spdlog::logger>(
                                         "fake", std::make_shared<spdlog::sinks::null_sink_mt>()));
    add_answering(table);
    add_serving(table);
    add_unavailable<BrewChange, BrewShow, BrewReserve, BrewUnreserve, BrewFinish, BrewCancel,
                    CellarSet, EntryList, EntryShow, EntryPreview, EntryUndo, BrewNeed, RecordAdd,
                    RecordAppend, LotVouch, CannerSet, JarSet, FlaskSet, EquipmentList, EventPost,
                    GoodAdd, GoodChange, LedgerCheck, LedgerBatch, LedgerRecall, LotShow, LotChange,
                    LotHold, LotRelease, LotHistory, PriceSet, PriceList, RecordPut, RecordGet,
                    RecordList, RecordRemove, ReminderPost, ReminderDone, ReminderSnooze,
                    ReminderClear, ServiceSettings, ServiceReload, PluginList, PluginAdd,
                    PluginRetire, ClockSet, StockUse, StockDiscard, StockRecount, StockConvert>(
        table);
}

} // namespace barmkeep::test
