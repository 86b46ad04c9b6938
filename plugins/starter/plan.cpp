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

// Without a flask the plan has a bound too; no household starter is larger.
constexpr Volume largest_vessel = 20.0 * litre;

const contract::Flask& flask_named(const std::string& name, const CellarView& view) {
    const auto flask = std::ranges::find(view.flasks, name, &contract::Flask::name);
    if (flask != view.flasks.end())
        return *flask;
    throw Error(ErrorKind::not_found, "no_such_flask", fmt::format("There is no flask '{}'.", name),
                fmt::format("See what there is: barm equipment list. Add it: barm flask set '{}' "
                            "'3 L'",
                            name),
                "/flask");
}

/// Volume and gravity to pitch, the brew day's if the request has none.
void set_wort(Plan& plan, const StarterRequest& request, const CellarView& view) {
    const auto& brew = view.brew;
    const auto volume = request.volume ? request.volume : brew ? brew->volume : std::nullopt;
    const auto gravity = request.gravity ? request.gravity : brew ? brew->gravity : std::nullopt;
    std::vector<FieldError> faults;
    const auto missing = [&](std::string_view what, std::string_view example) {
        const auto hint =
            brew ? fmt::format("Give it here (--{1} {2}), or note it on the brew day: barm brew "
                               "change {0} --{1} {2}",
                               brew->number, what, example)
                 : fmt::format("Give it here (--{} {}), or name a brew day that has it.", what,
                               example);
        faults.push_back({fmt::format("/{}", what), "missing",
                          fmt::format("The {} of the wort to pitch is not known.", what), hint});
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

void set_yeast(Plan& plan, const StarterRequest& request, const CellarView& view,
               const Settings& settings) {
    const Storage keeping{plan.day, request.kept_at.value_or(settings.kept_at), settings.dry_pack};
    for (const auto& taken :
         yeast_for(request, view.shelves, view.taking(plan.day, request.boiled))) {
        plan.yeast.push_back(living_yeast(taken.lot, taken.amount, keeping));
        const auto& row = plan.yeast.back();
        if (!row.cells)
            throw Error(ErrorKind::conflict, "cells_unknown",
                        fmt::format("The living cells in {} are not known.", to_text(row.lot)),
                        row.notes.empty() ? "" : row.notes.back(), "/yeast");
    }
    plan.cells_now = cells_of(plan.yeast);
}

void set_need(Plan& plan, const StarterRequest& request) {
    const bool dry = plan.yeast.front().material == Material::dry_pack;
    Need need = cells_wanted(request, plan.volume, plan.gravity, plan.yeast.front().material);
    if (dry) {
        plan.warnings.emplace_back("Dry yeast is meant to be pitched without a starter (common "
                                   "practice, no source).");
        // Once it has grown in a starter it is no longer dry yeast: the rates of liquid yeast hold.
        if (request.wort || target_reached(plan.cells_now, need.target) == TargetReached::no)
            need = cells_wanted(request, plan.volume, plan.gravity, Material::liquid_pack);
    }
    plan.cells_needed = need.range;
    plan.target = need.target;
    plan.target_reason = need.reason;
}

void set_steps(Plan& plan, const StarterRequest& request, const CellarView& view,
               const Settings& settings) {
    GrowthRequest growth;
    growth.cells_now = plan.cells_now;
    growth.target = plan.target;
    growth.wort = request.wort;
    growth.largest_wort =
        request.flask ? flask_named(*request.flask, view).volume * (1.0 - settings.foam_space)
                      : largest_vessel;
    growth.gravity = request.starter_gravity.value_or(settings.gravity);
    growth.is_stirred = plan.stirred;
    growth.max_fold = request.max_fold.value_or(brewing::usual_max_fold);
    plan.max_fold = growth.max_fold;
    plan.max_fold_reason = max_fold_reason(request.max_fold, plan.stirred);
    plan.growth_model = growth_model(plan.stirred);
    plan.steps = growth_steps(growth);
    plan.cells_end = plan.steps.empty() ? plan.cells_now : plan.steps.back().after;
    plan.enough = target_reached(plan.cells_end, plan.target);
    const auto warnings = growth_warnings(plan.steps, growth);
    plan.warnings.insert(plan.warnings.end(), warnings.begin(), warnings.end());
}

void set_vessel(Plan& plan, const StarterRequest& request, const CellarView& view,
                const Settings& settings) {
    if (plan.steps.empty())
        return;
    const Volume most =
        std::ranges::max(plan.steps, {}, [](const Step& step) { return step.wort; }).wort;
    plan.vessel = most / (1.0 - settings.foam_space);
    const auto takes = [&](const contract::Flask& flask) {
        return flask.volume >= *plan.vessel * (1.0 - 1e-9);
    };
    if (request.flask) {
        plan.flask = request.flask;
        if (!takes(flask_named(*request.flask, view)))
            plan.warnings.push_back(fmt::format(
                "Flask '{}' leaves too little space for foam. The starter needs a vessel of {}.",
                *request.flask, print(*plan.vessel, System::metric)));
        return;
    }
    const contract::Flask* smallest = nullptr;
    for (const auto& flask : view.flasks)
        if (takes(flask) && (smallest == nullptr || flask.volume < smallest->volume))
            smallest = &flask;
    if (smallest != nullptr)
        plan.flask = smallest->name;
    else if (!view.flasks.empty())
        plan.warnings.push_back(fmt::format(
            "No flask is large enough: the starter needs {}. Name a flask with --flask to get "
            "steps that fit it. Add a flask: barm flask set",
            print(*plan.vessel, System::metric)));
}

/// Why a lot with jars in it is not taken, or what makes it usable; nothing if it is stock.
std::optional<std::string> left_out(const contract::Lot& lot, Date day) {
    const auto code = to_text(lot.code);
    switch (contract::standing_on(lot, day)) {
    case contract::Standing::held:
        if (contract::is_usable_chilled(lot, day))
            return fmt::format("{0} is left out: {1}. You may use it until {2} if it was kept cold "
                               "all the time and you boil it first: --concentrate {0} --boiled",
                               code, why_held(lot), to_text(*lot.best_by));
        return fmt::format("{} is on hold and left out: {}.", code, why_held(lot));
    case contract::Standing::past:
        return fmt::format("{} was best by {} and is left out. Look at it. If in doubt, throw it "
                           "away.",
                           code, to_text(*lot.best_by));
    default:
        return std::nullopt;
    }
}

void warn_of_jars_left_out(Plan& plan, const StarterRequest& request, const CellarView& view) {
    for (const auto& lot : lots_of(view.shelves, contract::Category::concentrate)) {
        const bool is_named = request.concentrate && is_code_of(lot, *request.concentrate);
        const bool is_taken =
            available(lot, view.taking(plan.day, request.boiled), is_named).steps > 0;
        if (const auto why = left_out(lot, plan.day); why && !is_taken && lot.on_hand.steps > 0)
            plan.warnings.push_back(*why);
    }
}

void set_jars(Plan& plan, const StarterRequest& request, const CellarView& view,
              const Settings& settings) {
    if (plan.steps.empty())
        return;
    auto stock =
        jars_on_shelf(view.shelves, request.concentrate, view.taking(plan.day, request.boiled));
    for (auto& step : plan.steps) {
        fill_step(step, stock, view, settings);
        const auto more = jar_warnings(step, view, plan.day);
        plan.warnings.insert(plan.warnings.end(), more.begin(), more.end());
    }
    warn_of_jars_left_out(plan, request, view);
    plan.cautions = cautions();
}

/// The releases of all lots that the plan takes, yeast first.
void set_despite(Plan& plan, const CellarView& view) {
    std::vector<LotCode> taken;
    for (const auto& yeast : plan.yeast)
        taken.push_back(yeast.lot);
    for (const auto& step : plan.steps)
        for (const auto& jars : step.jars)
            taken.push_back(jars.lot);
    for (const auto& code : taken)
        for (const auto& shelf : view.shelves)
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
            "The jars of {} never become shelf stock: {}. Use one only if it was kept cold all the "
            "time. Look and smell first. Boil it before it goes into the starter. If in doubt, "
            "throw it away.",
            code, why_held(lot)));
        break;
    case contract::Standing::past:
        warnings.push_back(fmt::format("{} was best by {}. It is in the plan because you named it. "
                                       "Look at it first. If in doubt, throw it away.",
                                       code, to_text(*lot.best_by)));
        break;
    default:
        break;
    }
    if (lot.facts.process_note)
        warnings.push_back(fmt::format("{}: {}", code, *lot.facts.process_note));
    if (!lot.facts.gravity)
        warnings.push_back(
            fmt::format("The gravity of {0} was not measured. The plan uses that of its recipe. "
                        "Note a measured one: barm lot change {0} --gravity 1.090 --reason "
                        "measured",
                        code));
}

} // namespace

void fill_step(Step& step, std::vector<JarStock>& stock, const CellarView& view,
               const Settings& settings) {
    const auto poured = pour(stock, {step.wort, step.gravity}, view.sizes);
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

std::vector<std::string> jar_warnings(const Step& step, const CellarView& view, Date day) {
    std::vector<std::string> warnings;
    const auto lots = lots_of(view.shelves, contract::Category::concentrate);
    for (const auto& jars : step.jars) {
        const auto code = to_text(jars.lot);
        if (jars.left >= 1.0 * brewing::millilitre)
            warnings.push_back(fmt::format("{} of an opened jar of {} is left over. Use it at once "
                                           "or throw it away.",
                                           print(jars.left, System::metric), code));
        const auto lot = std::ranges::find(lots, jars.lot, &contract::Lot::code);
        if (lot != lots.end())
            add_lot_warnings(warnings, *lot, day);
    }
    if (step.extract_missing)
        warnings.push_back(fmt::format("The available jars lack {} of extract. Can more, name "
                                       "other jars (--concentrate), or use other wort.",
                                       print(*step.extract_missing, System::metric)));
    return warnings;
}

Plan make_plan(const StarterRequest& request, const CellarView& view, const Settings& settings) {
    Plan plan;
    plan.day = request.day.value_or(view.today);
    plan.brew = request.brew;
    plan.beer = request.beer;
    plan.stirred = request.stirred.value_or(settings.stirred);
    set_wort(plan, request, view);
    set_yeast(plan, request, view, settings);
    set_need(plan, request);
    set_steps(plan, request, view, settings);
    set_vessel(plan, request, view, settings);
    set_jars(plan, request, view, settings);
    set_despite(plan, view);
    if (plan.enough == TargetReached::no)
        plan.warnings.push_back(fmt::format(
            "By the likely figure the starter ends below the cells recommended. Use more yeast "
            "(--amount), more wort (--wort) or a larger flask (--flask){}.",
            plan.stirred ? "" : ", or stir the starter (--stirred)"));
    return plan;
}

} // namespace barmkeep::starter
