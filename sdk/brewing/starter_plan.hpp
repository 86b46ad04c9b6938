// A starter in steps: from the cells there are to the cells wanted, through a vessel of a given
// size.
//
// Schools differ in how far yeast may be stepped up at once, from 4-fold to 10-fold.  They state
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

/// What a school allows in one step.
struct StepLimit {
    std::string_view key; ///< row of tests/published/data/yeast/starter_practice.csv
    std::string_view source;
    char access; ///< P, A, Q
    std::string_view school;
    double fold;
};

/// All schools.
[[nodiscard]] std::span<const StepLimit> step_limits() noexcept;

/// The school with that key, or a null pointer.
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
    /// Wort of all steps batch.
    [[nodiscard]] Volume total_wort() const noexcept;
    /// Extract of all steps batch.
    [[nodiscard]] Mass total_extract() const noexcept;

private:
    friend class StarterPlanner;
    std::array<StarterStep, most_starter_steps> steps_{};
    std::size_t count_ = 0;
    bool reached_ = false;
};

struct StarterGoal {
    Estimate<Cells> cells_now; ///< living cells
    Cells target;              ///< living cells wanted
    Volume largest_wort;       ///< wort the vessel takes, room for foam already taken off
    Gravity gravity;           ///< of every step's wort
    Aeration aeration = Aeration::still;
    double fold_limit = 8.0; ///< most that cells may grow in one step; 8 is Siebel's (RAI)
};

/// The fewest steps that reach the target, none growing by more than `fold_limit` or than the
/// sources cover, none with more wort than the vessel takes; of even factors if that reaches it,
/// otherwise with the large ones first.
///
/// No steps, and reached(), if there are cells enough.  A step that would grow the likely figure by
/// less than a tenth is not worth its wort (our rule) and ends a plan that is not reached.
/// Throws OutOfRange for cells, target or vessel not above zero and finite, for a start that is not
/// low <= likely <= high, for a fold limit outside 1.2 to 20, and for wort growth is not known in
/// (growth.hpp).
[[nodiscard]] StarterPlan plan_starter(const StarterGoal& goal);

} // namespace barmkeep::brewing
