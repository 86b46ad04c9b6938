#include "plugins/starter/plan.hpp"

#include "plugins/starter/cautions.hpp"
#include "plugins/starter/growth_steps.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/brewing/units.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::litre;
using brewing::System;
using brewing::Volume;

// Without a flask the plan is bounded all the same; no household starter is larger.
constexpr Volume largest_vessel = 20.0 * litre;

const contract::Flask& flask_named(const std::string& name, const Scene& scene) {
    const auto flask = std::ranges::find(scene.flasks, name, &contract::Flask::name);
    if (flask != scene.flasks.end())
        return *flask;
    throw Error(ErrorKind::not_found, "no_such_flask", fmt::format("There is no flask '{}'.", name),
                "See what there is: barm equipment list; make it known: barm flask set", "/flask");
}

/// Volume and gravity to be pitched, the brew day's where the wish has none of its own.
void set_wort(Plan& plan, const Wish& wish, const Scene& scene) {
    const auto& brew = scene.brew;
    const auto volume = wish.volume ? wish.volume : brew ? brew->volume : std::nullopt;
    const auto gravity = wish.gravity ? wish.gravity : brew ? brew->gravity : std::nullopt;
    std::vector<FieldError> faults;
    const auto missing = [&](std::string_view what, std::string_view example) {
        const auto hint =
            brew ? fmt::format("Give it here, or note it: barm brew change {} --{} {}",
                               brew->number, what, example)
                 : fmt::format("Give it, or name a brew day that has it: --{} {}", what, example);
        faults.push_back({fmt::format("/{}", what), "missing",
                          fmt::format("The {} to be pitched is not known.", what), hint});
    };
    if (!volume)
        missing("volume", "'20 L'");
    if (!gravity)
        missing("gravity", "1.048");
    if (!faults.empty())
        throw Error(ErrorKind::params, std::move(faults));
    plan.volume = *volume;
    plan.gravity = *gravity;
}

void set_yeast(Plan& plan, const Wish& wish, const Scene& scene, const Settings& settings) {
    const Keeping keeping{plan.day, wish.kept_at.value_or(settings.kept_at), settings.dry_pack};
    for (const auto& taken : yeast_for(wish, scene.shelves, scene.taking(plan.day, wish.boiled))) {
        plan.yeast.push_back(living_yeast(taken.lot, taken.amount, keeping));
        const auto& row = plan.yeast.back();
        if (!row.cells)
            throw Error(
                ErrorKind::conflict, "cells_unknown",
                fmt::format("Nothing can be said of the living cells in {}.", to_text(row.lot)),
                row.notes.empty() ? "" : row.notes.back(), "/yeast");
    }
    plan.cells_now = cells_of(plan.yeast);
}

void set_need(Plan& plan, const Wish& wish) {
    const bool dry = plan.yeast.front().material == Material::dry_pack;
    Need need = cells_wanted(wish, plan.volume, plan.gravity, plan.yeast.front().material);
    if (dry) {
        plan.warnings.emplace_back("Makers of dry yeast mean it to be pitched without a starter "
                                   "(common practice, no source).");
        // Once it has grown in a starter it is no longer dry yeast, and wants the others' rates.
        if (wish.wort || judged(plan.cells_now, need.target) == Enough::no)
            need = cells_wanted(wish, plan.volume, plan.gravity, Material::liquid_pack);
    }
    plan.cells_needed = need.range;
    plan.target = need.target;
    plan.target_reason = need.reason;
}

void set_steps(Plan& plan, const Wish& wish, const Scene& scene, const Settings& settings) {
    const double usable = 1.0 - settings.headroom;
    const auto& school = school_named(wish.school);
    plan.step_limit = fmt::format("{}: {}, {:g}-fold ({})", school.key, school.school, school.fold,
                                  school.source);
    plan.growth_model = growth_model(plan.aeration);
    GrowthWish growth;
    growth.cells_now = plan.cells_now;
    growth.target = plan.target;
    growth.wort = wish.wort;
    growth.largest_wort =
        wish.flask ? flask_named(*wish.flask, scene).volume * usable : largest_vessel;
    growth.gravity = wish.starter_gravity.value_or(settings.gravity);
    growth.aeration = plan.aeration;
    growth.school = &school;
    plan.steps = growth_steps(growth);
    plan.cells_end = plan.steps.empty() ? plan.cells_now : plan.steps.back().after;
    plan.enough = judged(plan.cells_end, plan.target);
    for (const auto& step : plan.steps)
        if (step.after.likely / step.before.likely > school.fold * (1.0 + 1e-6))
            plan.warnings.push_back(fmt::format("A step grows {:.1f}-fold; {} allow {:g}-fold.",
                                                step.after.likely / step.before.likely,
                                                school.school, school.fold));
}

void set_vessel(Plan& plan, const Wish& wish, const Scene& scene, const Settings& settings) {
    if (plan.steps.empty())
        return;
    const Volume most =
        std::ranges::max(plan.steps, {}, [](const Step& step) { return step.wort; }).wort;
    plan.vessel = most / (1.0 - settings.headroom);
    const auto takes = [&](const contract::Flask& flask) {
        return flask.volume >= *plan.vessel * (1.0 - 1e-9);
    };
    if (wish.flask) {
        plan.flask = wish.flask;
        if (!takes(flask_named(*wish.flask, scene)))
            plan.warnings.push_back(fmt::format(
                "Flask {} leaves less room for foam than the settings want.", *wish.flask));
        return;
    }
    const contract::Flask* smallest = nullptr;
    for (const auto& flask : scene.flasks)
        if (takes(flask) && (smallest == nullptr || flask.volume < smallest->volume))
            smallest = &flask;
    if (smallest != nullptr)
        plan.flask = smallest->name;
    else if (!scene.flasks.empty())
        plan.warnings.emplace_back("No flask known here takes it; name one with --flask for steps "
                                   "that fit it.");
}

/// Why a lot with jars in it is not taken, or what makes it usable; nothing if it is stock.
std::optional<std::string> passed_over(const contract::Lot& lot, Date day) {
    const auto code = to_text(lot.code);
    switch (contract::standing_on(lot, day)) {
    case contract::Standing::held:
        if (contract::is_usable_chilled(lot, day))
            return fmt::format("{0} is passed over: {1}.  Until {2} it may be used if it was kept "
                               "cold and is boiled first: --concentrate {0} --boiled.",
                               code, why_held(lot), to_text(*lot.best_by));
        return fmt::format("{} is on hold and passed over: {}.", code, why_held(lot));
    case contract::Standing::past:
        return fmt::format("{} was best by {} and is passed over: look at it, and throw it away if "
                           "in doubt.",
                           code, to_text(*lot.best_by));
    default:
        return std::nullopt;
    }
}

void warn_of_jars_passed_over(Plan& plan, const Wish& wish, const Scene& scene) {
    for (const auto& lot : lots_of(scene.shelves, contract::Category::concentrate)) {
        const bool is_named = wish.concentrate && is_code_of(lot, *wish.concentrate);
        const bool is_taken =
            available(lot, scene.taking(plan.day, wish.boiled), is_named).steps > 0;
        if (const auto why = passed_over(lot, plan.day); why && !is_taken && lot.on_hand.steps > 0)
            plan.warnings.push_back(*why);
    }
}

void set_jars(Plan& plan, const Wish& wish, const Scene& scene, const Settings& settings) {
    if (plan.steps.empty())
        return;
    auto stock =
        jars_on_shelf(scene.shelves, wish.concentrate, scene.taking(plan.day, wish.boiled));
    for (auto& step : plan.steps) {
        fill_step(step, stock, scene, settings);
        const auto more = jar_warnings(step, scene, plan.day);
        plan.warnings.insert(plan.warnings.end(), more.begin(), more.end());
    }
    warn_of_jars_passed_over(plan, wish, scene);
    plan.cautions = cautions();
}

/// The releases of all lots that the plan takes, yeast first.
void set_despite(Plan& plan, const Scene& scene) {
    std::vector<LotCode> taken;
    for (const auto& yeast : plan.yeast)
        taken.push_back(yeast.lot);
    for (const auto& step : plan.steps)
        for (const auto& jars : step.jars)
            taken.push_back(jars.lot);
    for (const auto& code : taken)
        for (const auto& shelf : scene.shelves)
            for (const auto& lot : shelf.lots)
                if (lot.code == code)
                    add_releases(plan.despite, lot);
}

/// What to know of a lot whose jars are opened.
void add_lot_warnings(std::vector<std::string>& warnings, const contract::Lot& lot, Date day) {
    const auto code = to_text(lot.code);
    switch (contract::standing_on(lot, day)) {
    case contract::Standing::held:
        warnings.push_back(fmt::format(
            "The jars of {} never become shelf stock: {}.  Use one only if it was kept cold all "
            "the time, look and smell first, boil it before it goes into the starter, and throw it "
            "away if in doubt.",
            code, why_held(lot)));
        break;
    case contract::Standing::past:
        warnings.push_back(fmt::format("{} was best by {}; it is in the plan because it was named. "
                                       " Look at it first, and throw it away if in doubt.",
                                       code, to_text(*lot.best_by)));
        break;
    default:
        break;
    }
    if (lot.facts.process_note)
        warnings.push_back(fmt::format("{}: {}", code, *lot.facts.process_note));
    if (!lot.facts.gravity)
        warnings.push_back(
            fmt::format("The gravity of {} was not measured; it is that of its recipe.", code));
}

} // namespace

void fill_step(Step& step, std::vector<JarStock>& stock, const Scene& scene,
               const Settings& settings) {
    const auto poured = pour(stock, {step.wort, step.gravity}, scene.sizes);
    step.jars = poured.jars;
    step.water.reset();
    step.extract_missing.reset();
    step.nutrient.reset();
    if (poured.extract_missing > brewing::Mass{})
        step.extract_missing = poured.extract_missing;
    else
        step.water = poured.water;
    if (settings.nutrient_per_litre > brewing::Mass{})
        step.nutrient = settings.nutrient_per_litre * step.wort.in(litre);
}

std::vector<std::string> jar_warnings(const Step& step, const Scene& scene, Date day) {
    std::vector<std::string> warnings;
    const auto lots = lots_of(scene.shelves, contract::Category::concentrate);
    for (const auto& jars : step.jars) {
        const auto code = to_text(jars.lot);
        if (jars.left >= 1.0 * brewing::millilitre)
            warnings.push_back(fmt::format("{} of an opened jar of {} is left over: use it at once "
                                           "or throw it away.",
                                           print(jars.left, System::metric), code));
        const auto lot = std::ranges::find(lots, jars.lot, &contract::Lot::code);
        if (lot != lots.end())
            add_lot_warnings(warnings, *lot, day);
    }
    if (step.extract_missing)
        warnings.push_back(fmt::format("The jars that may be opened lack {} of extract: can more, "
                                       "name other jars, or take it from elsewhere.",
                                       print(*step.extract_missing, System::metric)));
    return warnings;
}

Plan make_plan(const Wish& wish, const Scene& scene, const Settings& settings) {
    Plan plan;
    plan.day = wish.day.value_or(scene.today);
    plan.brew = wish.brew;
    plan.beer = wish.beer;
    plan.aeration = wish.aeration.value_or(settings.aeration);
    set_wort(plan, wish, scene);
    set_yeast(plan, wish, scene, settings);
    set_need(plan, wish);
    set_steps(plan, wish, scene, settings);
    set_vessel(plan, wish, scene, settings);
    set_jars(plan, wish, scene, settings);
    set_despite(plan, scene);
    if (plan.enough == Enough::no)
        plan.warnings.emplace_back("By the likely figure this ends below the cells recommended: "
                                   "take more yeast, a larger starter or flask, or stir it.");
    return plan;
}

} // namespace barmkeep::starter
