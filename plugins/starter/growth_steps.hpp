// The steps a starter takes from the cells there are to the cells wanted.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/need.hpp"
#include "plugins/starter/settings.hpp"
#include "sdk/brewing/starter_plan.hpp"

namespace barmkeep::starter {

struct GrowthWish {
    Range<brewing::Cells> cells_now;
    brewing::Cells target;
    std::optional<brewing::Volume> wort; ///< of the one step, where the brewer says so
    brewing::Volume largest_wort;        ///< what the vessel takes without the room for foam
    brewing::Gravity gravity;
    Aeration aeration = Aeration::still;
    const brewing::StepLimit* school = nullptr; ///< never null
};

/// The school of that key; Siebel's eightfold if none is named.  Throws Error(params).
[[nodiscard]] const brewing::StepLimit& school_named(const std::optional<std::string>& key);

/// Steps without their jars.  None if there are cells enough and no wort is asked for.
/// Throws Error(params) for wort or cells that no growth was ever measured in, and Error(conflict)
/// if no cell is alive.
[[nodiscard]] std::vector<Step> growth_steps(const GrowthWish& wish);

/// The rule that gives the likely growth, in words.
[[nodiscard]] std::string_view growth_model(Aeration aeration) noexcept;

/// Whether the cells are what is wanted.
[[nodiscard]] Enough judged(const Range<brewing::Cells>& cells, brewing::Cells target) noexcept;

} // namespace barmkeep::starter
