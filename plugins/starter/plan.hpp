// The whole plan of a starter, from what is on the shelf and what is asked for.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/jars.hpp"
#include "plugins/starter/settings.hpp"

namespace barmkeep::starter {

/// The cellar as a plan sees it, read at one moment.
struct CellarView {
    Date today;
    std::vector<contract::Shelf> shelves;
    std::optional<contract::Brew> brew; ///< the brew day asked for
    std::vector<contract::JarSize> sizes;
    std::vector<contract::Flask> flasks;

    /// Lives no longer than the view.
    [[nodiscard]] Taking taking(Date day, bool is_boiled) const {
        return {brew ? &*brew : nullptr, day, is_boiled};
    }
};

/// Throws Error for a request that cannot be read or that the shelf or the sources cannot answer;
/// each says what to do.
[[nodiscard]] Plan make_plan(const StarterRequest& request, const CellarView& view,
                             const Settings& settings);

/// Gives a step its jars, water and nutrient, out of `stock`.
void fill_step(Step& step, std::vector<JarStock>& stock, const CellarView& view,
               const Settings& settings);

/// What to say about the jars of a step on the day they are opened: leftovers, named jars past
/// their day or kept cold, what their process calls for, gravity not measured.
[[nodiscard]] std::vector<std::string> jar_warnings(const Step& step, const CellarView& view,
                                                    Date day);

} // namespace barmkeep::starter
