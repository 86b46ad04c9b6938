#include "plugins/reorder/reorder.hpp"

#include "sdk/contract/record.hpp"
#include "sdk/plugin/pages.hpp"
#include "sdk/plugin/together.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace barmkeep::reorder {
namespace {

using plugin::PluginCall;
using plugin::Requester;
using plugin::Together;

constexpr std::string_view collection = "limits";
// Comes in place of events that were dropped, and to every handler; only one computes anew.
constexpr std::string_view missed = "event.missed";

Limit limit_in(const contract::Record& record) {
    try {
        return decode<Limit>(record.document);
    } catch (const Error& error) {
        throw Error(ErrorKind::internal, "record_not_understood",
                    fmt::format("The limit of {} cannot be read: {}", record.name, error.what()));
    }
}

std::vector<Limit> limits_kept(const Requester& cellar) {
    contract::RecordList::Params params;
    params.collection = collection;
    std::vector<Limit> limits;
    for (const auto& record : plugin::all_pages<contract::RecordList>(
             cellar, std::move(params), &contract::RecordList::Result::records))
        limits.push_back(limit_in(record));
    return limits;
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

Scene scene_of(const Requester& cellar) {
    auto glance = cellar.call<contract::CellarGlance>({});
    return {glance.today, std::move(glance.shelves), goods_known(cellar), planned_brews(cellar),
            glance.cellar.units};
}

} // namespace

void Reorder::declare(plugin::Declaration<Reorder>& declaration) {
    declaration.method<LimitSet>(&Reorder::set);
    declaration.method<LimitList>(&Reorder::list);
    declaration.method<LimitRemove>(&Reorder::remove);
    declaration.method<LimitCheck>(&Reorder::check);
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
                  fmt::format("The reminders could not be brought up to date: {}", error.what()));
    }
}

Limit Reorder::set(const PluginCall& call, const LimitSet::Params& params) const {
    return limit_in(call.once<contract::RecordPut>([&] {
        const Limit limit = limit_of(params, goods_known(call));
        contract::RecordPut::Params put;
        put.collection = collection;
        put.name = limit.good;
        put.document = to_json(limit).as_object();
        return put;
    }));
}

LimitList::Result Reorder::list(const PluginCall& call, const Nothing&) const {
    return {limits_kept(call)};
}

LimitRemove::Result Reorder::remove(const PluginCall& call,
                                    const LimitRemove::Params& params) const {
    const auto done = call.once<contract::LedgerTogether>([&] {
        const auto goods = goods_known(call);
        const auto* good = find_good(goods, params.good);
        const std::string name = good != nullptr ? good->name : params.good;
        Together writes;
        writes.add<contract::RecordRemove>({std::string(collection), name});
        writes.add<contract::ReminderClear>({reminder_name(name)});
        return std::move(writes).steps();
    });
    return {Together::result<contract::RecordRemove>(done, 0).was_there};
}

LimitCheck::Result Reorder::check(const PluginCall& call, const LimitCheck::Params& params) const {
    const auto limits = limits_kept(call);
    const Scene scene = scene_of(call);
    const auto* good = params.good ? find_good(scene.goods, *params.good) : nullptr;
    const auto name = good != nullptr ? std::optional{good->name} : params.good;
    LimitCheck::Result result;
    result.day = scene.today;
    for (const auto& limit : limits) {
        if (name && limit.good != *name)
            continue;
        auto standing = standing_of(limit, scene);
        if (standing.low || !standing.goods || params.all || name)
            result.standings.push_back(std::move(standing));
    }
    if (name && result.standings.empty())
        throw Error(ErrorKind::not_found, "no_limit", fmt::format("'{}' has no limit.", *name),
                    fmt::format("Set one: barm limit set '{}' AMOUNT", *name), "/good");
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
    const auto limits = limits_kept(host_);
    const auto reminders = reminders_kept(host_);
    const Scene scene = limits.empty() ? Scene{} : scene_of(host_);
    std::set<std::string> wanted;
    for (const auto& limit : limits) {
        const auto standing = standing_of(limit, scene);
        if (!standing.low)
            continue;
        const auto name = reminder_name(limit.good);
        wanted.insert(name);
        const auto before = std::ranges::find(reminders, name, &contract::Reminder::name);
        (void)host_.call<contract::ReminderPost>(
            reminder_of(standing, before == reminders.end() ? nullptr : &*before));
    }
    for (const auto& reminder : reminders)
        if (reminder.owner == identity.name && !wanted.contains(reminder.name))
            (void)host_.call<contract::ReminderClear>({reminder.name});
}

} // namespace barmkeep::reorder
