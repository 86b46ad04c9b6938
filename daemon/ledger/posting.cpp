#include "daemon/ledger/posting.hpp"

#include "daemon/ledger/digest.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/needs.hpp"
#include "daemon/ledger/reservations.hpp"

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
    const LotRow known = lot_numbered(view, number);
    throw Error(ErrorKind::conflict, "below_zero",
                fmt::format("Lot {} ({}) has {} left. A change of {} would make its amount or its "
                            "value negative.",
                            to_text(known.lot.code), known.lot.good, to_text(known.lot.on_hand),
                            to_text(Amount{steps, known.measure})),
                fmt::format("Undo the later entries of the lot first. List them with: barm entry "
                            "list {0}\nOr count it and enter the count with: barm stock recount "
                            "{0}",
                            to_text(known.lot.code)));
}

std::vector<std::int64_t> numbers_of(const std::set<LotCode>& codes) {
    std::vector<std::int64_t> numbers;
    for (const LotCode& code : codes)
        numbers.push_back(code.number());
    return numbers;
}

} // namespace

Posting::Posting(Transaction& transaction, const Call& call, const EntryHead& head)
    : transaction_{transaction}, head_{head} {
    const std::optional<std::string> key =
        call.key.empty() ? std::nullopt : std::optional{call.key};
    transaction.run("INSERT INTO entry (at, day, who, kind, note, request_key, brew, undoes) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                    transaction.now(), head.day, call.caller.name, head.kind, head.note, key,
                    head.brew, head.undoes);
    sequence_ = transaction.last_number();
    add_links(transaction, LinkSource::entry, sequence_, head.about);
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

void Posting::sweep(std::int64_t lot, const Amount& amount) {
    if (amount.steps > 0)
        swept_.push_back({lot_numbered(transaction_, lot).lot.code, amount});
}

contract::Posted Posting::finish() {
    contract::Posted posted{sequence_, lines_of(transaction_, sequence_), std::move(swept_), {}};
    std::set<LotCode> taken;
    std::set<LotCode> lots;
    std::set<std::string> goods;
    std::set<std::string> grown;
    for (const auto& line : posted.lines) {
        lots.insert(line.lot);
        goods.insert(line.good);
        if (line.quantity.steps < 0)
            taken.insert(line.lot);
        else
            grown.insert(line.good);
    }
    json::array lot_texts;
    for (const auto& lot : lots) {
        trim_reservations(transaction_, lot.number());
        lot_texts.push_back(json::value(to_text(lot)));
    }
    for (const auto& good : grown)
        settle_needs(transaction_, require_good(transaction_, good, "").number);
    auto released = releases_of(transaction_, numbers_of(taken));
    for (const auto& lot : taken)
        for (auto& hold : released[lot.number()])
            posted.despite.push_back({lot, std::move(hold)});
    close_with_digest(transaction_, sequence_);
    transaction_.event(contract::Topic::entry_posted,
                       {{"entry", sequence_},
                        {"kind", to_string(head_.kind)},
                        {"lots", std::move(lot_texts)},
                        {"goods", json::array(goods.begin(), goods.end())},
                        {"about", to_json(head_.about)}});
    return posted;
}

namespace {

constexpr std::string_view select_lines =
    "SELECT line.entry, line.lot, good.class, good.name, good.measure, line.quantity, line.value "
    "FROM line JOIN lot ON lot.number = line.lot JOIN good ON good.number = lot.good ";

std::pair<std::int64_t, contract::Line> read_line(const Row& row) {
    std::pair<std::int64_t, contract::Line> read;
    contract::Line& line = read.second;
    std::int64_t number = 0;
    contract::Category category{};
    take_row(row, read.first, number, category, line.good, line.quantity.measure,
             line.quantity.steps, line.value);
    line.lot = LotCode{contract::lot_letter(category), number};
    return read;
}

} // namespace

std::vector<contract::Line> lines_of(const View& view, std::int64_t sequence) {
    return std::move(lines_of(view, std::vector{sequence})[sequence]);
}

std::map<std::int64_t, std::vector<contract::Line>>
lines_of(const View& view, const std::vector<std::int64_t>& sequences) {
    std::map<std::int64_t, std::vector<contract::Line>> all;
    view.each(
        std::string(select_lines) + "WHERE line.entry IN (SELECT value FROM json_each(?)) "
                                    "ORDER BY line.entry, line.position",
        [&](const Row& row) {
            auto [entry, line] = read_line(row);
            all[entry].push_back(std::move(line));
        },
        number_list(sequences));
    return all;
}

LotRow split_lot(Transaction& transaction, const Call& call, const LotRow& known,
                 std::int64_t steps, const std::string& why) {
    const contract::Lot& lot = known.lot;
    Posting posting{transaction,
                    call,
                    {contract::EntryKind::split, transaction.today(), why, {}, {}, lot.about}};
    const Money value = posting.take(known.number(), steps);
    const auto part = make_lot(transaction, require_good(transaction, lot.good, "/lot"),
                               {{lot.bought, lot.packed, lot.canned, lot.best_by},
                                lot.supplier,
                                known.own_facts,
                                lot.kept,
                                lot.about},
                               posting.sequence());
    posting.change(part, steps, value);
    copy_holds(transaction, call, part, lot.holds);
    copy_holds(transaction, call, part, lot.released);
    (void)posting.finish();
    return lot_numbered(transaction, part);
}

} // namespace barmkeep::ledger
