#include "plugins/starter/starter.hpp"

#include "plugins/starter/living_yeast.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/plugin/pages.hpp"

#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using plugin::PluginCall;

Scene scene_for(const PluginCall& call, std::optional<std::int64_t> brew) {
    Scene scene;
    const auto glance = call.call<contract::CellarGlance>({});
    scene.today = glance.today;
    scene.shelves = glance.shelves;
    if (brew)
        scene.brew = call.call<contract::BrewShow>({*brew});
    const auto equipment = call.call<contract::EquipmentList>({});
    scene.sizes = equipment.jars;
    scene.flasks = equipment.flasks;
    return scene;
}

Moment now_of(const PluginCall& call) {
    return {call.arrived(), call.call<contract::CellarGlance>({}).today};
}

contract::Record record_of(const PluginCall& call, std::int64_t number) {
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
                    "See what there is: barm starter list", "/number");
    }
}

Kept kept(const PluginCall& call, std::int64_t number) {
    const auto record = record_of(call, number);
    return {made_of(record), record.version};
}

/// The starter as a write left it, whatever was noted since.
Made made_by(const PluginCall& call, const contract::RecordChanged& changed) {
    return made_of(record_of(call, changed.number), changed.lines);
}

std::vector<contract::Entry> entries_about(const PluginCall& call, std::int64_t number) {
    contract::EntryList::Params params;
    params.about = contract::Link{std::string(link_target), number};
    return plugin::all_pages<contract::EntryList>(call, params,
                                                  &contract::EntryList::Result::entries);
}

Made end(const PluginCall& call, std::int64_t number, MadeState state,
         const std::optional<std::string>& note) {
    return made_by(call, call.once<contract::RecordAppend>([&] {
        return writes_of_ending(kept(call, number), state, now_of(call), note);
    }));
}

} // namespace

void Starter::declare(plugin::Declaration<Starter>& declaration) {
    declaration.method<StarterYeast>(&Starter::yeast);
    declaration.method<StarterPlan>(&Starter::plan);
    declaration.method<StarterMake>(&Starter::make);
    declaration.method<StarterFeed>(&Starter::feed);
    declaration.method<StarterFinish>(&Starter::finish);
    declaration.method<StarterDrop>(&Starter::drop);
    declaration.method<StarterUndo>(&Starter::undo);
    declaration.method<StarterShow>(&Starter::show);
    declaration.method<StarterList>(&Starter::list);
}

Starter::Starter(const plugin::Host&, const Settings& settings) : settings_{settings} {}

StarterYeast::Result Starter::yeast(const PluginCall& call,
                                    const StarterYeast::Params& params) const {
    const auto glance = call.call<contract::CellarGlance>({});
    const Keeping keeping{params.day.value_or(glance.today),
                          params.kept_at.value_or(settings_.kept_at), settings_.dry_pack};
    StarterYeast::Result result;
    result.day = keeping.day;
    for (const auto& lot : lots_of(glance.shelves, contract::Category::yeast))
        if (const auto free = contract::available_on(lot, keeping.day); free.steps > 0)
            result.yeast.push_back(living_yeast(lot, free, keeping));
    return result;
}

Plan Starter::plan(const PluginCall& call, const Wish& wish) const {
    return make_plan(wish, scene_for(call, wish.brew), settings_);
}

Taken Starter::make(const PluginCall& call, const Wish& wish) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        const Scene scene = scene_for(call, wish.brew);
        return writes_of_making(make_plan(wish, scene, settings_), wish,
                                {call.arrived(), scene.today});
    });
    return taken_of(made_by(call, changed_by(written)), written);
}

Taken Starter::feed(const PluginCall& call, const StarterFeed::Params& params) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        const Kept before = kept(call, params.number);
        return writes_of_feeding(before, params, scene_for(call, before.made.plan.brew),
                                 call.arrived(), settings_);
    });
    return taken_of(made_by(call, changed_by(written)), written);
}

Made Starter::finish(const PluginCall& call, const StarterFinish::Params& params) const {
    return end(call, params.number, MadeState::finished, params.note);
}

Made Starter::drop(const PluginCall& call, const StarterDrop::Params& params) const {
    return end(call, params.number, MadeState::dropped, params.reason);
}

Taken Starter::undo(const PluginCall& call, const StarterUndo::Params& params) const {
    const auto written = call.once<contract::LedgerBatch>([&] {
        return writes_of_undoing(kept(call, params.number), entries_about(call, params.number),
                                 now_of(call), params.reason);
    });
    return given_back(made_by(call, changed_by(written)), written);
}

Made Starter::show(const PluginCall& call, const MadeNumber& params) const {
    return made_of(record_of(call, params.number));
}

StarterList::Result Starter::list(const PluginCall& call, const StarterList::Params& params) const {
    contract::RecordList::Params asked;
    static_cast<contract::Page&>(asked) = params;
    asked.collection = collection;
    asked.order = contract::RecordOrder::oldest;
    if (!params.all)
        asked.states = {std::string(to_string(MadeState::growing))};
    const auto page = call.call<contract::RecordList>(asked);
    StarterList::Result result;
    for (const auto& record : page.records) {
        const Plan plan = made_of(record, 0).plan;
        const auto state = from_string<MadeState>(record.state.value_or(""));
        result.starters.push_back({record.number, state.value_or(MadeState::growing), plan.day,
                                   contract::linked(record.about, "brew"), std::ssize(plan.steps)});
    }
    result.next = page.next;
    return result;
}

} // namespace barmkeep::starter
