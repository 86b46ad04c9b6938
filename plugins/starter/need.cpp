#include "plugins/starter/need.hpp"

#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/method/nearest.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::Gravity;
using brewing::PitchRate;
using brewing::Volume;

brewing::BeerClass as_science(Beer beer) {
    switch (beer) {
    case Beer::hybrid:
        return brewing::BeerClass::hybrid;
    case Beer::lager:
        return brewing::BeerClass::lager;
    case Beer::ale:
        break;
    }
    return brewing::BeerClass::ale;
}

const PitchRate& rate_named(const std::string& key) {
    const auto* rate = brewing::find_pitch_rate(key);
    if (rate != nullptr)
        return *rate;
    std::vector<std::string> known;
    for (const auto& one : brewing::pitch_rates())
        known.emplace_back(one.key);
    const auto near = nearest(key, known);
    throw Error(ErrorKind::params, "unknown_rate",
                fmt::format("'{}' is no pitching rate's key.", key),
                near ? fmt::format("Did you mean {}?", *near)
                     : fmt::format("The keys: {}.", fmt::join(known, ", ")),
                "/rate");
}

Need by_rate(Need need, const PitchRate& rate, const Wish& wish, Volume volume, Gravity gravity,
             brewing::PitchedYeast yeast) {
    need.target = in_range("/rate", [&] {
        return brewing::cells_needed_by(rate, volume, brewing::plato_of(gravity)).likely;
    });
    need.reason = fmt::format("{} ({}), as asked for: {}.", rate.key, rate.source, rate.conditions);
    if (!rate.serves(as_science(wish.beer), yeast))
        need.reason += "  It was not stated for this class of beer or form of yeast.";
    return need;
}

/// What the brew day has reserved, as far as it may still be used.
std::vector<YeastTaken> reserved(const std::vector<contract::Lot>& lots, const Taking& taking) {
    std::vector<YeastTaken> taken;
    for (const auto& lot : lots)
        if (const auto amount = reserved_of(lot, taking); amount.steps > 0)
            taken.push_back({lot, amount});
    return taken;
}

/// Only the lots of the brew day's strain, if there are any of it to take.
std::vector<contract::Lot> of_strain(const std::vector<contract::Lot>& lots, const Taking& taking) {
    std::vector<contract::Lot> found;
    if (taking.brew != nullptr && taking.brew->strain)
        std::ranges::copy_if(lots, std::back_inserter(found), [&](const auto& lot) {
            return available(lot, taking).steps > 0 &&
                   (lot.facts.strain == taking.brew->strain || lot.good == *taking.brew->strain);
        });
    return found.empty() ? lots : found;
}

std::int64_t steps_wanted(const Wish& wish, const std::vector<contract::Lot>& lots,
                          const Taking& taking) {
    const Measure measure = lots.front().on_hand.measure;
    if (wish.amount)
        return wish.amount->as(measure, "/amount").steps;
    if (measure == Measure::pieces)
        return 1;
    std::int64_t all = 0;
    for (const auto& lot : lots)
        all += available(lot, taking).steps;
    return all;
}

} // namespace

Need cells_wanted(const Wish& wish, Volume volume, Gravity gravity, Material material) {
    const auto yeast =
        material == Material::dry_pack ? brewing::PitchedYeast::dry : brewing::PitchedYeast::liquid;
    const auto advice = in_range("/gravity", [&] {
        return brewing::cells_needed(volume, gravity, as_science(wish.beer), yeast);
    });
    Need need{advice.cells, advice.cells.likely, std::string(advice.reason)};
    if (wish.rate)
        need = by_rate(need, rate_named(*wish.rate), wish, volume, gravity, yeast);
    if (wish.pitch) {
        need.target = *wish.pitch;
        need.reason = "The brewer's own figure.";
    }
    return need;
}

std::vector<YeastTaken> yeast_for(const Wish& wish, std::span<const contract::Shelf> shelves,
                                  const Taking& taking) {
    const auto all = lots_of(shelves, contract::Category::yeast);
    if (!wish.yeast && !wish.amount)
        if (auto taken = reserved(all, taking); !taken.empty())
            return taken;
    const auto lots =
        to_take_from(wish.yeast ? all : of_strain(all, taking), wish.yeast, taking, "/yeast");
    if (lots.empty())
        throw Error(ErrorKind::not_enough, "no_yeast", "There is no yeast free to use.",
                    "Record what was bought: barm stock buy; see what there is: barm starter yeast",
                    "/yeast");
    const std::int64_t wanted = steps_wanted(wish, lots, taking);
    if (wanted <= 0)
        throw Error(ErrorKind::params, "out_of_range", "A starter needs some yeast.",
                    "Leave the amount out for one pack.", "/amount");
    std::int64_t missing = wanted;
    std::vector<YeastTaken> taken;
    for (const auto& lot : lots) {
        const Amount part{std::min(missing, available(lot, taking).steps), lot.on_hand.measure};
        if (part.steps > 0)
            taken.push_back({lot, part});
        missing -= part.steps;
    }
    if (missing > 0)
        throw Error(ErrorKind::not_enough, "not_enough_yeast",
                    fmt::format("Of {}, {} is free to use, and {} is asked for.", lots.front().good,
                                to_text(Amount{wanted - missing, lots.front().on_hand.measure}),
                                to_text(Amount{wanted, lots.front().on_hand.measure})),
                    "Ask for less, or name another yeast.", "/amount");
    return taken;
}

} // namespace barmkeep::starter
