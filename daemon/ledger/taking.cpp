#include "daemon/ledger/taking.hpp"

#include "daemon/ledger/reservations.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

std::vector<LotRow> lots_to_take_from(const View& view, const Named& named, const TakeRequest& wish,
                                      std::string_view pointer) {
    if (!named.lot) {
        auto lots = lots_of_good(view, named.good.number);
        std::erase_if(lots, [&](const LotRow& known) {
            return standing_on(known.lot, wish.day) != contract::Standing::stock;
        });
        return lots;
    }
    const contract::Lot& lot = named.lot->lot;
    if (standing_on(lot, wish.day) != contract::Standing::held ||
        (wish.is_boiled && is_usable_chilled(lot, wish.day)))
        return {*named.lot};
    if (lot.holds.empty())
        throw Error(
            ErrorKind::conflict, "not_on_the_shelf",
            fmt::format("Lot {} is kept in the {}.", to_text(lot.code), to_string(lot.kept)),
            fmt::format("If it has been moved, enter its place with: barm lot change {} --kept "
                        "PLACE --reason TEXT",
                        to_text(lot.code)),
            pointer);
    throw Error(ErrorKind::conflict, "on_hold",
                fmt::format("Lot {} is on hold: {}.", to_text(lot.code), holds_text(lot.holds)),
                way_out(lot.code, lot.holds), pointer);
}

/// Takes up to `wanted` from what each lot can give.
class Gathering {
public:
    explicit Gathering(std::int64_t wanted) : wanted_{wanted} {}

    void take(std::int64_t lot, std::int64_t there_is, bool is_reserved) {
        const std::int64_t steps = std::min(there_is, wanted_);
        if (steps <= 0)
            return;
        wanted_ -= steps;
        Part& part = part_of(lot);
        part.steps += steps;
        if (is_reserved)
            part.from_reserved += steps;
    }
    [[nodiscard]] bool is_complete() const noexcept { return wanted_ == 0; }
    [[nodiscard]] std::vector<Part> parts() && { return std::move(parts_); }

private:
    Part& part_of(std::int64_t lot) {
        const auto found = std::find_if(parts_.begin(), parts_.end(),
                                        [&](const Part& part) { return part.lot == lot; });
        if (found != parts_.end())
            return *found;
        parts_.push_back({lot, 0, 0, 0});
        return parts_.back();
    }

    std::int64_t wanted_;
    std::vector<Part> parts_;
};

/// Adds to each weighing what it would leave of its lot below a step of the scale.
void sweep(std::int64_t scale_step, const std::vector<LotRow>& lots, std::vector<Part>& parts) {
    for (Part& part : parts) {
        const auto of = std::find_if(lots.begin(), lots.end(), [&](const LotRow& known) {
            return known.number() == part.lot;
        });
        const std::int64_t rest = of->steps_on_hand() - part.steps;
        const bool is_nobodys = of->lot.reserved.steps == part.from_reserved;
        if (rest > 0 && rest < scale_step && rest < part.steps && is_nobodys) {
            part.steps += rest;
            part.swept = rest;
        }
    }
}

} // namespace

std::vector<Part> choose(const View& view, const Named& named, const TakeRequest& wish,
                         std::string_view pointer) {
    const auto lots = lots_to_take_from(view, named, wish, pointer);
    Gathering gathering{wish.amount.steps};
    if (wish.brew)
        for (const auto& known : lots)
            gathering.take(known.number(), steps_reserved(view, *wish.brew, known.number()), true);
    for (const auto& known : lots)
        gathering.take(known.number(), known.steps_unreserved(), false);
    if (!gathering.is_complete())
        throw not_enough(
            view,
            named.lot ? "lot " + to_text(named.lot->lot.code) + " (" + named.good.good.name + ")"
                      : named.good.good.name,
            named.lot ? lots : lots_of_good(view, named.good.number), wish.amount, pointer);
    auto parts = std::move(gathering).parts();
    if (wish.amount.measure == Measure::mass && !wish.is_promised)
        sweep(view.number("SELECT scale_step FROM cellar"), lots, parts);
    return parts;
}

Error not_enough(const View& view, const std::string& of_what, const std::vector<LotRow>& lots,
                 const Amount& asked, std::string_view pointer) {
    const Date today = view.today();
    Amount on_hand{0, asked.measure};
    Amount reserved{0, asked.measure};
    Amount held{0, asked.measure};
    Amount past{0, asked.measure};
    Amount available{0, asked.measure};
    LotCode held_lot; ///< the first one
    for (const auto& known : lots) {
        const auto standing = standing_on(known.lot, today);
        on_hand.steps += known.lot.on_hand.steps;
        reserved.steps += known.lot.reserved.steps;
        available.steps += known.lot.available.steps;
        if (standing == contract::Standing::held && held.steps == 0)
            held_lot = known.lot.code;
        if (standing == contract::Standing::held)
            held.steps += known.steps_unreserved();
        if (standing == contract::Standing::past)
            past.steps += known.steps_unreserved();
    }
    std::string kept_back;
    if (held.steps > 0)
        kept_back += fmt::format("; on hold: {}", to_text(held));
    if (past.steps > 0)
        kept_back += fmt::format("; past best by: {}", to_text(past));
    const std::string hint =
        lots.empty() ? fmt::format("Enter a purchase first with: barm stock buy '{}'", of_what)
        : held.steps > 0 && available.steps + held.steps >= asked.steps
            ? fmt::format("See which of the holds can be released with: barm lot show {}",
                          to_text(held_lot))
            : fmt::format(
                  "If there is more, count it and enter the count with: barm stock recount {}",
                  to_text(lots.front().lot.code));
    return {ErrorKind::not_enough, "not_enough",
            fmt::format(
                "Not enough of {}: you asked for {}. On hand: {}; reserved: {}{}; available: {}.",
                of_what, to_text(asked), to_text(on_hand), to_text(reserved), kept_back,
                to_text(available)),
            hint, pointer};
}

} // namespace barmkeep::ledger
