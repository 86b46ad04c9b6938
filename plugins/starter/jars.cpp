#include "plugins/starter/jars.hpp"

#include "sdk/brewing/dilution.hpp"
#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::Mass;
using brewing::Volume;
using brewing::Wort;

// The ledger counts milligrams, so what is less than half of one is nothing.
constexpr Mass nothing = 0.0005 * brewing::gram;

[[noreturn]] void unknown(const contract::Lot& lot, std::string_view what, std::string_view option,
                          std::string_view how) {
    const auto code = to_text(lot.code);
    throw Error(
        ErrorKind::conflict, fmt::format("{}_unknown", what),
        fmt::format("The {} of the concentrate in {} ({}) is not known.", what, code, lot.good),
        fmt::format("{}. Then note it: barm lot change {} {} --reason measured", how, code,
                    option));
}

std::optional<Volume> fill_of_size(const contract::Lot& lot,
                                   std::span<const contract::JarSize> sizes) {
    const auto size = std::ranges::find_if(
        sizes, [&](const auto& one) { return lot.facts.jar && one.name == *lot.facts.jar; });
    if (size == sizes.end())
        return std::nullopt;
    return size->fill;
}

Wort from_facts(const contract::Lot& lot, std::span<const contract::JarSize> sizes) {
    const auto& facts = lot.facts;
    auto fill = facts.fill ? facts.fill : fill_of_size(lot, sizes);
    if (!facts.gravity && !(facts.extract && fill))
        unknown(lot, "gravity", "--gravity 1.090", "Measure the liquid of a jar when you open it");
    if (!fill && facts.extract && *facts.gravity > brewing::Gravity{})
        fill = *facts.extract / brewing::extract_concentration(*facts.gravity);
    if (!fill)
        unknown(lot, "fill", "--fill '420 mL'", "Measure the volume of liquid in one jar");
    return {*fill, facts.gravity ? *facts.gravity
                                 : brewing::gravity_of_concentration(*facts.extract / *fill)};
}

/// The jars of a lot that go into what is still missing.
JarsOpened open(JarStock& from, const Wort& each, Mass missing) {
    const Mass in_a_jar = brewing::extract_in(each);
    // A jar is not opened for less than the ledger could see.
    const double wanted = std::ceil((missing - nothing) / in_a_jar);
    const auto jars = std::min(from.jars, static_cast<std::int64_t>(wanted));
    const Volume whole = each.volume * static_cast<double>(jars);
    const Volume poured = std::min(whole, each.volume * (missing / in_a_jar));
    from.jars -= jars;
    JarsOpened opened{
        from.lot.code, from.lot.good, jars,           each.gravity,
        each.volume,   poured,        whole - poured, brewing::extract_in({poured, each.gravity})};
    if (!from.lot.holds.empty() || from.lot.kept != contract::Keeping::shelf)
        opened.held = why_held(from.lot);
    return opened;
}

void refuse_weaker(const contract::Lot& lot, const Wort& each, const Wort& wort) {
    if (each.gravity < wort.gravity)
        throw Error(ErrorKind::conflict, "concentrate_too_weak",
                    fmt::format("The concentrate in {} ({:.3f}) is weaker than the starter "
                                "({:.3f}).",
                                to_text(lot.code), each.gravity.sg(), wort.gravity.sg()),
                    "Use a weaker starter (--starter-gravity), or name other jars (--concentrate).",
                    "/starter_gravity");
}

/// A jar that never becomes shelf stock goes into a starter only boiled, and only if somebody says
/// so of that very lot.
void require_boiled(const contract::Lot& lot, const Taking& taking) {
    if (contract::standing_on(lot, taking.day) != contract::Standing::held || taking.is_boiled ||
        !contract::is_usable_chilled(lot, taking.day))
        return;
    throw Error(ErrorKind::conflict, "boil_first",
                fmt::format("The jars of {} never become shelf stock: {}.", to_text(lot.code),
                            why_held(lot)),
                fmt::format("You may use them until {} if they were kept cold all the time and you "
                            "boil them first. Confirm both with --boiled.",
                            to_text(*lot.best_by)),
                "/concentrate");
}

} // namespace

Wort concentrate_in(const contract::Lot& lot, std::span<const contract::JarSize> sizes) {
    const auto code = to_text(lot.code);
    try {
        const Wort wort = from_facts(lot, sizes);
        if (brewing::extract_in(wort) <= nothing)
            throw Error(ErrorKind::conflict, "no_extract",
                        fmt::format("By its facts a jar of {} holds no extract.", code),
                        fmt::format("Measure its gravity and note it: barm lot change {} "
                                    "--gravity 1.090 --reason measured",
                                    code));
        return wort;
    } catch (const brewing::OutOfRange& error) {
        throw Error(
            ErrorKind::conflict, "facts_out_of_range",
            fmt::format("The facts of {} are wrong. The {} is {:.3g} {}.", code, error.quantity(),
                        error.given(), error.unit()),
            fmt::format("Correct them: barm lot change {} --gravity 1.090 --reason measured",
                        code));
    }
}

std::vector<JarStock> jars_on_shelf(std::span<const contract::Shelf> shelves,
                                    const std::optional<std::string>& wanted,
                                    const Taking& taking) {
    const auto lots = lots_of(shelves, contract::Category::concentrate);
    std::vector<JarStock> stock;
    for (const auto& lot : lots)
        if (wanted && is_code_of(lot, *wanted))
            require_boiled(lot, taking);
    for (const auto& lot : to_take_from(lots, wanted, taking, "/concentrate"))
        stock.push_back({lot, available(lot, taking, wanted && is_code_of(lot, *wanted)).steps});
    return stock;
}

Poured pour(std::vector<JarStock>& stock, const Wort& wort,
            std::span<const contract::JarSize> sizes) {
    Poured result;
    Mass missing = brewing::extract_in(wort);
    std::vector<Wort> parts;
    for (auto& lot : stock) {
        if (missing <= nothing)
            break;
        if (lot.jars == 0)
            continue;
        const Wort each = concentrate_in(lot.lot, sizes);
        refuse_weaker(lot.lot, each, wort);
        result.jars.push_back(open(lot, each, missing));
        missing -= result.jars.back().extract;
        parts.push_back({result.jars.back().poured, each.gravity});
    }
    if (missing > nothing)
        result.extract_missing = missing;
    else if (!parts.empty())
        result.water =
            std::max(Volume{}, brewing::to_volume(brewing::blend(parts), wort.volume).water_volume);
    return result;
}

} // namespace barmkeep::starter
