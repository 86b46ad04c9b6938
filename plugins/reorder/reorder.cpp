#include "plugins/reorder/reorder.hpp"

#include "plugins/reorder/sheets.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/batch.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace barmkeep::reorder {
namespace {

using plugin::Batch;
using plugin::PluginCall;
using plugin::Requester;

// Comes in place of events that were dropped, and to every handler; only one handler computes.
constexpr std::string_view missed = "event.missed";

ReorderPoint point_in(const contract::Record& record, const json::object& document) {
    try {
        return decode<ReorderPoint>(document);
    } catch (const Error& error) {
        throw Error(ErrorKind::internal, "record_not_understood",
                    fmt::format("Reorder point {} ({}) cannot be read: {}", record.number,
                                record.name.value_or(""), error.what()));
    }
}

/// A reorder point and the number of its record.
struct KeptPoint {
    std::int64_t number = 0;
    ReorderPoint point;
};

std::vector<KeptPoint> points_kept(const Requester& cellar) {
    contract::RecordList::Params params;
    params.collection = collection;
    std::vector<KeptPoint> points;
    for (const auto& record : plugin::all_pages<contract::RecordList>(
             cellar, std::move(params), &contract::RecordList::Result::records))
        points.push_back({record.number, point_in(record, record.document)});
    return points;
}

/// The reorder point as it was set by one change.  Each line of the record's log is one setting, so
/// a repeated request has the same answer whatever was set since.
ReorderPoint point_set_by(const Requester& cellar, const contract::RecordChanged& changed) {
    contract::RecordGet::Params params;
    params.collection = collection;
    params.number = changed.number;
    const auto record = cellar.call<contract::RecordGet>(params);
    return point_in(record, record.lines.at(static_cast<std::size_t>(changed.lines - 1)));
}

std::vector<contract::Brew> planned_brews(const Requester& cellar) {
    return plugin::all_pages<contract::BrewList>(cellar, {}, &contract::BrewList::Result::brews);
}

std::vector<contract::Good> goods_known(const Requester& cellar) {
    return plugin::all_pages<contract::GoodList>(cellar, {}, &contract::GoodList::Result::all);
}

std::vector<contract::Reminder> reminders_kept(const Requester& cellar) {
    contract::ReminderList::Params params;
    params.all = true;
    return plugin::all_pages<contract::ReminderList>(cellar, std::move(params),
                                                     &contract::ReminderList::Result::reminders);
}

Inventory inventory_of(const Requester& cellar) {
    auto glance = cellar.call<contract::CellarGlance>({});
    return {glance.today, std::move(glance.shelves), goods_known(cellar), planned_brews(cellar),
            glance.cellar.units};
}

} // namespace

void Reorder::declare(plugin::Declaration<Reorder>& declaration) {
    declaration.method<ReorderSet>(&Reorder::set);
    declaration.method<ReorderList>(&Reorder::list);
    declaration.method<ReorderRemove>(&Reorder::remove);
    declaration.method<ReorderCheck>(&Reorder::check);
    declaration.sheet<ReorderSet>(&sheets::set);
    declaration.sheet<ReorderList>(&sheets::listed);
    declaration.sheet<ReorderRemove>(&sheets::removed);
    declaration.sheet<ReorderCheck>(&sheets::checked);
    using contract::Topic;
    for (const auto topic : {Topic::entry_posted, Topic::lot_changed, Topic::brew_changed,
                             Topic::good_changed, Topic::day_begun})
        declaration.event(topic, &Reorder::stock_moved);
    declaration.event(Topic::record_changed, &Reorder::record_moved);
    declaration.event(missed, &Reorder::events_missed);
}

Reorder::Reorder(const plugin::Host& host, const Nothing&) : host_{host} {
    try {
        refresh();
    } catch (const std::exception& error) {
        host_.log(plugin::LogLevel::warning,
                  fmt::format("The reminders could not be updated: {}", error.what()));
    }
}

ReorderPoint Reorder::set(const PluginCall& call, const ReorderSet::Params& params) const {
    return point_set_by(call, call.once<contract::RecordPut>([&] {
        const ReorderPoint point = point_of(params, goods_known(call));
        contract::RecordPut::Params put;
        put.collection = collection;
        put.name = point.good;
        put.document = to_json(point).as_object();
        put.lines = {put.document};
        return put;
    }));
}

ReorderList::Result Reorder::list(const PluginCall& call, const Nothing&) const {
    ReorderList::Result result;
    for (auto& kept : points_kept(call))
        result.points.push_back(std::move(kept.point));
    return result;
}

ReorderRemove::Result Reorder::remove(const PluginCall& call,
                                      const ReorderRemove::Params& params) const {
    const auto done = call.once<contract::LedgerBatch>([&] {
        const auto goods = goods_known(call);
        const auto* good = find_good(goods, params.good);
        const std::string name = good != nullptr ? good->name : params.good;
        Batch writes;
        contract::RecordRemove::Params record;
        record.collection = collection;
        record.name = name;
        writes.add<contract::RecordRemove>(record);
        for (const auto& kept : points_kept(call))
            if (kept.point.good == name) {
                contract::ReminderClear::Params reminder;
                reminder.about = contract::Link{std::string(link_target), kept.number};
                reminder.cause = cause;
                writes.add<contract::ReminderClear>(reminder);
            }
        return std::move(writes).steps();
    });
    return {Batch::result<contract::RecordRemove>(done, 0).was_there};
}

ReorderCheck::Result Reorder::check(const PluginCall& call,
                                    const ReorderCheck::Params& params) const {
    const auto points = points_kept(call);
    const Inventory inventory = inventory_of(call);
    const auto* good = params.good ? find_good(inventory.goods, *params.good) : nullptr;
    const auto name = good != nullptr ? std::optional{good->name} : params.good;
    ReorderCheck::Result result;
    result.day = inventory.today;
    for (const auto& kept : points) {
        if (name && kept.point.good != *name)
            continue;
        auto status = status_of(kept.point, inventory);
        if (status.low || !status.category || params.all || name)
            result.goods.push_back(std::move(status));
    }
    if (name && result.goods.empty())
        throw Error(ErrorKind::not_found, "no_reorder_point",
                    fmt::format("The good '{}' has no reorder point.", *name),
                    fmt::format("Set one with: barm reorder set '{}' AMOUNT", *name), "/good");
    return result;
}

void Reorder::stock_moved(const contract::Event& event) const {
    if (event.topic != missed)
        refresh();
}

void Reorder::record_moved(const contract::Event& event) const {
    const auto is = [&](const char* member, std::string_view wanted) {
        const auto* value = event.about.if_contains(member);
        return value != nullptr && value->is_string() && value->get_string() == wanted;
    };
    if (event.topic != missed && is("owner", identity.name) && is("collection", collection))
        refresh();
}

void Reorder::events_missed(const contract::Event&) const {
    refresh();
}

void Reorder::refresh() const {
    const auto points = points_kept(host_);
    const auto reminders = reminders_kept(host_);
    const Inventory inventory = points.empty() ? Inventory{} : inventory_of(host_);
    std::set<std::int64_t> low;
    for (const auto& kept : points) {
        const auto status = status_of(kept.point, inventory);
        if (!status.low)
            continue;
        low.insert(kept.number);
        const auto before = std::ranges::find(reminders, kept.number, point_about);
        (void)host_.call<contract::ReminderPost>(
            reminder_of(status, kept.number, before == reminders.end() ? nullptr : &*before));
    }
    for (const auto& reminder : reminders)
        if (reminder.owner == identity.name && !low.contains(point_about(reminder).value_or(0))) {
            contract::ReminderClear::Params clear;
            clear.name = reminder.name;
            (void)host_.call<contract::ReminderClear>(clear);
        }
}

} // namespace barmkeep::reorder
