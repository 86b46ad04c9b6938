#include "plugins/starter/growth_steps.hpp"

#include "sdk/brewing/growth_still.hpp"
#include "sdk/brewing/growth_stirred.hpp"
#include "sdk/brewing/units.hpp"

#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::Cells;
using brewing::Estimate;
using brewing::System;
using brewing::Volume;
using brewing::Wort;

// As in sdk/brewing: a target met to a billionth is met.
constexpr double rounding = 1e-9;

brewing::Stirring as_science(bool is_stirred) {
    return is_stirred ? brewing::Stirring::stirred : brewing::Stirring::unstirred;
}

Estimate<Cells> as_estimate(const Range<Cells>& range) {
    return {range.low, range.likely, range.high, {}};
}

Step step_of(const Wort& wort, const Range<Cells>& before, const Range<Cells>& after) {
    Step step;
    step.wort = wort.volume;
    step.gravity = wort.gravity;
    step.extract = brewing::extract_in(wort);
    step.before = before;
    step.after = after;
    // The spread of the end is that of the start and of the growth, so it has the sources of both.
    step.after.sources = joined_sources(before.sources, after.sources);
    return step;
}

Error wrong_strength(const GrowthRequest& request, const brewing::OutOfRange& error) {
    const std::string_view hint =
        request.is_stirred
            ? "No growth was measured in such wort. Choose a gravity from 1.016 to 1.052: "
              "--starter-gravity 1.040"
            : "The published series was made at 9 P. Dilute the wort to a gravity from 1.028 to "
              "1.044 (--starter-gravity 1.036), or stir the starter (--stirred).";
    return out_of_range(error, "/starter_gravity", hint);
}

/// A step of the size asked for is so thin or so dense that nothing was measured.
Error wrong_volume(const GrowthRequest& request) {
    const Cells start = request.cells_now.likely;
    std::string limits;
    if (request.is_stirred) {
        const auto extract = start.in(brewing::billion_cells) / brewing::thinnest_stirred_start;
        const Volume most =
            extract * brewing::gram / brewing::extract_concentration(request.gravity);
        limits = fmt::format("at most {}", print(most, System::metric));
    } else {
        const auto at_rate = [&](double million_per_millilitre) {
            return start.in(brewing::million_cells) / million_per_millilitre * brewing::millilitre;
        };
        limits =
            fmt::format("{} to {}", print(at_rate(brewing::highest_still_rate), System::metric),
                        print(at_rate(brewing::lowest_still_rate), System::metric));
    }
    return {ErrorKind::params, "out_of_range",
            fmt::format("{} of wort is outside what was measured for {:.3g} billion living cells. "
                        "{} starter of them takes {}.",
                        print(*request.wort, System::metric), start.in(brewing::billion_cells),
                        request.is_stirred ? "A stirred" : "An unstirred", limits),
            request.is_stirred
                ? "Change the volume (--wort), or leave --wort out for a plan in steps."
                : "Change the volume (--wort), stir the starter (--stirred), or leave --wort out "
                  "for a plan in steps.",
            "/wort"};
}

/// The one step of the size the brewer asks for.
Step of_size(const GrowthRequest& request) {
    const Wort wort{*request.wort, request.gravity};
    try {
        return step_of(wort, request.cells_now,
                       brewing::cells_after(as_estimate(request.cells_now), wort,
                                            as_science(request.is_stirred)));
    } catch (const brewing::OutOfRange& error) {
        throw error.unit() == "P" ? wrong_strength(request, error) : wrong_volume(request);
    }
}

brewing::StarterPlan plan_of(const GrowthRequest& request) {
    try {
        return brewing::plan_starter({as_estimate(request.cells_now), request.target,
                                      request.largest_wort, request.gravity,
                                      as_science(request.is_stirred), request.max_fold});
    } catch (const brewing::OutOfRange& error) {
        throw error.unit() == "P" ? wrong_strength(request, error)
                                  : out_of_range(error, "/starter_gravity");
    }
}

} // namespace

std::vector<Step> growth_steps(const GrowthRequest& request) {
    if (request.cells_now.likely <= Cells{})
        throw Error(ErrorKind::conflict, "no_living_cells",
                    "By the sources no cell of this yeast is alive.",
                    "Take another yeast: barm yeast list. Or count the cells and note them on the "
                    "lot: barm lot change LOT --cells '20 B' --reason counted",
                    "/yeast");
    if (request.wort)
        return {of_size(request)};
    if (target_reached(request.cells_now, request.target) != TargetReached::no)
        return {};
    const auto plan = plan_of(request);
    std::vector<Step> steps;
    Range<Cells> before = request.cells_now;
    for (const auto& one : plan.steps()) {
        steps.push_back(step_of(one.wort, before, one.after));
        before = steps.back().after;
    }
    return steps;
}

std::vector<std::string> growth_warnings(std::span<const Step> steps,
                                         const GrowthRequest& request) {
    std::vector<std::string> warnings;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Step& step = steps[i];
        const double fold = step.after.likely / step.before.likely;
        if (fold > request.max_fold * (1.0 + 1e-6))
            warnings.push_back(fmt::format("Step {} grows {:.1f}-fold. The largest growth in one "
                                           "step is {:.3g}-fold.",
                                           i + 1, fold, request.max_fold));
        if (request.is_stirred &&
            brewing::is_dense_start(step.before.likely, {step.wort, step.gravity}))
            warnings.push_back(fmt::format(
                "Step {} starts with {:.0f} million cells per millilitre, so few new cells can "
                "grow. The densest stirred starter that was counted ended at 282 million (GR13). "
                "Use more wort (--wort), a larger flask (--flask) or less yeast (--amount).",
                i + 1,
                step.before.likely.in(brewing::million_cells) / step.wort.in(brewing::millilitre)));
    }
    return warnings;
}

std::string_view growth_model(bool is_stirred) noexcept {
    return is_stirred
               ? "Yield per gram of extract in the wort at the start: 1.0 billion new cells, "
                 "0.72 to 1.5 (GR06 GR15 GR36)."
               : "Published series, unstirred, at 9 P (WZ1 WZ2). In other wort the range is "
                 "wider.";
}

std::string max_fold_reason(const std::optional<double>& asked_for, bool is_stirred) {
    constexpr std::string_view published =
        "Published limits: 4-fold (SP16), 8-fold (SP14 SP17), 10-fold (SP15).";
    return fmt::format("{} {}{}", asked_for ? "Your own limit." : "Two sources agree on 8-fold.",
                       published,
                       is_stirred ? "" : " The series of unstirred starters ends at 2.76-fold.");
}

TargetReached target_reached(const Range<Cells>& cells, Cells target) noexcept {
    const Cells enough = target * (1.0 - rounding);
    if (cells.low >= enough)
        return TargetReached::yes;
    return cells.likely >= enough ? TargetReached::likely : TargetReached::no;
}

} // namespace barmkeep::starter
