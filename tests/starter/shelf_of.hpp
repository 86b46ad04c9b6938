// A shelf made by hand for tests of the plugins.
#pragma once

#include "sdk/contract/cellar.hpp"
#include "sdk/contract/equipment.hpp"

namespace barmkeep::test {

inline Date day(std::string_view text) {
    return parse_date(text);
}

inline contract::Lot lot_of(std::string_view code, std::string good, contract::Category category,
                            Amount amount) {
    contract::Lot lot;
    lot.code = parse_lot_code(code);
    lot.good = std::move(good);
    lot.category = category;
    lot.on_hand = lot.available = amount;
    lot.reserved = {0, amount.measure};
    return lot;
}

/// Lots of one good as a shelf; they are the good's in the order given.
inline contract::Shelf shelf_of(std::vector<contract::Lot> lots) {
    contract::Shelf shelf;
    shelf.good = lots.front().good;
    shelf.category = lots.front().category;
    const Measure measure = lots.front().on_hand.measure;
    shelf.on_hand = shelf.reserved = shelf.available = {0, measure};
    for (const auto& lot : lots) {
        shelf.on_hand.steps += lot.on_hand.steps;
        shelf.reserved.steps += lot.reserved.steps;
        shelf.available.steps += lot.available.steps;
        shelf.value.millionths += lot.value.millionths;
    }
    shelf.lots = std::move(lots);
    return shelf;
}

/// The code of the lot with that letter and number, its check letter worked out.
inline std::string code(char letter, std::int64_t number) {
    return to_text(LotCode(letter, number));
}

inline contract::Lot jars_of(std::int64_t number, std::int64_t count, double gravity,
                             double fill_litres, std::string good = "light concentrate") {
    auto lot =
        lot_of(code('J', number), std::move(good), contract::Category::concentrate, pieces(count));
    lot.facts.gravity = brewing::Gravity::sg(gravity);
    lot.facts.fill = fill_litres * brewing::litre;
    return lot;
}

inline contract::Lot packs_of(std::int64_t number, std::int64_t count, std::string_view packed,
                              std::string good = "ale yeast") {
    auto lot = lot_of(code('Y', number), std::move(good), contract::Category::yeast, pieces(count));
    lot.packed = parse_date(packed);
    lot.facts.form = contract::Form::liquid;
    return lot;
}

/// A hold as the core would show it; with a reason, one that was released.
inline contract::Hold hold_of(contract::HoldKind kind, std::string note,
                              std::optional<std::string> reason = {}) {
    contract::Hold hold;
    hold.number = 1;
    hold.kind = kind;
    hold.note = std::move(note);
    hold.who = "anna";
    hold.end_reason = std::move(reason);
    return hold;
}

/// Puts a lot on hold, as the core would: nothing of it is free.
inline void put_on_hold(contract::Lot& lot, contract::HoldKind kind, std::string note) {
    lot.holds.push_back(hold_of(kind, std::move(note)));
    lot.available.steps = 0;
}

/// Moves a lot whose seals failed into the refrigerator.
inline void chill(contract::Lot& lot, std::string_view until) {
    put_on_hold(lot, contract::HoldKind::seal_failed, "lid flexed");
    lot.holds.back().about = {{"canning.run", 1}};
    lot.kept = contract::Keeping::refrigerator;
    lot.best_by = parse_date(until);
}

/// The reason word of the Error that `work` throws; empty if it throws none.
template <class Work>
std::string reason_of(Work work) {
    try {
        (void)work();
    } catch (const Error& error) {
        return error.reason();
    }
    return {};
}

template <class Work>
std::string hint_of(Work work) {
    try {
        (void)work();
    } catch (const Error& error) {
        return error.hint();
    }
    return {};
}

} // namespace barmkeep::test
