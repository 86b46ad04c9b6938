#include "plugins/starter/sheets/parts.hpp"

#include <algorithm>

namespace barmkeep::starter::sheets {

using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

std::string_view verdict(TargetReached enough) {
    switch (enough) {
    case TargetReached::yes:
        return "enough cells by the low figure too";
    case TargetReached::likely:
        return "enough cells by the likely figure only";
    default:
        return "too few cells";
    }
}

/// The first step that the jars do not suffice for, if any.
const Step* short_step(const Plan& plan) {
    const auto found = std::ranges::find_if(
        plan.steps, [](const Step& step) { return step.extract_missing.has_value(); });
    return found == plan.steps.end() ? nullptr : &*found;
}

Text lead_of(const Plan& plan) {
    std::vector<Text> packs;
    for (const LivingYeast& yeast : plan.yeast)
        packs.push_back(yeast_text(yeast));
    if (plan.steps.empty())
        return text("Pitch ", sheet::listed(packs), " without a starter: ", verdict(plan.enough),
                    ".");
    if (const Step* step = short_step(plan))
        return text("The jars are not enough: ", *step->extract_missing,
                    " of extract is missing. This starter cannot be made as it is.");
    const auto steps = static_cast<std::int64_t>(plan.steps.size());
    return text("Open ", sheet::count(jars_in(plan.steps), "jar"), " in ",
                sheet::count(steps, "step"), ", the first on ", plan.day, ": ",
                verdict(plan.enough), ".");
}

Text cells_line(const Plan& plan) {
    Text whole = text("Living cells: ", plan.cells_now, " now, ", plan.cells_needed, " needed");
    if (!plan.steps.empty())
        whole.append(", ").append(plan.cells_end).append(" at the end");
    return whole.append(".");
}

/// What was asked for, without what would be so anyway.
json::object same_params(const StarterRequest& request) {
    json::object params = to_json(request).as_object();
    const json::object usual = to_json(StarterRequest{}).as_object();
    for (const auto& member : usual)
        if (const auto* given = params.if_contains(member.key());
            given != nullptr && *given == member.value())
            params.erase(member.key());
    return params;
}

void add_actions(SheetBuilder& made, const StarterRequest& request, const Plan& plan) {
    if (plan.steps.empty())
        return;
    if (short_step(plan) != nullptr) {
        made.usual_action(
            sheet::offer("see the jars", "stock.list", {{"category", "concentrate"}}, "j"));
        return;
    }
    sheet::Action make = sheet::offer("make it", "starter.make", same_params(request), "m");
    // Jars that somebody has to vouch for are not opened by one key.
    make.confirm = request.boiled || !plan.despite.empty();
    made.usual_action(std::move(make));
}

} // namespace

sheet::Sheet plan(const StarterRequest& request, const Plan& plan) {
    SheetBuilder made(text("Starter for ", purpose(plan)));
    made.lead(lead_of(plan));
    add_releases(made, plan.despite);
    for (std::size_t i = 0; i < plan.steps.size(); ++i)
        for (auto& step : recipe(plan, i, i == 0 ? text(plan.day) : Text{},
                                 i == 0 ? sheet::StepState::next : sheet::StepState::later))
            made.step(std::move(step));
    made.note(cells_line(plan));
    add_warnings(made, plan.warnings);
    add_cautions(made, plan.cautions, {"before_opening", "boil_before_use"});
    made.more("How this was worked out", reasons(plan));
    made.more("The jars", SheetBuilder().table(jars_table(plan.steps)));
    add_actions(made, request, plan);
    add_topics(made);
    return made;
}

} // namespace barmkeep::starter::sheets
