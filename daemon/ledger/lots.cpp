#include "daemon/ledger/lots.hpp"

namespace barmkeep::ledger {
namespace {

constexpr std::string_view select_lots =
    "SELECT lot.number, good.number, good.name, good.class, good.measure, good.facts, "
    "balance.quantity, balance.value, "
    "coalesce((SELECT sum(quantity) FROM set_aside WHERE set_aside.lot = lot.number), 0), "
    "lot.supplier, lot.bought, lot.packed, lot.canned, lot.best_by, lot.facts, lot.hold, "
    "lot.origin "
    "FROM lot JOIN good ON good.number = lot.good JOIN balance ON balance.lot = lot.number ";

constexpr std::string_view order_of_expiry =
    "lot.best_by IS NULL, lot.best_by, coalesce(lot.packed, lot.canned, lot.bought) IS NULL, "
    "coalesce(lot.packed, lot.canned, lot.bought), lot.number";

KnownLot lot_in(const Row& row, Date today) {
    KnownLot known;
    contract::Lot& lot = known.lot;
    std::int64_t number = 0;
    std::int64_t on_hand = 0;
    std::int64_t set_aside = 0;
    std::string good_facts;
    std::string own_facts;
    take_row(row, number, known.good_number, lot.good, lot.goods, known.measure, good_facts,
             on_hand, lot.value, set_aside, lot.supplier, lot.bought, lot.packed, lot.canned,
             lot.best_by, own_facts, lot.hold, lot.origin);
    lot.code = LotCode{contract::lot_letter(lot.goods), number};
    lot.on_hand = {on_hand, known.measure};
    lot.set_aside = {set_aside, known.measure};
    known.is_past = contract::is_past_best_by(lot, today);
    lot.free = {lot.hold || known.is_past ? 0 : on_hand - set_aside, known.measure};
    known.own_facts = facts_from(own_facts);
    lot.facts = overlay(facts_from(good_facts), known.own_facts);
    return known;
}

/// Reads lots as they are on the day of the view.
auto lots_on_the_day(const View& view) {
    return [today = view.today()](const Row& row) {
        return lot_in(row, today);
    };
}

std::string selected(std::string_view where, std::string_view order = "") {
    std::string text = std::string(select_lots).append("WHERE ").append(where);
    if (!order.empty())
        text.append(" ORDER BY ").append(order);
    return text;
}

std::optional<LotCode> code_in(const std::string& what) {
    try {
        return parse_lot_code(what);
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

/// A code with a slip in it is no good's name.
[[noreturn]] void refuse_slip(const std::string& what, std::string_view pointer) {
    throw Error(ErrorKind::params, "not_a_lot",
                "There is no lot and no good '" + what + "'; as a lot code it has a slip.",
                "Read the code on the lid or in `stock list` again.", pointer);
}

} // namespace

KnownLot lot_numbered(const View& view, std::int64_t number) {
    return view.first(selected("lot.number = ?"), lots_on_the_day(view), number).value();
}

std::optional<KnownLot> find_lot(const View& view, const LotCode& code) {
    auto known = view.first(selected("lot.number = ?"), lots_on_the_day(view), code.number());
    if (known && known->lot.code != code)
        return std::nullopt;
    return known;
}

KnownLot require_lot(const View& view, const LotCode& code, std::string_view pointer) {
    auto known = find_lot(view, code);
    if (known)
        return std::move(*known);
    const auto numbered =
        view.first(selected("lot.number = ?"), lots_on_the_day(view), code.number());
    throw Error(ErrorKind::not_found, "lot_unknown", "There is no lot " + to_text(code) + ".",
                numbered ? "Did you mean " + to_text(numbered->lot.code) + " (" +
                               numbered->lot.good + ")?"
                         : "stock.list shows the lots there are.",
                pointer);
}

std::vector<KnownLot> lots_of_good(const View& view, std::int64_t good_number, bool also_empty) {
    return view.all(selected("lot.good = ?1 AND (?2 OR balance.quantity > 0)", order_of_expiry),
                    lots_on_the_day(view), good_number, std::int64_t{also_empty});
}

std::vector<KnownLot> lots_of_all(const View& view, bool also_empty) {
    return view.all(
        selected("(?1 OR balance.quantity > 0)", "good.name, " + std::string(order_of_expiry)),
        lots_on_the_day(view), std::int64_t{also_empty});
}

std::int64_t make_lot(Transaction& transaction, const KnownGood& good, const NewLot& lot,
                      std::int64_t origin) {
    transaction.run("INSERT INTO lot (good, supplier, bought, packed, canned, best_by, facts, "
                    "hold, origin) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                    good.number, lot.supplier, lot.dates.bought, lot.dates.packed, lot.dates.canned,
                    lot.dates.best_by, stored_facts(lot.facts), lot.hold, origin);
    const std::int64_t number = transaction.last_number();
    transaction.run("INSERT INTO balance (lot, quantity, value) VALUES (?, 0, 0)", number);
    return number;
}

Named require_named(const View& view, const std::string& what, std::string_view pointer) {
    if (const auto code = code_in(what))
        if (auto lot = find_lot(view, *code)) {
            KnownGood good = require_good(view, lot->lot.good, pointer);
            return {std::move(lot), std::move(good)};
        }
    if (auto good = find_good(view, what))
        return {std::nullopt, std::move(*good)};
    if (const auto code = code_in(what))
        return {require_lot(view, *code, pointer), {}}; // throws, with what it knows
    if (has_form_of_lot_code(what))
        refuse_slip(what, pointer);
    return {std::nullopt, require_good(view, what, pointer)};
}

} // namespace barmkeep::ledger
