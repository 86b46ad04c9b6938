// The cautions of canning and opening wort: the one place of these texts.
//
// Wort is a low-acid food and no tested process for it exists. So nothing that plans, logs or
// opens a jar answers without the cautions of that moment. Plugins that may run without each other
// all take them from here.
//
// Thread safety: constants and pure functions.
#pragma once

#include "sdk/contract/safety_sources.hpp"
#include "sdk/method/structure.hpp"

#include <initializer_list>

namespace barmkeep::contract {

struct Caution {
    std::string key;
    std::string text;
    std::string source;
    static FieldList fields(auto) {
        return {field<&Caution::key>("Word for it that programs can rely on."),
                field<&Caution::text>("The caution, with the keys of its sources in brackets."),
                field<&Caution::source>(
                    "Keys of its sources; barm canning cautions lists their titles.")};
    }
};

/// What is being done. Some cautions belong to every moment, some to a few.
enum class Moment { planning, process, running, sealing, storing, opening };
constexpr auto enum_names(Moment) {
    using N = EnumName<Moment>;
    return std::array{N{Moment::planning, "planning"}, N{Moment::process, "process"},
                      N{Moment::running, "running"},   N{Moment::sealing, "sealing"},
                      N{Moment::storing, "storing"},   N{Moment::opening, "opening"}};
}

namespace detail {

struct CautionRow {
    std::string_view key;
    unsigned moments;
    std::string_view text;
    std::string_view sources;
};

constexpr unsigned at_moments(std::initializer_list<Moment> moments) {
    unsigned set = 0;
    for (const Moment moment : moments)
        set |= 1U << static_cast<unsigned>(moment);
    return set;
}
inline constexpr unsigned always = ~0U;
inline constexpr std::string_view house_rule = "house rule";

using enum Moment;
/// The most important first.
inline constexpr std::array caution_rows{
    CautionRow{"low_acid", always,
               "Can wort only in a pressure canner: it is a low-acid food, above pH 4.6. Never "
               "use a boiling-water bath, a steam canner, an oven or a multi-cooker.",
               "S9 S10 S11 S94 S95 S96"},
    CautionRow{"no_tested_process", always,
               "Know that no tested process for canning wort exists. Barmkeep knows no safe time "
               "and no safe pressure, and gives none. You state yours and its source.",
               "S38 S39"},
    CautionRow{"untested_jars", always,
               "Treat all jars of a load without a tested recipe as unsafe, sealed or not. The "
               "published advice is to discard them.",
               "S21"},
    CautionRow{"sugar_protects_not", at_moments({planning, process, opening}),
               "Do not trust the sugar: at 20 to 27 % extract the water activity stays near 0.98, "
               "and C. botulinum grows above 0.93.",
               "S103 S107"},
    CautionRow{
        "temperature_no_proof", at_moments({planning, process, running, sealing}),
        "Do not take a steam temperature as proof of a process: it does not show how hot the "
        "coldest spot of a jar was, or for how long.",
        "S39 S13"},
    CautionRow{"jar_size", at_moments({planning, process}),
               "Use no jar above a quart: half-gallon jars have processes for very acid clear "
               "juices only. Give a jar between two sizes the rule of the larger one.",
               "S92 S34 S35"},
    CautionRow{"headspace", at_moments({planning, running}), "Leave 1 to 1.25 in of headspace.",
               "S22 S1"},
    CautionRow{"gauge", at_moments({planning, process, running}),
               "Have a dial gauge tested every year before use. Replace it if it is off by more "
               "than 2 psi.",
               "S29 S30"},
    CautionRow{"venting", at_moments({planning, process, running}),
               "Let steam flow freely for 10 minutes before the weight goes on. Air left in the "
               "canner makes it colder than its gauge says, and the load is under-processed.",
               "S14 S15 S3 S89"},
    CautionRow{"pressure_drop", at_moments({planning, process, running}),
               "If the pressure falls below the target at any time, bring it back and start the "
               "whole time again from zero.",
               "S15 S16"},
    CautionRow{"heat_off_early", at_moments({running}),
               "If the heat went off early, turn it on again and start the whole time again from "
               "zero.",
               "S87"},
    CautionRow{"no_forced_cooling", at_moments({planning, process, running}),
               "Turn the heat off and let the canner cool by itself to zero pressure. Use no cold "
               "water and do not open the vent early.",
               "S14 S17 S78"},
    CautionRow{"opening_the_canner", at_moments({planning, running}),
               "Open the canner only at zero pressure, and wait 10 minutes more. Do not leave "
               "the jars in the closed canner.",
               "S17 S3 S16 S90 S111"},
    CautionRow{
        "seal_test", at_moments({planning, running, sealing}),
        "Let jars stand for 12 to 24 hours, and do not touch the bands. Then test each seal. "
        "Press the lid: it must not spring. Tap it: it must ring. Look from the side: it "
        "must be hollow.",
        "S19 S112"},
    CautionRow{"failed_jar", at_moments({planning, running, sealing, storing}),
               "Put a jar that failed to seal into the refrigerator within 24 hours of heat off, "
               "use it within 2 to 3 days, and boil it first. Later, throw it out. A stricter "
               "source allows only 2 hours, because the process was not a tested one.",
               "S20 S75 S74"},
    CautionRow{"deviation", at_moments({running, sealing}),
               "Throw out the jars of a run in which a step went wrong. Only within 2 hours of "
               "leaving the canner may they go into the refrigerator, for 2 days, or into the "
               "freezer; never on the shelf. A looser source allows 24 hours. [S75]",
               "S86 S74"},
    CautionRow{"never_canned_again", at_moments({running, sealing}),
               "Never can wort a second time. That is allowed only if the first try followed a "
               "tested recipe, and wort has none.",
               "S74 S21"},
    CautionRow{"lost_liquid", at_moments({sealing}),
               "Use a sealed jar that lost less than half of its liquid first; do not open or "
               "refill it before. Throw out a jar that lost half or more: it may be "
               "under-processed. An older source calls such jars safe. [S76] Follow the stricter "
               "ones.",
               "S91 S110 S86"},
    CautionRow{"log_complete", at_moments({planning, running, sealing}),
               "Release jars whose log has a gap only if you know what happened: the reason is "
               "shown at every later use.",
               house_rule},
    CautionRow{"best_by", at_moments({planning, sealing, storing, opening}),
               "Use jars within one year; can no more than a year's use.", "S23 S25"},
    CautionRow{
        "storing", at_moments({planning, sealing, storing}),
        "Store jars clean, dark and dry, without bands, at 10 to 21 C (50 to 70 F), and never "
        "above 35 C (95 F).",
        "S23 S24"},
    CautionRow{"spoiled_run", at_moments({storing, opening}),
               "If one jar is spoiled, take no other jar of its run until you know why.",
               house_rule},
    CautionRow{"before_opening", at_moments({planning, running, sealing, storing, opening}),
               "Before you open a jar look, listen and smell; never taste. When in doubt, throw it "
               "out safely: botulinum toxin can be there without any sign.",
               "S36 S37 S79"},
    CautionRow{"signs_outside", at_moments({storing, opening}),
               "Leave a jar shut and throw it out if its lid is swollen, unsealed or leaking, or "
               "if you see dried streaks, rising bubbles or an unnatural colour.",
               "S36 S37"},
    CautionRow{"signs_inside", at_moments({opening}),
               "Throw a jar out if liquid spurts or foams, if it smells off, or if there is mould "
               "of any colour on the wort or under the lid.",
               "S36 S79"},
    CautionRow{"throwing_out", at_moments({storing, opening}),
               "Put a suspect jar that is still sealed into a heavy bag, close it, and bin it. "
               "Lay one that is unsealed, open or leaking on its side with its lid in a pot, cover "
               "it with at least 1 in of water, boil it for 30 minutes with the pot's lid on, let "
               "it cool, and bin it.",
               "S77 S37"},
    CautionRow{"throwing_out_bagged", at_moments({storing, opening}),
               "Or follow the other published way: wear gloves, let nothing splash, seal the jar "
               "in two bags and bin it outdoors; pour nothing into sink or toilet.",
               "S79"},
    CautionRow{"boil_before_use", at_moments({sealing, storing, opening}),
               "Boil the wort of a jar without any sign of a fault before use, as an extra: 10 "
               "minutes below 1000 ft, 11 at 1000 ft, and one more for each further 1000 ft or "
               "part of it.",
               "S6 S83 S84"},
    CautionRow{
        "boiling_no_remedy", at_moments({sealing, storing, opening}),
        "Do not boil a jar to rescue it: throw out whatever may hold toxin. [S79 S82] Boiling "
        "is no remedy for spoiled or under-processed jars.",
        "S85"},
    CautionRow{"what_boiling_means", at_moments({opening}),
               "Count the boiling time from when bubbles rise through all of the wort.",
               house_rule},
    CautionRow{"opened_jar", at_moments({opening}),
               "Use what is left in an opened jar at once, or throw it out. It is low in acid and "
               "does not keep.",
               house_rule},
};

inline Caution caution_of(const CautionRow& row) {
    return {std::string(row.key), std::string(row.text) + " [" + std::string(row.sources) + "]",
            std::string(row.sources)};
}

} // namespace detail

/// The cautions of a moment, the most important first; never empty.
[[nodiscard]] inline std::vector<Caution> cautions(Moment moment) {
    std::vector<Caution> chosen;
    for (const detail::CautionRow& row : detail::caution_rows)
        if ((row.moments & detail::at_moments({moment})) != 0)
            chosen.push_back(detail::caution_of(row));
    return chosen;
}

/// All there are, once each.
[[nodiscard]] inline std::vector<Caution> all_cautions() {
    std::vector<Caution> all;
    for (const detail::CautionRow& row : detail::caution_rows)
        all.push_back(detail::caution_of(row));
    return all;
}

} // namespace barmkeep::contract
