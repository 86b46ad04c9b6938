#include "plugins/starter/starter.hpp"

#include "plugins/starter/living_yeast.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/plugin/pages.hpp"

#include <charconv>
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

contract::RecordList::Params starters() {
    contract::RecordList::Params params;
    params.collection = collection;
    return params;
}

/// One above the highest number there is; the record's `expected` settles a race for it.
std::int64_t next_number(const PluginCall& call) {
    std::int64_t last = 0;
    plugin::each_page<contract::RecordList>(
        call, starters(), [&](const contract::RecordList::Result& page) {
            if (page.records.empty())
                return;
            const std::string& name = page.records.back().name;
            std::from_chars(name.data(), name.data() + name.size(), last);
        });
    return last + 1;
}

contract::Record record_of(const PluginCall& call, std::int64_t number) {
    contract::RecordGet::Params params;
    params.collection = collection;
    params.name = record_name(number);
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

} // namespace

void Starter::declare(plugin::Declaration<Starter>& declaration) {
    declaration.method<StarterYeast>(&Starter::yeast);
    declaration.method<StarterPlan>(&Starter::plan);
    declaration.method<StarterMake>(&Starter::make);
    declaration.method<StarterFeed>(&Starter::feed);
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
    for (const auto& lot : lots_of(glance.shelves, contract::GoodClass::yeast))
        if (lot.free.steps > 0)
            result.yeast.push_back(living_yeast(lot, lot.free, keeping));
    return result;
}

Plan Starter::plan(const PluginCall& call, const Wish& wish) const {
    return make_plan(wish, scene_for(call, wish.brew), settings_);
}

Taken Starter::make(const PluginCall& call, const Wish& wish) const {
    return taken_of(call.once<contract::LedgerTogether>([&] {
        const Plan plan = make_plan(wish, scene_for(call, wish.brew), settings_);
        return writes_of_making(next_number(call), plan, wish.nutrient);
    }));
}

Taken Starter::feed(const PluginCall& call, const StarterFeed::Params& params) const {
    return taken_of(call.once<contract::LedgerTogether>([&] {
        const auto record = record_of(call, params.number);
        const Made made = made_of(record);
        return writes_of_feeding(made, record.version, params.concentrate, params.nutrient,
                                 scene_for(call, made.plan.brew), settings_);
    }));
}

Made Starter::show(const PluginCall& call, const StarterShow::Params& params) const {
    return made_of(record_of(call, params.number));
}

StarterList::Result Starter::list(const PluginCall& call, const StarterList::Params& params) const {
    auto asked = starters();
    static_cast<contract::Page&>(asked) = params;
    const auto records = call.call<contract::RecordList>(asked);
    StarterList::Result result;
    for (const auto& record : records.records) {
        const Made made = made_of(record);
        result.starters.push_back({made.number, made.plan.day, made.plan.brew, made.steps_made,
                                   std::ssize(made.plan.steps)});
    }
    result.next = records.next;
    return result;
}

} // namespace barmkeep::starter
