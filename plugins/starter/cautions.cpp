#include "plugins/starter/cautions.hpp"

namespace barmkeep::starter {

std::vector<std::string> cautions() {
    // NOLINTBEGIN(bugprone-suspicious-missing-comma): sentences that span lines
    return {
        "Wort is a low-acid food, and no tested process for canning it exists: a tight lid, a full "
        "log and a clear liquid are no proof that a jar is sound.  [S9 S10 S11 S38 S39]",
        "Of canning without a tested recipe extension services say: all jars of the load, sealed "
        "or not, may be unsafe and should be discarded.  [S21]",
        "Before opening, look: a swollen, unsealed or leaking lid, dried streaks below it, rising "
        "bubbles or an unnatural colour mean that the jar stays shut and is thrown out.  [S36 S37]",
        "While opening, listen and smell: liquid that spurts, an off smell, or mould of any colour "
        "under the lid mean that it is thrown out.  [S36]",
        "Never taste to find out.  [S36]",
        "When in doubt, throw it out, and safely: a suspect jar is treated as if it held botulinum "
        "toxin.  One that is unsealed, open or leaking is covered with water and boiled for 30 "
        "minutes first.  [S36 S37]",
        "Let nothing of it splash, keep it from children and animals, and clean what it touched.  "
        "[common practice, no source]",
        "Low-acid food that was canned by no tested recipe and shows no sign of spoilage is to be "
        "boiled before use, 10 minutes below 1000 ft, 11 at 1000 ft and one more for each further "
        "1000 ft or part of it.  That makes no doubtful jar good.  [S6]",
        "What stays in an opened jar is used at once or thrown away: it is low in acid and does "
        "not keep.  [common practice, no source]"};
    // NOLINTEND(bugprone-suspicious-missing-comma)
}

} // namespace barmkeep::starter
