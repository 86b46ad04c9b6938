#include "daemon/ledger/lots.hpp"

#include "daemon/ledger/links.hpp"
#include "daemon/ledger/row_checksum.hpp"

#include <algorithm>

namespace barmkeep::ledger {
namespace {

constexpr std::string_view select_lots =
    "SELECT lot.number, good.number, good.name, good.class, good.measure, good.facts, "
    "balance.quantity, balance.value, "
    "coalesce((SELECT sum(quantity) FROM reservation WHERE reservation.lot = lot.number), 0), "
    "lot.supplier, lot.bought, lot.packed, lot.canned, lot.best_by, lot.kept, lot.facts, "
    "lot.origin "
    "FROM lot JOIN good ON good.number = lot.good JOIN balance ON balance.lot = lot.number ";

LotRow read_lot(const Row& row) {
    LotRow known;
    contract::Lot& lot = known.lot;
    std::int64_t number = 0;
    std::int64_t on_hand = 0;
    std::int64_t reserved = 0;
    std::string good_facts;
    std::string own_facts;
    take_row(row, number, known.good_number, lot.good, lot.category, known.measure, good_facts,
             on_hand, lot.value, reserved, lot.supplier, lot.bought, lot.packed, lot.canned,
             lot.best_by, lot.kept, own_facts, lot.origin);
    lot.code = LotCode{contract::lot_letter(lot.category), number};
    lot.on_hand = {on_hand, known.measure};
    lot.reserved = {reserved, known.measure};
    known.own_facts = parse_json(own_facts).as_object();
    lot.facts =
        overlay(facts_from(parse_json(good_facts).as_object()), facts_from(known.own_facts));
    return known;
}

/// Adds what stands in other tables, and with it what is available on the view's day.
std::vector<LotRow> completed(const View& view, std::vector<LotRow> lots) {
    std::vector<std::int64_t> numbers;
    for (const LotRow& known : lots)
        numbers.push_back(known.number());
    auto holds = holds_of(view, numbers);
    auto links = links_of(view, LinkSource::lot, numbers);
    for (LotRow& known : lots) {
        contract::Lot& lot = known.lot;
        for (contract::Hold& hold : holds[known.number()]) {
            if (!hold.ended_at)
                lot.holds.push_back(std::move(hold));
            else if (is_remembered(hold.kind))
                lot.released.push_back(std::move(hold));
        }
        lot.about = std::move(links[known.number()]);
        lot.available = available_on(lot, view.today());
    }
    return lots;
}

template <class... T>
std::vector<LotRow> lots_where(const View& view, std::string_view where, const T&... parameters) {
    return completed(view, view.all(std::string(select_lots).append("WHERE ").append(where),
                                    read_lot, parameters...));
}

std::optional<LotRow> lot_with(const View& view, std::int64_t number) {
    auto lots = lots_where(view, "lot.number = ?", number);
    return lots.empty() ? std::nullopt : std::optional{std::move(lots.front())};
}

std::optional<LotCode> code_in(const std::string& what) {
    try {
        return parse_lot_code(what);
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

/// A mistyped code is no good's name.
[[noreturn]] void refuse_mistyped(const std::string& what, std::string_view pointer) {
    throw Error(ErrorKind::params, "not_a_lot",
                "'" + what + "' is not a good, and not a lot code: one of its letters is mistyped.",
                "Compare the code on the lid with: barm stock list", pointer);
}

} // namespace

LotRow lot_numbered(const View& view, std::int64_t number) {
    return lot_with(view, number).value();
}

std::optional<LotRow> find_lot(const View& view, const LotCode& code) {
    auto known = lot_with(view, code.number());
    if (known && known->lot.code != code)
        return std::nullopt;
    return known;
}

LotRow require_lot(const View& view, const LotCode& code, std::string_view pointer) {
    auto known = lot_with(view, code.number());
    if (known && known->lot.code == code)
        return std::move(*known);
    throw Error(ErrorKind::not_found, "lot_unknown", "There is no lot " + to_text(code) + ".",
                known ? "Did you mean " + to_text(known->lot.code) + " (" + known->lot.good + ")?"
                      : "List the lots with: barm stock list",
                pointer);
}

std::vector<LotRow> lots_of_good(const View& view, std::int64_t good_number, bool also_empty) {
    auto lots = lots_where(view, "lot.good = ?1 AND (?2 OR balance.quantity > 0)", good_number,
                           std::int64_t{also_empty});
    std::sort(lots.begin(), lots.end(),
              [](const LotRow& a, const LotRow& b) { return is_taken_before(a.lot, b.lot); });
    return lots;
}

std::vector<LotRow> lots_of_all(const View& view, bool also_empty) {
    auto lots = lots_where(view, "(?1 OR balance.quantity > 0)", std::int64_t{also_empty});
    std::sort(lots.begin(), lots.end(), [](const LotRow& a, const LotRow& b) {
        if (a.lot.good != b.lot.good)
            return a.lot.good < b.lot.good;
        return is_taken_before(a.lot, b.lot);
    });
    return lots;
}

std::int64_t make_lot(Transaction& transaction, const GoodRow& good, const NewLot& lot,
                      std::int64_t origin) {
    const std::int64_t number = insert_with_checksum(
        transaction, ChecksummedTable::lot,
        "INSERT INTO lot (good, supplier, bought, packed, canned, best_by, kept, facts, origin) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        good.number, lot.supplier, lot.dates.bought, lot.dates.packed, lot.dates.canned,
        lot.dates.best_by, lot.kept, write_json(lot.facts), origin);
    transaction.run("INSERT INTO balance (lot, quantity, value) VALUES (?, 0, 0)", number);
    add_links(transaction, LinkSource::lot, number, lot.about);
    return number;
}

Named require_named(const View& view, const std::string& what, std::string_view pointer) {
    if (const auto code = code_in(what))
        if (auto lot = find_lot(view, *code)) {
            GoodRow good = require_good(view, lot->lot.good, pointer);
            return {std::move(lot), std::move(good)};
        }
    if (auto good = find_good(view, what))
        return {std::nullopt, std::move(*good)};
    if (const auto code = code_in(what))
        return {require_lot(view, *code, pointer), {}}; // throws, with what it knows
    if (has_form_of_lot_code(what))
        refuse_mistyped(what, pointer);
    return {std::nullopt, require_good(view, what, pointer)};
}

} // namespace barmkeep::ledger
