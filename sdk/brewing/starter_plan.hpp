// A starter in steps: from the cells there are to the cells wanted, through a vessel of a given
// size.
//
// Sources differ in how far yeast may be stepped up at once, from 4-fold to 10-fold.  They state
// the fold in volume; with every step ending at about the same density it is the fold in cells,
// which is what is limited here.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include "sdk/brewing/growth.hpp"

#include <array>
#include <cstddef>
#include <span>
#include <string_view>

namespace barmkeep::brewing {

/// The largest growth in one step by one source.
struct StepLimit {
    std::string_view key; ///< row of tests/published/data/yeast/starter_practice.csv
    std::string_view source;
    char access; ///< P, A, Q
    std::string_view conditions;
    double fold;
};

/// All of them.
[[nodiscard]] std::span<const StepLimit> step_limits() noexcept;

/// The one with that key, or a null pointer.
[[nodiscard]] const StepLimit* find_step_limit(std::string_view key) noexcept;

/// One step: fresh wort on the yeast of the step before, its spent wort decanted.
struct StarterStep {
    Wort wort;
    Mass extract;
    Estimate<Cells> before;
    Estimate<Cells> after;

    [[nodiscard]] double fold() const noexcept { return after.likely / before.likely; }
};

inline constexpr std::size_t most_starter_steps = 6;

/// The steps in order, held in place.
class StarterPlan {
public:
    [[nodiscard]] std::span<const StarterStep> steps() const noexcept {
        return std::span{steps_}.first(count_);
    }
    /// Whether the likely figure of the last step reaches the target.  If not, the steps are the
    /// best that the vessel and the sources allow, and the brewer needs a larger vessel or more
    /// yeast.
    [[nodiscard]] bool reached() const noexcept { return reached_; }
    /// Wort of all steps.
    [[nodiscard]] Volume total_wort() const noexcept;
    /// Extract of all steps.
    [[nodiscard]] Mass total_extract() const noexcept;

private:
    friend class StarterPlanner;
    std::array<StarterStep, most_starter_steps> steps_{};
    std::size_t count_ = 0;
    bool reached_ = false;
};

/// The largest growth in one step unless another is asked for: SP14 and SP17 agree on it.
inline constexpr double usual_max_fold = 8.0;
/// The limits that are taken; the ends are ours, published are 4 to 10.
inline constexpr double lowest_max_fold = 2.0;
inline constexpr double highest_max_fold = 20.0;

struct StarterGoal {
    Estimate<Cells> cells_now; ///< living cells
    Cells target;              ///< living cells wanted
    Volume largest_wort;       ///< wort the vessel takes, room for foam already taken off
    Gravity gravity;           ///< of every step's wort
    Stirring stirring = Stirring::unstirred;
    double max_fold = usual_max_fold;
};

/// The fewest steps that reach the target, none growing by more than `max_fold` or than the
/// sources cover, none with more wort than the vessel takes; of even factors if that reaches it,
/// otherwise with the large ones first.
///
/// No step starts denser than the sources cover: a stirred one has at least least_stirred_volume()
/// of wort, an unstirred one that of the densest row of its series, and so may end above the
/// target. A vessel too small for that ends the plan. No steps, and reached(), if there are cells
/// enough.  A step that would grow the likely figure by less than a tenth is not worth its wort
/// (our rule) and ends a plan that is not reached. Throws OutOfRange for cells, target or vessel
/// not above zero and finite, for a start that is not low <= likely <= high, for a fold limit
/// outside 2 to 20, and for wort growth is not known in (growth.hpp).
[[nodiscard]] StarterPlan plan_starter(const StarterGoal& goal);

} // namespace barmkeep::brewing
