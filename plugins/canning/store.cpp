#include "plugins/canning/store.hpp"

#include "sdk/brewing/canner_gauge.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/method/text.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::canning {
namespace {

/// Signs that only a jar shows which is open or does not hold tight.  The others are seen through
/// glass and lid, and such a jar is not to be opened for what they are.
bool tells_of_open(Sign sign) {
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
        return {"Above 35 C (95 F): jars must never be kept so warm, for spores that survived may "
                "grow.  Look at every jar, and when in doubt throw it out."};
    if (temperature.celsius() > 21)
        return {"Above 21 C (70 F): a cooler place keeps jars better; 10 to 21 C is advised."};
    if (temperature.celsius() <= 0)
        return {"At or below freezing: frozen jars may lose their seals.  Look at each lid."};
    if (temperature.celsius() < 10)
        return {"Below 10 C (50 F): 10 to 21 C is advised."};
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
        throw Error(ErrorKind::params, "missing", "Another sign was found, but not which.",
                    "Say in `note` what it is.", "/note");
}

std::vector<CheckStep> opening_checklist(const contract::Lot& lot) {
    constexpr const char* sealed =
        "Listen while opening: air goes in with a short sigh.  No sound, or liquid that spurts or "
        "hisses out: throw it out.";
    constexpr const char* unsealed =
        "These jars did not seal, so no sound can be waited for: take one only if it stood in the "
        "refrigerator all the time and its best by has not passed.  Liquid that spurts or hisses "
        "out: throw it out.";
    const std::array steps{
        "Look: lid hollow and tight, no leak, no dried streaks from the top, no rising bubbles, no "
        "unnatural colour.  Any of these: do not open it, throw it out.",
        lot.facts.unsealed.value_or(false) ? unsealed : sealed,
        "Smell: wort and nothing else.  Look for mould on the liquid and under the lid.",
        "Never taste.",
        "When in doubt, throw it out safely.",
        "Boil the diluted wort before use, at least as long as the published caution says (see "
        "boil_before_use); that makes no suspect jar good.",
        "Record it: opening.record with looked, listened and smelled, or with the signs found."};
    std::vector<CheckStep> all;
    for (const auto* step : steps)
        all.push_back({static_cast<std::int64_t>(all.size()) + 1, step});
    return all;
}

std::vector<std::string> opening_stops(const contract::Lot& lot, Date today) {
    std::vector<std::string> stops;
    if (lot.on_hand.steps == 0)
        stops.emplace_back("There are none left by the ledger.");
    if (lot.hold)
        stops.push_back("On hold: " + *lot.hold);
    if (lot.best_by && *lot.best_by < today)
        stops.push_back("Past its best by, " + to_text(*lot.best_by) + ".");
    return stops;
}

std::string what_now(bool used, const std::vector<Sign>& signs) {
    if (used)
        return "Boil the diluted wort before use, at least as long as the published caution says "
               "(opening.show tells it), then cool it and pitch.  Boiling makes no suspect jar "
               "good: if anything seems wrong after all, throw it out.";
    const std::string wash = "  Wash hands and everything it touched.";
    if (std::ranges::any_of(signs, tells_of_open))
        return "Do not taste it.  Cover the jar and its contents with water, boil for 30 minutes, "
               "then throw them away (S37)." +
               wash;
    return "Do not open or taste it.  A jar that is still sealed stays shut and goes into a bag "
           "and out (from memory); one that is unsealed, open or leaking is covered with water and "
           "boiled for 30 minutes first (S37)." +
           wash;
}

void require_jars(const contract::Lot& lot) {
    if (lot.goods == contract::GoodClass::concentrate ||
        lot.goods == contract::GoodClass::bought_can)
        return;
    throw Error(ErrorKind::params, "wrong_class",
                "Lot " + to_text(lot.code) + " (" + lot.good + ") is no jar of concentrate.",
                "Name a lot of jars; their codes begin with J.", "/lot");
}

std::optional<std::string> boil_before_use(std::optional<brewing::Length> altitude) {
    if (!altitude)
        return std::nullopt;
    try {
        return to_text(Seconds{brewing::caution_boil_time(*altitude)}) +
               " at this altitude, by the published caution for low-acid jars that followed no "
               "tested recipe and show no sign of spoilage (S6).  No proof of anything: it makes "
               "no suspect jar good.";
    } catch (const brewing::OutOfRange&) {
        return std::nullopt;
    }
}

} // namespace barmkeep::canning
