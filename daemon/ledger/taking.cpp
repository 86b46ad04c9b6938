#include "daemon/ledger/taking.hpp"

#include "daemon/ledger/set_aside.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

std::vector<KnownLot> lots_to_take_from(const View& view, const Named& named,
                                        std::string_view pointer) {
    if (!named.lot)
        return lots_of_good(view, named.good.number);
    if (named.lot->is_held())
        throw Error(ErrorKind::conflict, "on_hold",
                    fmt::format("Lot {} is on hold: {}", to_text(named.lot->lot.code),
                                *named.lot->lot.hold),
                    "Release it first (lot.release) if that is settled, or take another lot.",
                    pointer);
    return {*named.lot};
}

/// Takes up to `wanted` from what each lot can give.
class Gathering {
public:
    explicit Gathering(std::int64_t wanted) : wanted_{wanted} {}

    void take(std::int64_t lot, std::int64_t there_is, bool is_set_aside) {
        const std::int64_t steps = std::min(there_is, wanted_);
        if (steps <= 0)
            return;
        wanted_ -= steps;
        Part& part = part_of(lot);
        part.steps += steps;
        if (is_set_aside)
            part.from_set_aside += steps;
    }
    [[nodiscard]] bool is_complete() const noexcept { return wanted_ == 0; }
    [[nodiscard]] std::vector<Part> parts() && { return std::move(parts_); }

private:
    Part& part_of(std::int64_t lot) {
        const auto found = std::find_if(parts_.begin(), parts_.end(),
                                        [&](const Part& part) { return part.lot == lot; });
        if (found != parts_.end())
            return *found;
        parts_.push_back({lot, 0, 0});
        return parts_.back();
    }

    std::int64_t wanted_;
    std::vector<Part> parts_;
};

} // namespace

std::vector<Part> choose(const View& view, const Named& named, const Amount& amount,
                         const std::optional<std::int64_t>& brew, std::string_view pointer) {
    const auto lots = lots_to_take_from(view, named, pointer);
    const auto is_passed_over = [&](const KnownLot& known) {
        return known.is_held() || (known.is_past && !named.lot);
    };
    Gathering gathering{amount.steps};
    if (brew)
        for (const auto& known : lots)
            if (!is_passed_over(known))
                gathering.take(known.number(), steps_set_aside(view, *brew, known.number()), true);
    for (const auto& known : lots)
        if (!is_passed_over(known))
            gathering.take(known.number(), known.steps_not_set_aside(), false);
    if (!gathering.is_complete())
        throw not_enough(named.lot ? "lot " + to_text(named.lot->lot.code) + " (" +
                                         named.good.good.name + ")"
                                   : named.good.good.name,
                         lots, amount, pointer);
    return std::move(gathering).parts();
}

Error not_enough(const std::string& of_what, const std::vector<KnownLot>& lots, const Amount& asked,
                 std::string_view pointer) {
    Amount on_hand{0, asked.measure};
    Amount set_aside{0, asked.measure};
    Amount held{0, asked.measure};
    Amount past{0, asked.measure};
    Amount free{0, asked.measure};
    for (const auto& known : lots) {
        on_hand.steps += known.lot.on_hand.steps;
        set_aside.steps += known.lot.set_aside.steps;
        free.steps += known.lot.free.steps;
        held.steps += known.is_held() ? known.steps_not_set_aside() : 0;
        past.steps += known.is_past && !known.is_held() ? known.steps_not_set_aside() : 0;
    }
    std::string kept_back;
    if (held.steps > 0)
        kept_back += fmt::format(", {} on hold", to_text(held));
    if (past.steps > 0)
        kept_back += fmt::format(", {} past best by", to_text(past));
    const std::string hint =
        lots.empty() ? "Record a purchase first: stock.buy."
        : held.steps > 0 && free.steps + held.steps >= asked.steps
            ? "What is on hold is released, once you have decided, with lot.release, or with "
              "run.release for the jars of a canning run."
            : fmt::format("If there is more on the shelf, record what you count there: "
                          "stock.recount of lot {}.",
                          to_text(lots.front().lot.code));
    return {ErrorKind::not_enough, "not_enough",
            fmt::format("Not enough of {}: {} asked for; {} on hand, {} set aside{}, {} free.",
                        of_what, to_text(asked), to_text(on_hand), to_text(set_aside), kept_back,
                        to_text(free)),
            hint, pointer};
}

} // namespace barmkeep::ledger
