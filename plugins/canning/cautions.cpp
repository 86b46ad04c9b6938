#include "plugins/canning/cautions.hpp"

#include <initializer_list>

namespace barmkeep::canning {
namespace {

constexpr unsigned bit(Moment moment) {
    return 1U << static_cast<unsigned>(moment);
}
constexpr unsigned at(std::initializer_list<Moment> moments) {
    unsigned set = 0;
    for (const Moment moment : moments)
        set |= bit(moment);
    return set;
}
constexpr unsigned always = ~0U;

struct Row {
    std::string_view key;
    unsigned moments;
    std::string_view text;
    std::string_view sources;
};

using enum Moment;
constexpr std::array rows{
    Row{"low_acid", always,
        "Wort is a low-acid food, above pH 4.6: pressure canning only, never a boiling-water bath.",
        "S9 S10 S11"},
    Row{"no_tested_process", always,
        "No tested process for canning wort exists.  Barmkeep knows no time and no pressure that "
        "is safe, and gives none: you state yours and whose it is.",
        "S38 S39"},
    Row{"untested_jars", always,
        "Of canning without a tested recipe extension services say: all jars of the load, sealed "
        "or not, may be unsafe and should be discarded.",
        "S21"},
    Row{"temperature_no_proof", at({planning, process, running, sealing}),
        "A steam temperature is no proof of a process: it does not tell what the coldest spot in "
        "a jar has been through.",
        "S39 S13"},
    Row{"gauge", at({planning, process, running}),
        "A dial gauge is tested every year before use and replaced when it is off by more than "
        "2 psi.",
        "S29 S30"},
    Row{"venting", at({planning, process, running}),
        "Let steam flow freely for 10 minutes before the weight goes on: air left in the canner "
        "makes it colder than its gauge says.",
        "S14 S15 S3"},
    Row{"pressure_drop", at({planning, process, running}),
        "If the pressure falls below the target at any time, bring it back up and begin the whole "
        "time again from zero.",
        "S15 S16"},
    Row{"no_forced_cooling", at({planning, process, running}),
        "Heat off, then let the canner cool by itself to zero pressure: no cold water, no early "
        "opening of the vent.",
        "S14 S17"},
    Row{"opening_the_canner", at({planning, running}),
        "Open the canner only at zero pressure, and wait 10 minutes more.", "S17 S3 S16"},
    Row{"seal_test", at({planning, running, sealing}),
        "Jars stand for 12 to 24 hours, bands untouched; then test each seal: pressed, the lid "
        "does not spring; tapped, it rings; seen from the side, it is hollow.",
        "S19"},
    Row{"failed_jar", at({planning, running, sealing, storing}),
        "A jar whose seal failed goes into the refrigerator, to be used within days, or is "
        "processed again within 24 hours with a new lid.",
        "S20 S21"},
    Row{"log_complete", at({planning, running, sealing}),
        "A run whose log is not complete puts its jars on hold until the brewer decides.",
        "house rule"},
    Row{"best_by", at({planning, sealing, storing, opening}),
        "Jars are at their best within one year; can no more than a year's use.", "S23 S25"},
    Row{"storing", at({planning, sealing, storing}),
        "Keep jars clean, cool, dark and dry, at 10 to 21 C and never above 35 C, without bands.",
        "S23 S24"},
    Row{"before_opening", at({planning, running, sealing, storing, opening}),
        "Before opening a jar look, listen and smell; never taste.  When in doubt, throw it out "
        "safely: botulinum toxin can be there without any sign.",
        "S36 S37"},
    Row{"throwing_out", at({storing, opening}),
        "A suspect jar that is unsealed, open or leaking is covered with water and boiled for 30 "
        "minutes before it is thrown away.  One that is still sealed stays shut and goes into a "
        "bag and out (from memory).",
        "S36 S37"},
    Row{"boil_before_use", at({sealing, storing, opening}),
        "Low-acid jars not processed as a tested recipe says are to be boiled before use, 10 "
        "minutes below 1000 ft, 11 at 1000 ft and one more for each further 1000 ft or part of "
        "it.  Boiling a starter wort does so, and never makes a suspect jar good.",
        "S6"},
};

Caution made(const Row& row) {
    return {std::string(row.key), std::string(row.text), std::string(row.sources)};
}

} // namespace

std::vector<Caution> cautions(Moment moment) {
    std::vector<Caution> chosen;
    for (const Row& row : rows)
        if ((row.moments & bit(moment)) != 0)
            chosen.push_back(made(row));
    return chosen;
}

std::vector<Caution> all_cautions() {
    std::vector<Caution> all;
    for (const Row& row : rows)
        all.push_back(made(row));
    return all;
}

} // namespace barmkeep::canning
