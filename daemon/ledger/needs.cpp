#include "daemon/ledger/needs.hpp"

#include "daemon/ledger/links.hpp"
#include "daemon/ledger/lots.hpp"
#include "daemon/ledger/reservations.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

using contract::Need;

/// What a brew day has reserved of one good, as a column of a row of `need`.
constexpr std::string_view reserved_of_need =
    "coalesce((SELECT sum(reservation.quantity) FROM reservation JOIN lot ON lot.number = "
    "reservation.lot "
    "WHERE reservation.brew = need.brew AND lot.good = need.good), 0)";

struct Missing {
    std::int64_t brew = 0;
    std::int64_t steps = 0;
    Date day;
};

/// Of planned brew days only: a brew day that is over has no needs any more.
std::vector<Missing> missing_of(const View& view, std::int64_t good) {
    return view.all(
        std::string("SELECT need.brew, need.quantity - ")
            .append(reserved_of_need)
            .append(" AS missing, need.day FROM need WHERE need.good = ? AND missing > 0 "
                    "ORDER BY need.day, need.brew"),
        [](const Row& row) {
            Missing missing;
            take_row(row, missing.brew, missing.steps, missing.day);
            return missing;
        },
        good);
}

} // namespace

std::map<std::int64_t, std::vector<Need>> needs_of(const View& view,
                                                   const std::vector<std::int64_t>& brews) {
    std::map<std::int64_t, std::vector<Need>> all;
    view.each(
        std::string("SELECT need.brew, good.name, good.measure, need.quantity, ")
            .append(reserved_of_need)
            .append(", need.day FROM need JOIN good ON good.number = need.good "
                    "WHERE need.brew IN (SELECT value FROM json_each(?)) ORDER BY good.name"),
        [&](const Row& row) {
            std::int64_t brew = 0;
            Need need;
            take_row(row, brew, need.good, need.amount.measure, need.amount.steps,
                     need.reserved.steps, need.day);
            need.reserved.measure = need.amount.measure;
            all[brew].push_back(std::move(need));
        },
        number_list(brews));
    return all;
}

void set_need(Transaction& transaction, std::int64_t brew, std::int64_t good, std::int64_t steps,
              Date day) {
    if (steps == 0)
        transaction.run("DELETE FROM need WHERE brew = ? AND good = ?", brew, good);
    else
        transaction.run("INSERT INTO need (brew, good, quantity, day) VALUES (?, ?, ?, ?) "
                        "ON CONFLICT (brew, good) DO UPDATE SET quantity = excluded.quantity, "
                        "day = excluded.day",
                        brew, good, steps, day);
}

void lessen_need(Transaction& transaction, std::int64_t brew, std::int64_t good,
                 std::int64_t steps) {
    transaction.run("DELETE FROM need WHERE brew = ? AND good = ? AND quantity <= ?", brew, good,
                    steps);
    transaction.run("UPDATE need SET quantity = quantity - ? WHERE brew = ? AND good = ?", steps,
                    brew, good);
}

void drop_needs(Transaction& transaction, std::int64_t brew) {
    transaction.run("DELETE FROM need WHERE brew = ?", brew);
}

void settle_needs(Transaction& transaction, std::int64_t good) {
    auto all_missing = missing_of(transaction, good);
    if (all_missing.empty())
        return;
    auto lots = lots_of_good(transaction, good);
    for (Missing& missing : all_missing) {
        bool is_changed = false;
        for (LotRow& known : lots) {
            const std::int64_t steps =
                std::min(missing.steps, available_on(known.lot, missing.day).steps);
            if (steps <= 0)
                continue;
            reserve_more(transaction, missing.brew, known.number(), steps);
            known.lot.reserved.steps += steps;
            missing.steps -= steps;
            is_changed = true;
        }
        if (is_changed)
            send_brew_changed(transaction, missing.brew);
    }
}

std::vector<std::int64_t> short_before(const View& view, std::int64_t brew, std::int64_t good) {
    std::vector<std::int64_t> all;
    const auto day = view.first("SELECT day FROM brew WHERE number = ?", take_one<Date>, brew);
    for (const Missing& missing : missing_of(view, good))
        if (missing.brew != brew && day && missing.day <= *day)
            all.push_back(missing.brew);
    return all;
}

} // namespace barmkeep::ledger
