#include "daemon/ledger/posting.hpp"

#include "daemon/ledger/set_aside.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace barmkeep::ledger {
namespace {

struct Balance {
    std::int64_t steps = 0;
    Money value;
};

Balance balance_of(const View& view, std::int64_t lot) {
    return view
        .first(
            "SELECT quantity, value FROM balance WHERE lot = ?",
            [](const Row& row) {
                Balance balance;
                take_row(row, balance.steps, balance.value);
                return balance;
            },
            lot)
        .value();
}

/// A value needs something that has it, so an empty lot is worth nothing.
bool may_be(const Balance& balance) {
    return balance.steps >= 0 && balance.value >= Money{} &&
           (balance.steps > 0 || balance.value == Money{});
}

[[noreturn]] void refuse_change(const View& view, std::int64_t number, std::int64_t steps) {
    const KnownLot known = lot_numbered(view, number);
    throw Error(ErrorKind::conflict, "below_zero",
                fmt::format("Lot {} ({}) has {} left; a change of {} would leave less than "
                            "nothing of it or of its value.",
                            to_text(known.lot.code), known.lot.good, to_text(known.lot.on_hand),
                            to_text(Amount{steps, known.measure})),
                fmt::format("Correct the later entries of lot {} first (entry.list), or record "
                            "what there really is: stock.recount.",
                            to_text(known.lot.code)));
}

} // namespace

Posting::Posting(Transaction& transaction, const Call& call, const EntryHead& head)
    : transaction_{transaction}, kind_{head.kind} {
    const std::optional<std::string> key =
        call.key.empty() ? std::nullopt : std::optional{call.key};
    transaction.run("INSERT INTO entry (at, day, who, kind, memo, request_key, brew, corrects) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                    transaction.now(), head.day, call.caller.name, head.kind, head.memo, key,
                    head.brew, head.corrects);
    sequence_ = transaction.last_number();
}

Money Posting::take(std::int64_t lot, std::int64_t steps) {
    const Balance held = balance_of(transaction_, lot);
    if (steps > held.steps || steps < 0)
        refuse_change(transaction_, lot, -steps);
    const Money value = held.steps == 0 ? Money{} : share_of(held.value, steps, held.steps);
    change(lot, -steps, -value);
    return value;
}

void Posting::change(std::int64_t lot, std::int64_t steps, Money value) {
    const Balance held = balance_of(transaction_, lot);
    const Balance left{add_checked(held.steps, steps), add_checked(held.value, value)};
    if (!may_be(left))
        refuse_change(transaction_, lot, steps);
    transaction_.run("INSERT INTO line (entry, position, lot, quantity, value) "
                     "VALUES (?, ?, ?, ?, ?)",
                     sequence_, ++position_, lot, steps, value);
    transaction_.run("UPDATE balance SET quantity = ?, value = ? WHERE lot = ?", left.steps,
                     left.value, lot);
}

void Posting::lose(std::int64_t pieces, Money value) {
    transaction_.run("INSERT INTO loss (entry, pieces, value) VALUES (?, ?, ?)", sequence_, pieces,
                     value);
}

contract::Posted Posting::finish() {
    contract::Posted posted{sequence_, lines_of(transaction_, sequence_)};
    std::set<LotCode> lots;
    std::set<std::string> goods;
    for (const auto& line : posted.lines) {
        lots.insert(line.lot);
        goods.insert(line.good);
    }
    json::array lot_texts;
    for (const auto& lot : lots) {
        trim_set_aside(transaction_, lot.number());
        lot_texts.push_back(json::value(to_text(lot)));
    }
    transaction_.event(contract::Topic::entry_posted,
                       {{"entry", sequence_},
                        {"kind", to_string(kind_)},
                        {"lots", std::move(lot_texts)},
                        {"goods", json::array(goods.begin(), goods.end())}});
    return posted;
}

std::vector<contract::Line> lines_of(const View& view, std::int64_t sequence) {
    return view.all(
        "SELECT line.lot, good.class, good.name, good.measure, line.quantity, line.value "
        "FROM line JOIN lot ON lot.number = line.lot JOIN good ON good.number = lot.good "
        "WHERE line.entry = ? ORDER BY line.position",
        [](const Row& row) {
            contract::Line line;
            std::int64_t number = 0;
            contract::GoodClass goods{};
            take_row(row, number, goods, line.good, line.quantity.measure, line.quantity.steps,
                     line.value);
            line.lot = LotCode{contract::lot_letter(goods), number};
            return line;
        },
        sequence);
}

} // namespace barmkeep::ledger
