#include "plugins/starter/need.hpp"

#include "sdk/brewing/extract.hpp"
#include "sdk/brewing/pitching.hpp"
#include "sdk/brewing/plato.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::starter {
namespace {

using brewing::Gravity;
using brewing::Volume;

brewing::BeerClass as_science(BeerClass beer) {
    return beer == BeerClass::lager ? brewing::BeerClass::lager : brewing::BeerClass::ale;
}

Need by_rate(Need need, double rate, Volume volume, Gravity gravity) {
    need.target = brewing::cells_at_rate(rate, volume, brewing::plato_of(gravity));
    need.reason = fmt::format("Your own rate: {:.3g} million cells per millilitre and degree "
                              "Plato. Published rates run from 0.4 (PR12) to 2.9 (PR22).",
                              rate);
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

std::int64_t steps_wanted(const StarterRequest& request, const std::vector<contract::Lot>& lots,
                          const Taking& taking) {
    const Measure measure = lots.front().on_hand.measure;
    if (request.amount)
        return request.amount->as(measure, "/amount").steps;
    if (measure == Measure::pieces)
        return 1;
    std::int64_t all = 0;
    for (const auto& lot : lots)
        all += available(lot, taking).steps;
    return all;
}

} // namespace

Error out_of_range(const brewing::OutOfRange& error, std::string_view pointer,
                   std::string_view hint) {
    const std::string& quantity = error.quantity();
    const std::string unit = error.unit().empty() ? "" : " " + error.unit();
    // Beyond any figure a brewer types, an end is no end.
    const bool is_open = error.highest() > 1e9;
    return {ErrorKind::params, "out_of_range",
            is_open
                ? fmt::format("The {} is {:.3g}{}. The least is {:.3g}{}.", quantity, error.given(),
                              unit, error.lowest(), unit)
                : fmt::format("The {} is {:.3g}{}. It must be from {:.3g} to {:.3g}{}.", quantity,
                              error.given(), unit, error.lowest(), error.highest(), unit),
            hint.empty() ? error.advice() : std::string(hint), pointer};
}

Need cells_wanted(const StarterRequest& request, Volume volume, Gravity gravity,
                  Material material) {
    const auto yeast =
        material == Material::dry_pack ? brewing::PitchedYeast::dry : brewing::PitchedYeast::liquid;
    const auto advice = in_range("/gravity", [&] {
        return brewing::cells_needed(volume, gravity, as_science(request.beer), yeast);
    });
    Need need{advice.cells, advice.cells.likely, std::string(advice.reason)};
    if (request.rate)
        need = by_rate(std::move(need), *request.rate, volume, gravity);
    if (request.pitch) {
        need.target = *request.pitch;
        need.reason = "Your own figure.";
    }
    return need;
}

std::vector<YeastTaken> yeast_for(const StarterRequest& request,
                                  std::span<const contract::Shelf> shelves, const Taking& taking) {
    const auto all = lots_of(shelves, contract::Category::yeast);
    if (!request.yeast && !request.amount)
        if (auto taken = reserved(all, taking); !taken.empty())
            return taken;
    const auto lots =
        to_take_from(request.yeast ? all : of_strain(all, taking), request.yeast, taking, "/yeast");
    if (lots.empty())
        throw Error(ErrorKind::not_enough, "no_yeast", "No yeast is available.",
                    "See what there is: barm yeast list. Record what you bought: barm stock buy",
                    "/yeast");
    const std::int64_t wanted = steps_wanted(request, lots, taking);
    if (wanted <= 0)
        throw Error(ErrorKind::params, "out_of_range", "The amount of yeast is zero.",
                    "Leave --amount out for one pack.", "/amount");
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
                    fmt::format("You asked for {} of {}. Only {} is available.",
                                to_text(Amount{wanted, lots.front().on_hand.measure}),
                                lots.front().good,
                                to_text(Amount{wanted - missing, lots.front().on_hand.measure})),
                    "Ask for less, or name another yeast with --yeast. See what there is: "
                    "barm yeast list",
                    "/amount");
    return taken;
}

} // namespace barmkeep::starter
