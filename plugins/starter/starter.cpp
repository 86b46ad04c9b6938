#include "plugins/starter/starter.hpp"

#include "plugins/starter/living_yeast.hpp"
#include "plugins/starter/sheets/sheets.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/plugin/pages.hpp"

#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using plugin::PluginCall;

CellarView view_for(const PluginCall& call, std::optional<std::int64_t> brew) {
    CellarView view;
    const auto glance = call.call<contract::CellarGlance>({});
    view.today = glance.today;
    view.shelves = glance.shelves;
    if (brew)
        view.brew = call.call<contract::BrewShow>({*brew});
    const auto equipment = call.call<contract::EquipmentList>({});
    view.sizes = equipment.jars;
    view.flasks = equipment.flasks;
    return view;
}

RequestTime now_of(const PluginCall& call) {
    return {call.arrived(), call.call<contract::CellarGlance>({}).today};
}

contract::Record stored_record(const PluginCall& call, std::int64_t number) {
    contract::RecordGet::Params params;
    params.collection = collection;
    params.number = number;
    try {
        return call.call<contract::RecordGet>(params);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::not_found)
            throw;
        throw Error(ErrorKind::not_found, "no_such_starter",
                    fmt::format("There is no starter {}.", number),
                    "See what there is: barm starter list --all", "/starter");
    }
}

StoredStarter stored(const PluginCall& call, std::int64_t number) {
    const auto record = stored_record(call, number);
    return {record_from(record), record.version};
}

/// The starter as a write left it, whatever was noted since.
StarterRecord record_after(const PluginCall& call, const contract::RecordChanged& changed) {
    return record_from(stored_record(call, changed.number), changed.lines);
}

std::vector<contract::Entry> entries_about(const PluginCall& call, std::int64_t number) {
    contract::EntryList::Params params;
    params.about = contract::Link{std::string(link_target), number};
    return plugin::all_pages<contract::EntryList>(call, params,
                                                  &contract::EntryList::Result::entries);
}

StarterRecord end(const PluginCall& call, std::int64_t number, StarterState state,
                  const std::optional<std::string>& note) {
    return record_after(call, call.once<contract::RecordAppend>([&] {
        return writes_of_ending(stored(call, number), state, now_of(call), note);
    }));
}

} // namespace

void Starter::declare(plugin::Declaration<Starter>& declaration) {
    declaration.method<YeastList>(&Starter::yeast);
    declaration.method<StarterPlan>(&Starter::plan);
    declaration.method<StarterMake>(&Starter::make);
    declaration.method<StarterStep>(&Starter::step);
    declaration.method<StarterFinish>(&Starter::finish);
    declaration.method<StarterDrop>(&Starter::drop);
    declaration.method<StarterUndo>(&Starter::undo);
    declaration.method<StarterShow>(&Starter::show);
    declaration.method<StarterList>(&Starter::list);
    declaration.sheet<YeastList>(&sheets::yeast);
    declaration.sheet<StarterPlan>(&sheets::plan);
    declaration.sheet<StarterMake>(&sheets::made);
    declaration.sheet<StarterStep>(&sheets::stepped);
    declaration.sheet<StarterFinish>(&sheets::finished);
    declaration.sheet<StarterDrop>(&sheets::dropped);
    declaration.sheet<StarterUndo>(&sheets::undone);
    declaration.sheet<StarterShow>(&sheets::shown);
    declaration.sheet<StarterList>(&sheets::listed);
}

Starter::Starter(const plugin::Host&, const Settings& settings) : settings_{settings} {}

YeastList::Result Starter::yeast(const PluginCall& call, const YeastList::Params& params) const {
    const auto glance = call.call<contract::CellarGlance>({});
    const Storage keeping{params.day.value_or(glance.today),
                          params.kept_at.value_or(settings_.kept_at), settings_.dry_pack};
    YeastList::Result result;
    result.day = keeping.day;
    for (const auto& lot : lots_of(glance.shelves, contract::Category::yeast))
        if (const auto free = contract::available_on(lot, keeping.day); free.steps > 0)
            result.yeast.push_back(living_yeast(lot, free, keeping));
    return result;
}

Plan Starter::plan(const PluginCall& call, const StarterRequest& request) const {
    return make_plan(request, view_for(call, request.brew), settings_);
}

StockChange Starter::make(const PluginCall& call, const StarterRequest& request) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        const CellarView view = view_for(call, request.brew);
        return writes_of_making(make_plan(request, view, settings_), request,
                                {call.arrived(), view.today});
    });
    return stock_taken(record_after(call, changed_by(written)), written);
}

StockChange Starter::step(const PluginCall& call, const StarterStep::Params& params) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        const StoredStarter before = stored(call, params.starter);
        return writes_of_step(before, params, view_for(call, before.starter.plan.brew),
                              call.arrived(), settings_);
    });
    return stock_taken(record_after(call, changed_by(written)), written);
}

StarterRecord Starter::finish(const PluginCall& call, const StarterFinish::Params& params) const {
    return end(call, params.starter, StarterState::finished, params.note);
}

StarterRecord Starter::drop(const PluginCall& call, const StarterDrop::Params& params) const {
    return end(call, params.starter, StarterState::dropped, params.reason);
}

StockChange Starter::undo(const PluginCall& call, const StarterUndo::Params& params) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        return writes_of_undoing(stored(call, params.starter), entries_about(call, params.starter),
                                 now_of(call), params.reason);
    });
    return stock_returned(record_after(call, changed_by(written)), written);
}

StarterRecord Starter::show(const PluginCall& call, const StarterNumber& params) const {
    return record_from(stored_record(call, params.starter));
}

StarterList::Result Starter::list(const PluginCall& call, const StarterList::Params& params) const {
    contract::RecordList::Params asked;
    static_cast<contract::Page&>(asked) = params;
    asked.collection = collection;
    asked.order = contract::RecordOrder::oldest;
    if (!params.all)
        asked.states = {std::string(to_string(StarterState::growing))};
    const auto page = call.call<contract::RecordList>(asked);
    StarterList::Result result;
    for (const auto& record : page.records) {
        const Plan plan = record_from(record, 0).plan;
        const auto state = from_string<StarterState>(record.state.value_or(""));
        result.starters.push_back({record.number, state.value_or(StarterState::growing), plan.day,
                                   contract::linked(record.about, "brew"), std::ssize(plan.steps)});
    }
    result.next = page.next;
    return result;
}

} // namespace barmkeep::starter
