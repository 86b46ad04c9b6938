#include "daemon/ledger/brews.hpp"

#include "daemon/ledger/clearing.hpp"
#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/goods.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/needs.hpp"
#include "daemon/ledger/reservations.hpp"
#include "daemon/ledger/row_checksum.hpp"
#include "daemon/ledger/taking.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Brew;
using contract::BrewState;

constexpr std::string_view select_brews =
    "SELECT number, day, name, state, volume, gravity, strain, note FROM brew ";

Brew read_brew(const Row& row) {
    Brew brew;
    take_row(row, brew.number, brew.day, brew.name, brew.state, brew.volume, brew.gravity,
             brew.strain, brew.note);
    return brew;
}

/// Adds what stands in other tables.
void complete(const View& view, std::vector<Brew>& brews) {
    std::vector<std::int64_t> numbers;
    for (const Brew& brew : brews)
        numbers.push_back(brew.number);
    auto needs = needs_of(view, numbers);
    auto reserved = reservations_for(view, numbers);
    for (Brew& brew : brews) {
        brew.needs = std::move(needs[brew.number]);
        brew.reserved = std::move(reserved[brew.number]);
    }
}
void complete(const View& view, Brew& brew) {
    std::vector<Brew> one{std::move(brew)};
    complete(view, one);
    brew = std::move(one.front());
}

Brew require_planned(const View& view, std::int64_t number) {
    Brew brew = require_brew(view, number, "/brew");
    if (brew.state != BrewState::planned)
        throw Error(ErrorKind::conflict, "brew_closed",
                    "Brew day " + std::to_string(number) + " (" + brew.name + ") is " +
                        std::string(to_string(brew.state)) + ".",
                    "Only a planned brew day can be changed. Plan another one with: barm brew plan",
                    "/brew");
    return brew;
}

/// Sends the event and answers the brew day as it is now.
Brew changed_brew(Transaction& transaction, std::int64_t number) {
    send_brew_changed(transaction, number);
    return require_brew(transaction, number, "/brew");
}

Brew plan(Transaction& transaction, const Call&, const contract::BrewPlan::Params& params) {
    const std::int64_t number =
        insert_with_checksum(transaction, ChecksummedTable::brew,
                             "INSERT INTO brew (day, name, state, volume, gravity, strain, note) "
                             "VALUES (?, ?, ?, ?, ?, ?, ?)",
                             params.day, params.name, BrewState::planned, params.volume,
                             params.gravity, params.strain, params.note);
    return changed_brew(transaction, number);
}

Brew change(Transaction& transaction, const Call&, const contract::BrewChange::Params& params) {
    const Brew before = require_planned(transaction, params.brew);
    check_clear(params.clear, {"volume", "gravity", "strain", "note"}, false);
    const auto newer = [&](std::string_view field, const auto& given, const auto& held) {
        refuse_both(given.has_value(), field, params.clear);
        return given || is_cleared(params.clear, field) ? given : held;
    };
    update_with_checksum(transaction, ChecksummedTable::brew, params.brew,
                         "UPDATE brew SET day = ?, name = ?, volume = ?, gravity = ?, strain = ?, "
                         "note = ? WHERE number = ?",
                         params.day.value_or(before.day), params.name.value_or(before.name),
                         newer("volume", params.volume, before.volume),
                         newer("gravity", params.gravity, before.gravity),
                         newer("strain", params.strain, before.strain),
                         newer("note", params.note, before.note));
    return changed_brew(transaction, params.brew);
}

Brew show(const View& view, const Call&, const contract::BrewShow::Params& params) {
    return require_brew(view, params.brew, "/brew");
}

Brew need(Transaction& transaction, const Call&, const contract::BrewNeed::Params& params) {
    const Brew brew = require_planned(transaction, params.brew);
    const GoodRow good = require_good(transaction, params.good, "/good");
    const Amount amount = not_negative(params.amount, good.good.measure, "/amount");
    set_need(transaction, params.brew, good.number, amount.steps, params.day.value_or(brew.day));
    settle_needs(transaction, good.number);
    return changed_brew(transaction, params.brew);
}

contract::BrewReserve::Result reserve(Transaction& transaction, const Call&,
                                      const contract::BrewReserve::Params& params) {
    const Brew brew = require_planned(transaction, params.brew);
    const Named named = require_named(transaction, params.what, "/what");
    TakeRequest wish{positive(params.amount, named.good.good.measure, "/amount"), {}, brew.day};
    wish.is_promised = true;
    for (const auto& part : choose(transaction, named, wish, "/amount"))
        reserve_more(transaction, params.brew, part.lot, part.steps);
    return {changed_brew(transaction, params.brew),
            short_before(transaction, params.brew, named.good.number)};
}

Brew unreserve(Transaction& transaction, const Call&,
               const contract::BrewUnreserve::Params& params) {
    require_planned(transaction, params.brew);
    if (!params.lot) {
        give_back_all(transaction, params.brew);
        return changed_brew(transaction, params.brew);
    }
    const LotRow known = require_lot(transaction, *params.lot, "/lot");
    const auto steps = steps_reserved(transaction, params.brew, known.number());
    if (steps == 0)
        throw Error(ErrorKind::not_found, "not_reserved",
                    "Brew day " + std::to_string(params.brew) + " has reserved nothing of lot " +
                        to_text(*params.lot) + ".",
                    "List its reservations with: barm brew show " + std::to_string(params.brew),
                    "/lot");
    give_back(transaction, params.brew, known.number(), steps);
    return changed_brew(transaction, params.brew);
}

Brew close(Transaction& transaction, std::int64_t number, BrewState state) {
    const Brew brew = require_planned(transaction, number);
    give_back_all(transaction, number);
    drop_needs(transaction, number);
    update_with_checksum(transaction, ChecksummedTable::brew, number,
                         "UPDATE brew SET state = ? WHERE number = ?", state);
    for (const auto& one : brew.reserved) // it goes to the next brew day that needs it
        settle_needs(transaction, require_good(transaction, one.good, "").number);
    return changed_brew(transaction, number);
}

Brew finish(Transaction& transaction, const Call&, const contract::BrewFinish::Params& params) {
    return close(transaction, params.brew, BrewState::done);
}

Brew cancel(Transaction& transaction, const Call&, const contract::BrewCancel::Params& params) {
    return close(transaction, params.brew, BrewState::cancelled);
}

} // namespace

Brew require_brew(const View& view, std::int64_t number, std::string_view pointer) {
    auto brew = view.first(std::string(select_brews) + "WHERE number = ?", read_brew, number);
    if (!brew)
        throw Error(ErrorKind::not_found, "brew_unknown",
                    "There is no brew day " + std::to_string(number) + ".",
                    "List the brew days with: barm brew list --all", pointer);
    complete(view, *brew);
    return std::move(*brew);
}

void require_not_cancelled(const View& view, std::int64_t number, std::string_view pointer) {
    const Brew brew = require_brew(view, number, pointer);
    if (brew.state == BrewState::cancelled)
        throw Error(ErrorKind::conflict, "brew_closed",
                    "Brew day " + std::to_string(number) + " (" + brew.name + ") was cancelled.",
                    "Leave the brew day out, or plan another one with: barm brew plan", pointer);
}

contract::BrewList::Result list_brews(const View& view, const Call&,
                                      const contract::BrewList::Params& params) {
    const auto [day, number] = place_after<contract::BrewList, 2>(params);
    auto brews = view.all(std::string(select_brews) + "WHERE (?1 OR state = 'planned') AND "
                                                      "(?2 IS NULL OR (day, number) > (?2, ?3)) "
                                                      "ORDER BY day, number LIMIT ?4",
                          read_brew, std::int64_t{params.all}, day, number, params.limit + 1);
    contract::BrewList::Result result;
    result.next = cut_page<contract::BrewList>(params, brews, [](const Brew& last) {
        return Place<2>{to_text(last.day), std::to_string(last.number)};
    });
    complete(view, brews);
    result.brews = std::move(brews);
    return result;
}

void add_brews(Methods& methods) {
    methods.writes<contract::BrewPlan>(&plan);
    methods.writes<contract::BrewChange>(&change);
    methods.reads<contract::BrewShow>(&show);
    methods.reads<contract::BrewList>(&list_brews);
    methods.writes<contract::BrewNeed>(&need);
    methods.writes<contract::BrewReserve>(&reserve);
    methods.writes<contract::BrewUnreserve>(&unreserve);
    methods.writes<contract::BrewFinish>(&finish);
    methods.writes<contract::BrewCancel>(&cancel);
}

} // namespace barmkeep::ledger
