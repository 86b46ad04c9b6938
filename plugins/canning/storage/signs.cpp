#include "plugins/canning/storage/signs.hpp"

#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/contract/shelf.hpp"
#include "sdk/method/text.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::canning {
namespace {

/// Signs that only an open or leaking jar shows. The others are seen through glass and lid, and a
/// jar must not be opened for them.
bool shows_when_open(Sign sign) {
    switch (sign) {
    case Sign::unsealed_lid:
    case Sign::leaking:
    case Sign::spurting:
    case Sign::off_odour:
    case Sign::mould:
    case Sign::hissing:
        return true;
    case Sign::swollen_lid:
    case Sign::dried_streaks:
    case Sign::rising_bubbles:
    case Sign::unnatural_colour:
    case Sign::other:
        break;
    }
    return false;
}

} // namespace

std::vector<std::string> temperature_warnings(brewing::Temperature temperature) {
    if (temperature.celsius() > 35)
        return {"Above 35 C (95 F): never keep jars so warm. Look at every jar, and when in doubt "
                "throw it out. [S24]"};
    if (temperature.celsius() > 21)
        return {"Above 21 C (70 F): keep jars cooler, at 10 to 21 C (50 to 70 F). [S23 S24]"};
    if (temperature.celsius() <= 0)
        return {
            "At or below 0 C (32 F): frozen jars may lose their seals. Look at each lid. [S102]"};
    if (temperature.celsius() < 10)
        return {"Below 10 C (50 F): keep jars warmer, at 10 to 21 C (50 to 70 F). [S23 S24]"};
    return {};
}

std::string reason_of(const std::vector<Sign>& signs, const std::optional<std::string>& note) {
    std::string text;
    for (const Sign sign : signs)
        text += (text.empty() ? "" : ", ") + std::string(to_string(sign));
    if (note)
        text += (text.empty() ? "" : ": ") + *note;
    constexpr std::size_t reason_length_max = 400;
    return std::string(cut_at_character(text, reason_length_max));
}

void check_signs(const std::vector<Sign>& signs, const std::optional<std::string>& note) {
    if (!note && std::ranges::find(signs, Sign::other) != signs.end())
        throw Error(ErrorKind::params, "missing", "You gave the sign other, but not what you saw.",
                    "Say in --note what you saw.", "/note");
}

std::vector<CheckStep> opening_checklist(const contract::Lot& lot) {
    const std::string sealed = "Listen while opening: air goes in with a short sigh. If there is "
                               "no sound, or liquid spurts "
                               "or foams, throw the jar out. [S36 S79]";
    const std::string kept_cold =
        "These jars never stood on the shelf. Use one only if it was kept cold all the time and "
        "its "
        "last day has not passed. If liquid spurts or foams, throw the jar out. [S36 S79]";
    const std::string record =
        "Record it: barm opening record " + to_text(lot.code) +
        " with --looked --listened --smelled, or with the --signs you found.";
    const std::array<std::string, 7> steps{
        "Look: the lid is hollow and tight, with no leak, dried streaks, rising bubbles or "
        "unnatural "
        "colour. At any of these signs, do not open the jar, and throw it out. [S36 S37]",
        lot.kept == contract::Keeping::shelf ? sealed : kept_cold,
        "Smell: it smells of wort and nothing else. Look for mould on the liquid and under the "
        "lid. "
        "[S36]",
        "Never taste. [S36 S82]",
        "When in doubt, throw it out safely. [S36 S79]",
        "Boil the diluted wort before use, at least for the time shown here. That does not rescue "
        "a "
        "suspect jar. [S6 S83 S84 S85]",
        record};
    std::vector<CheckStep> all;
    for (const auto& step : steps)
        all.push_back({static_cast<std::int64_t>(all.size()) + 1, step});
    return all;
}

std::string hold_text(const contract::Hold& hold) {
    return std::string(contract::meaning_of(hold.kind)) + ": " + hold.note;
}

std::vector<std::string> opening_stops(const contract::Lot& lot, Date today) {
    std::vector<std::string> stops;
    if (lot.on_hand.steps == 0)
        stops.emplace_back("No jars of this lot are left.");
    if (contract::is_usable_chilled(lot, today))
        return stops;
    for (const auto& hold : lot.holds) {
        std::string stop = "On hold: " + hold_text(hold);
        if (contract::end_of(hold.kind) == contract::HoldEnd::never)
            stop += " Throw it out.";
        else if (contract::end_of(hold.kind) == contract::HoldEnd::by_process)
            stop += " Throw it out, unless you know how and when it was canned: barm lot vouch.";
        stops.push_back(std::move(stop));
    }
    if (lot.best_by && *lot.best_by < today)
        stops.push_back("Past its best by, " + to_text(*lot.best_by) + ".");
    return stops;
}

std::vector<std::string> process_notes(const contract::Facts& facts) {
    if (!facts.process_note)
        return {};
    return {"Its process is " + *facts.process_note + "."};
}

std::vector<std::string> opening_notes(const contract::Lot& lot, Date today) {
    std::vector<std::string> notes = process_notes(lot.facts);
    for (const auto& hold : lot.released)
        notes.push_back("Released in spite of: " + hold_text(hold) +
                        " Reason: " + hold.end_reason.value_or("none given") + ".");
    if (contract::is_usable_chilled(lot, today)) {
        for (const auto& hold : lot.holds)
            notes.push_back("Never on the shelf: " + hold_text(hold));
        notes.push_back("Use it until " + to_text(*lot.best_by) +
                        " if it was kept cold all the time, and boil it first.");
    }
    return notes;
}

std::string what_now(bool used, const std::vector<Sign>& signs) {
    if (used)
        return "Boil the diluted wort before use, at least as long as barm opening show says. Then "
               "cool "
               "it and pitch. If anything seems wrong after all, throw it out: boiling is no "
               "remedy. [S85]";
    const std::string wash = " Wash hands and everything it touched.";
    if (std::ranges::any_of(signs, shows_when_open))
        return "Do not taste it. Lay the jar on its side with its lid in a pot, cover it with at "
               "least 1 in of water, boil it for 30 minutes, let it cool, and bin it. [S77 S37]" +
               wash;
    return "Do not open or taste it. A jar that is still sealed stays shut and goes into a heavy "
           "bag, closed, and into the bin. One that is unsealed, open or leaking is laid in a "
           "pot, "
           "covered with at least 1 in of water and boiled for 30 minutes first. [S77 S37]" +
           wash;
}

void require_jars(const contract::Lot& lot) {
    if (contract::is_sealed_food(lot.category))
        return;
    throw Error(ErrorKind::params, "wrong_class",
                "Lot " + to_text(lot.code) + " (" + lot.good + ") is not a lot of jars.",
                "Name a lot whose code begins with J; barm storage show lists them.", "/lot");
}

std::optional<Seconds> boil_time(std::optional<brewing::Length> altitude) {
    if (!altitude)
        return std::nullopt;
    try {
        return Seconds{brewing::caution_boil_time(*altitude)};
    } catch (const brewing::OutOfRange&) {
        return std::nullopt;
    }
}

std::optional<std::string> boil_before_use(std::optional<brewing::Length> altitude) {
    const auto time = boil_time(altitude);
    if (!time)
        return std::nullopt;
    return to_text(*time) +
           " at this altitude, counted from when bubbles rise through all of the wort: an extra "
           "for low-acid jars without any sign of a fault. [S6 S83 S84] It does not rescue a "
           "suspect jar. [S85]";
}

} // namespace barmkeep::canning
