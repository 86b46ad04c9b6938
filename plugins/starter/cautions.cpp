#include "plugins/starter/cautions.hpp"

namespace barmkeep::starter {

std::vector<std::string> cautions() {
    return {
        "Wort is low in acid, and no tested canning process for it exists: a tight lid, a full log "
        "and a clear liquid are no proof that a jar is sound.",
        "Before opening, look: a swollen, loose or leaking lid, dried streaks below it, rising "
        "bubbles or an odd colour mean that the jar stays shut and is thrown out.",
        "While opening, listen and smell: liquid that spurts, an off smell, or mould of any colour "
        "under the lid mean that it is thrown out.",
        "Never taste to find out.",
        "When in doubt, throw it out, and safely: treat it as if it held botulinum toxin, let "
        "nothing splash, keep it from children and animals, and clean what it touched.",
        "Published advice for low-acid food that was canned by no tested recipe is to boil it "
        "before use, 10 minutes below 1000 ft and one minute more for each 1000 ft above that "
        "(USDA Complete Guide, 1994).  Barmkeep calls nothing safe because of it.",
        "What stays in an opened jar is used at once or thrown away: it is low in acid and does "
        "not keep."};
}

} // namespace barmkeep::starter
