#include "sdk/brewing/starter_plan.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::brewing {
namespace {

constexpr std::array limits{
    StepLimit{"SP14", "RAI", 'Q', "a brewers' training institute", 8.0},
    StepLimit{"SP15", "RAI", 'Q', "brewers' training, second country", 10.0},
    StepLimit{"SP16", "RAI", 'Q', "brewers' training, third country", 4.0},
    StepLimit{"SP17", "ZWI", 'P', "home brewing, a step a day", 8.0},
    StepLimit{"SP17-old", "ZWI", 'P', "home brewing, old yeast", 5.0},
};

constexpr double worthwhile_fold = 1.1;
// A target met to a billionth is met: the inverse of growth is exact only to rounding.
constexpr double rounding = 1e-9;

void check(const StarterGoal& goal) {
    require_positive("cells available", goal.cells_now.likely.in(billion_cells), "billion");
    require_positive("cells wanted", goal.target.in(billion_cells), "billion");
    require_positive("largest volume of wort in the vessel", goal.largest_wort.in(litre), "L");
    require_within("largest growth in one step", goal.max_fold, lowest_max_fold, highest_max_fold,
                   "-fold", "Published limits are 4-fold to 10-fold.");
    // Refuses a start out of order and wort out of range, before the first step is tried.
    const Volume any_size = goal.cells_now.likely.in(billion_cells) / 50.0 * litre;
    (void)cells_after(goal.cells_now, {any_size, goal.gravity}, goal.stirring);
}

} // namespace

/// Builds one plan; a class only so that StarterPlan's steps stay closed to everyone else.
class StarterPlanner {
public:
    explicit StarterPlanner(const StarterGoal& goal)
        : goal_{goal}, largest_fold_{largest_covered_factor(goal.stirring) * (1.0 - rounding)} {
        largest_fold_ = std::min(goal.max_fold, largest_fold_);
    }

    /// The plan in at most `steps` steps, as far as it gets: of even factors, or each as large as
    /// is allowed, which gets further where the vessel cuts the last steps short.
    [[nodiscard]] StarterPlan in_steps(std::size_t steps, bool eager) const {
        StarterPlan plan;
        Estimate<Cells> cells = goal_.cells_now;
        while (plan.count_ < steps && !enough(cells)) {
            const double rest = static_cast<double>(steps - plan.count_);
            const double all = goal_.target / cells.likely;
            const double fold = eager ? all : std::pow(all, 1.0 / rest);
            const StarterStep step = next(cells, std::min(fold, largest_fold_));
            // A last small step that ends at the target is worth it, whatever its factor.
            if (step.fold() < worthwhile_fold && !enough(step.after))
                break;
            cells = step.after;
            plan.steps_[plan.count_++] = step;
        }
        plan.reached_ = enough(cells);
        return plan;
    }

private:
    [[nodiscard]] bool enough(const Estimate<Cells>& cells) const {
        return cells.likely >= goal_.target * (1.0 - rounding);
    }

    /// A step of that factor, or of as much as the vessel takes; without growth if the vessel is so
    /// small that nothing is known about it.
    [[nodiscard]] StarterStep next(const Estimate<Cells>& cells, double fold) const {
        Volume wanted =
            likely_starter_volume(cells.likely, cells.likely * fold, goal_.gravity, goal_.stirring);
        if (goal_.stirring == Stirring::stirred)
            wanted = std::max(wanted, least_stirred_volume(cells.likely, goal_.gravity));
        const Wort wort{std::min(wanted, goal_.largest_wort), goal_.gravity};
        if (is_too_dense(cells.likely, wort))
            return {wort, extract_in(wort), cells, cells};
        return {wort, extract_in(wort), cells, cells_after(cells, wort, goal_.stirring)};
    }

    /// A hair of rounding does not make a start too dense.
    [[nodiscard]] bool is_too_dense(Cells start, const Wort& wort) const {
        if (goal_.stirring == Stirring::stirred)
            return is_dense_start(start * (1.0 - rounding), wort);
        return start.in(million_cells) / wort.volume.in(millilitre) > highest_still_rate;
    }

    const StarterGoal& goal_;
    double largest_fold_;
};

Volume StarterPlan::total_wort() const noexcept {
    Volume sum;
    for (const StarterStep& step : steps())
        sum += step.wort.volume;
    return sum;
}

Mass StarterPlan::total_extract() const noexcept {
    Mass sum;
    for (const StarterStep& step : steps())
        sum += step.extract;
    return sum;
}

std::span<const StepLimit> step_limits() noexcept {
    return limits;
}

const StepLimit* find_step_limit(std::string_view key) noexcept {
    const auto found = std::ranges::find(limits, key, &StepLimit::key);
    return found == limits.end() ? nullptr : &*found;
}

namespace {

Cells ends_with(const StarterPlan& plan, const StarterGoal& goal) {
    return plan.steps().empty() ? goal.cells_now.likely : plan.steps().back().after.likely;
}

} // namespace

StarterPlan plan_starter(const StarterGoal& goal) {
    check(goal);
    const StarterPlanner planner{goal};
    StarterPlan best;
    Cells most;
    for (std::size_t steps = 1; steps <= most_starter_steps; ++steps) {
        for (const bool eager : {false, true}) {
            const StarterPlan plan = planner.in_steps(steps, eager);
            if (plan.reached())
                return plan;
            // Of plans that fail, a longer one has to be worth its steps.
            if (ends_with(plan, goal) > most * worthwhile_fold) {
                most = ends_with(plan, goal);
                best = plan;
            }
        }
    }
    return best;
}

} // namespace barmkeep::brewing
