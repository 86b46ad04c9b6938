#include "daemon/ledger/lots.hpp"
#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {
namespace {

/// Keeps why, and tells of the change.
void note_change(Transaction& transaction, const Call& call, const KnownLot& known,
                 std::string_view change, const std::string& reason) {
    transaction.run("INSERT INTO lot_change (lot, at, who, change, reason) VALUES (?, ?, ?, ?, ?)",
                    known.number(), transaction.now(), call.caller.name, change, reason);
    transaction.event(contract::Topic::lot_changed, {{"lot", to_text(known.lot.code)},
                                                     {"good", known.lot.good},
                                                     {"change", change},
                                                     {"reason", reason}});
}

contract::Lot show(const View& view, const Call&, const contract::LotShow::Params& params) {
    return require_lot(view, params.code, "/code").lot;
}

contract::Lot change(Transaction& transaction, const Call& call,
                     const contract::LotChange::Params& params) {
    const KnownLot known = require_lot(transaction, params.code, "/code");
    const contract::Lot& lot = known.lot;
    check_past(transaction, params.packed, "/packed", "packed");
    check_past(transaction, params.canned, "/canned", "canned");
    const auto newer = [](const auto& given, const auto& held) {
        return given ? given : held;
    };
    const LotDates dates{lot.bought, newer(params.packed, lot.packed),
                         newer(params.canned, lot.canned), newer(params.best_by, lot.best_by)};
    check_dates(dates, params.best_by ? "/best_by" : params.canned ? "/canned" : "/packed");
    transaction.run(
        "UPDATE lot SET supplier = ?, packed = ?, canned = ?, best_by = ?, facts = ? "
        "WHERE number = ?",
        newer(params.supplier, lot.supplier), dates.packed, dates.canned, dates.best_by,
        stored_facts(overlay(known.own_facts, params.facts.value_or(contract::Facts{}))),
        known.number());
    note_change(transaction, call, known, "changed", params.reason);
    return lot_numbered(transaction, known.number()).lot;
}

contract::Lot hold(Transaction& transaction, const Call& call,
                   const contract::LotHold::Params& params) {
    const KnownLot known = require_lot(transaction, params.code, "/code");
    transaction.run("UPDATE lot SET hold = ? WHERE number = ?", params.reason, known.number());
    note_change(transaction, call, known, "held", params.reason);
    return lot_numbered(transaction, known.number()).lot;
}

contract::Lot release(Transaction& transaction, const Call& call,
                      const contract::LotRelease::Params& params) {
    const KnownLot known = require_lot(transaction, params.code, "/code");
    if (!known.is_held())
        throw Error(ErrorKind::conflict, "not_on_hold",
                    "Lot " + to_text(params.code) + " is not on hold.", "", "/code");
    transaction.run("UPDATE lot SET hold = NULL WHERE number = ?", known.number());
    note_change(transaction, call, known, "released", params.reason);
    return lot_numbered(transaction, known.number()).lot;
}

} // namespace

void add_lots(Methods& methods) {
    methods.reads<contract::LotShow>(&show);
    methods.writes<contract::LotChange>(&change);
    methods.writes<contract::LotHold>(&hold);
    methods.writes<contract::LotRelease>(&release);
}

} // namespace barmkeep::ledger
