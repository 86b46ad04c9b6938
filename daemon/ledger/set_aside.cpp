#include "daemon/ledger/set_aside.hpp"

#include "daemon/ledger/links.hpp"

#include <algorithm>

namespace barmkeep::ledger {

std::map<std::int64_t, std::vector<contract::SetAside>>
set_aside_for(const View& view, const std::vector<std::int64_t>& brews) {
    std::map<std::int64_t, std::vector<contract::SetAside>> all;
    view.each(
        "SELECT set_aside.brew, lot.number, good.class, good.name, good.measure, "
        "set_aside.quantity FROM set_aside JOIN lot ON lot.number = set_aside.lot "
        "JOIN good ON good.number = lot.good "
        "WHERE set_aside.brew IN (SELECT value FROM json_each(?)) ORDER BY good.name, lot.number",
        [&](const Row& row) {
            contract::SetAside one;
            std::int64_t brew = 0;
            std::int64_t number = 0;
            contract::GoodClass goods{};
            take_row(row, brew, number, goods, one.good, one.amount.measure, one.amount.steps);
            one.lot = LotCode{contract::lot_letter(goods), number};
            all[brew].push_back(std::move(one));
        },
        number_list(brews));
    return all;
}

std::int64_t steps_set_aside(const View& view, std::int64_t brew, std::int64_t lot) {
    return view
        .first("SELECT quantity FROM set_aside WHERE brew = ? AND lot = ?", take_one<std::int64_t>,
               brew, lot)
        .value_or(0);
}

void set_more_aside(Transaction& transaction, std::int64_t brew, std::int64_t lot,
                    std::int64_t steps) {
    transaction.run("INSERT INTO set_aside (brew, lot, quantity) VALUES (?, ?, ?) "
                    "ON CONFLICT (brew, lot) DO UPDATE SET quantity = quantity + "
                    "excluded.quantity",
                    brew, lot, steps);
}

void give_back(Transaction& transaction, std::int64_t brew, std::int64_t lot, std::int64_t steps) {
    if (steps == 0)
        return;
    if (steps == steps_set_aside(transaction, brew, lot))
        transaction.run("DELETE FROM set_aside WHERE brew = ? AND lot = ?", brew, lot);
    else
        transaction.run("UPDATE set_aside SET quantity = quantity - ? WHERE brew = ? AND lot = ?",
                        steps, brew, lot);
}

void give_back_all(Transaction& transaction, std::int64_t brew) {
    transaction.run("DELETE FROM set_aside WHERE brew = ?", brew);
}

void trim_set_aside(Transaction& transaction, std::int64_t lot) {
    struct Claim {
        std::int64_t brew = 0;
        std::int64_t steps = 0;
    };
    std::int64_t left = transaction.number("SELECT quantity FROM balance WHERE lot = ?", lot);
    const auto claims = transaction.all(
        "SELECT set_aside.brew, set_aside.quantity FROM set_aside "
        "JOIN brew ON brew.number = set_aside.brew WHERE set_aside.lot = ? "
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
        tell_brew_changed(transaction, claim.brew);
    }
}

void tell_brew_changed(Transaction& transaction, std::int64_t brew) {
    transaction.event(contract::Topic::brew_changed, {{"brew", brew}});
}

} // namespace barmkeep::ledger
