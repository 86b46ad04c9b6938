#include "daemon/ledger/reservations.hpp"

#include "daemon/ledger/links.hpp"

#include <algorithm>

namespace barmkeep::ledger {

std::map<std::int64_t, std::vector<contract::Reservation>>
reservations_for(const View& view, const std::vector<std::int64_t>& brews) {
    std::map<std::int64_t, std::vector<contract::Reservation>> all;
    view.each(
        "SELECT reservation.brew, lot.number, good.class, good.name, good.measure, "
        "reservation.quantity FROM reservation JOIN lot ON lot.number = reservation.lot "
        "JOIN good ON good.number = lot.good "
        "WHERE reservation.brew IN (SELECT value FROM json_each(?)) ORDER BY good.name, lot.number",
        [&](const Row& row) {
            contract::Reservation one;
            std::int64_t brew = 0;
            std::int64_t number = 0;
            contract::Category category{};
            take_row(row, brew, number, category, one.good, one.amount.measure, one.amount.steps);
            one.lot = LotCode{contract::lot_letter(category), number};
            all[brew].push_back(std::move(one));
        },
        number_list(brews));
    return all;
}

std::int64_t steps_reserved(const View& view, std::int64_t brew, std::int64_t lot) {
    return view
        .first("SELECT quantity FROM reservation WHERE brew = ? AND lot = ?",
               take_one<std::int64_t>, brew, lot)
        .value_or(0);
}

void reserve_more(Transaction& transaction, std::int64_t brew, std::int64_t lot,
                  std::int64_t steps) {
    transaction.run("INSERT INTO reservation (brew, lot, quantity) VALUES (?, ?, ?) "
                    "ON CONFLICT (brew, lot) DO UPDATE SET quantity = quantity + "
                    "excluded.quantity",
                    brew, lot, steps);
}

void give_back(Transaction& transaction, std::int64_t brew, std::int64_t lot, std::int64_t steps) {
    if (steps == 0)
        return;
    if (steps == steps_reserved(transaction, brew, lot))
        transaction.run("DELETE FROM reservation WHERE brew = ? AND lot = ?", brew, lot);
    else
        transaction.run("UPDATE reservation SET quantity = quantity - ? WHERE brew = ? AND lot = ?",
                        steps, brew, lot);
}

void give_back_all(Transaction& transaction, std::int64_t brew) {
    transaction.run("DELETE FROM reservation WHERE brew = ?", brew);
}

void give_back_lot(Transaction& transaction, std::int64_t lot) {
    const auto brews = transaction.all("SELECT brew FROM reservation WHERE lot = ? ORDER BY brew",
                                       take_one<std::int64_t>, lot);
    transaction.run("DELETE FROM reservation WHERE lot = ?", lot);
    for (const std::int64_t brew : brews)
        send_brew_changed(transaction, brew);
}

void trim_reservations(Transaction& transaction, std::int64_t lot) {
    struct Claim {
        std::int64_t brew = 0;
        std::int64_t steps = 0;
    };
    std::int64_t left = transaction.number("SELECT quantity FROM balance WHERE lot = ?", lot);
    const auto claims = transaction.all(
        "SELECT reservation.brew, reservation.quantity FROM reservation "
        "JOIN brew ON brew.number = reservation.brew WHERE reservation.lot = ? "
        "ORDER BY brew.day, brew.number",
        [](const Row& row) {
            Claim claim;
            take_row(row, claim.brew, claim.steps);
            return claim;
        },
        lot);
    for (const auto& claim : claims) {
        const std::int64_t kept = std::min(claim.steps, left);
        left -= kept;
        if (kept == claim.steps)
            continue;
        give_back(transaction, claim.brew, lot, claim.steps - kept);
        send_brew_changed(transaction, claim.brew);
    }
}

void send_brew_changed(Transaction& transaction, std::int64_t brew) {
    transaction.event(contract::Topic::brew_changed, {{"brew", brew}});
}

} // namespace barmkeep::ledger
