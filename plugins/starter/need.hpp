// The cells a wort wants, and the yeast a starter begins with.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/living_yeast.hpp"
#include "plugins/starter/plan_messages.hpp"
#include "plugins/starter/shelf.hpp"
#include "sdk/brewing/errors.hpp"

namespace barmkeep::starter {

struct Need {
    Range<brewing::Cells> range;
    brewing::Cells target;
    std::string reason;
};

/// Living cells for a wort: the range of all sources, and the figure to go by: the brewer's own
/// number (`pitch`), that of the brewer's own rate (`rate`), or the recommended one.
///
/// `yeast` is what is pitched: dry yeast straight from its pack has rates of its own.
/// Throws Error(params) for wort that no source covers.
[[nodiscard]] Need cells_wanted(const StarterRequest& request, brewing::Volume volume,
                                brewing::Gravity gravity, Material yeast);

/// An amount of one lot.
struct YeastTaken {
    contract::Lot lot;
    Amount amount;
};

/// The yeast a starter begins with: of the lot or good asked for; or else what the brew day has
/// reserved; or else that which expires first, of the brew day's strain if there is any of it.
/// Throws Error(not_found) or Error(not_enough) if there is none or less than wanted.
[[nodiscard]] std::vector<YeastTaken> yeast_for(const StarterRequest& request,
                                                std::span<const contract::Shelf> shelves,
                                                const Taking& taking);

/// Error(params, "out_of_range") with rounded figures; without a hint it carries the science's own
/// advice.
[[nodiscard]] Error out_of_range(const brewing::OutOfRange& error, std::string_view pointer,
                                 std::string_view hint = {});

/// Runs `work`, and turns a figure that no formula holds for into out_of_range() at `pointer`.
template <class Work>
auto in_range(std::string_view pointer, Work work) {
    try {
        return work();
    } catch (const brewing::OutOfRange& error) {
        throw out_of_range(error, pointer);
    }
}

} // namespace barmkeep::starter
