#include "plugins/starter/growth_steps.hpp"

#include "sdk/method/nearest.hpp"

#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::Cells;
using brewing::Estimate;
using brewing::Wort;

constexpr std::string_view usual_school = "SP14";
// As in sdk/brewing: a target met to a billionth is met.
constexpr double rounding = 1e-9;

brewing::Aeration as_science(Aeration aeration) {
    return aeration == Aeration::still ? brewing::Aeration::still : brewing::Aeration::stirred;
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

/// The one step of the size the brewer wants.
Step of_size(const GrowthWish& wish) {
    const Wort wort{*wish.wort, wish.gravity};
    const Range<Cells> after = in_range("/wort", [&] {
        return brewing::cells_after(as_estimate(wish.cells_now), wort, as_science(wish.aeration));
    });
    return step_of(wort, wish.cells_now, after);
}

} // namespace

const brewing::StepLimit& school_named(const std::optional<std::string>& key) {
    const auto* school = brewing::find_step_limit(key ? std::string_view(*key) : usual_school);
    if (school != nullptr)
        return *school;
    std::vector<std::string> known;
    for (const auto& one : brewing::step_limits())
        known.push_back(fmt::format("{} ({})", one.key, one.school));
    throw Error(ErrorKind::params, "unknown_school", fmt::format("'{}' is no school's key.", *key),
                fmt::format("The keys: {}.", fmt::join(known, ", ")), "/school");
}

std::vector<Step> growth_steps(const GrowthWish& wish) {
    if (wish.cells_now.likely <= Cells{})
        throw Error(ErrorKind::conflict, "no_living_cells",
                    "By the sources no cell of this yeast is alive.",
                    "Take fresher yeast, or count its cells and note them on the lot.", "/yeast");
    if (wish.wort)
        return {of_size(wish)};
    if (judged(wish.cells_now, wish.target) != Enough::no)
        return {};
    const auto plan = in_range("/starter_gravity", [&] {
        return brewing::plan_starter({as_estimate(wish.cells_now), wish.target, wish.largest_wort,
                                      wish.gravity, as_science(wish.aeration), wish.school->fold});
    });
    std::vector<Step> steps;
    Range<Cells> before = wish.cells_now;
    for (const auto& one : plan.steps()) {
        steps.push_back(step_of(one.wort, before, one.after));
        before = steps.back().after;
    }
    return steps;
}

std::string_view growth_model(Aeration aeration) noexcept {
    return aeration == Aeration::still
               ? "White and Zainasheff's series of still starters (WZ1, WZ2; its thin end from "
                 "memory)"
               : "Troester's rule for stirred starters (KAI1, KAI2; its coefficients from memory)";
}

Enough judged(const Range<Cells>& cells, Cells target) noexcept {
    const Cells enough = target * (1.0 - rounding);
    if (cells.low >= enough)
        return Enough::yes;
    return cells.likely >= enough ? Enough::likely : Enough::no;
}

} // namespace barmkeep::starter
