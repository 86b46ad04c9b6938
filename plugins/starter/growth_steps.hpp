// The steps a starter takes from the cells there are to the cells recommended.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/need.hpp"
#include "plugins/starter/settings.hpp"
#include "sdk/brewing/starter_plan.hpp"

namespace barmkeep::starter {

struct GrowthRequest {
    Range<brewing::Cells> cells_now;
    brewing::Cells target;
    std::optional<brewing::Volume> wort; ///< of the one step, if the brewer states it
    brewing::Volume largest_wort;        ///< what the vessel takes beside the space for foam
    brewing::Gravity gravity;
    bool is_stirred = false;
    double max_fold = brewing::usual_max_fold;
};

/// Steps without their jars.  None if there are enough cells and no wort is asked for.
/// Throws Error(params) for wort or cells in which no growth was measured, and Error(conflict) if
/// no cell is alive.
[[nodiscard]] std::vector<Step> growth_steps(const GrowthRequest& request);

/// A warning for each step that starts so dense that few cells can grow, or that grows further than
/// the limit.
[[nodiscard]] std::vector<std::string> growth_warnings(std::span<const Step> steps,
                                                       const GrowthRequest& request);

/// The rule that gives the growth, with its sources, in words.
[[nodiscard]] std::string_view growth_model(bool is_stirred) noexcept;

/// The reason for the largest growth in one step, with its sources.
[[nodiscard]] std::string max_fold_reason(const std::optional<double>& asked_for, bool is_stirred);

/// Whether the cells reach the target.
[[nodiscard]] TargetReached target_reached(const Range<brewing::Cells>& cells,
                                           brewing::Cells target) noexcept;

} // namespace barmkeep::starter
