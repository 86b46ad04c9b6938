#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/lots.hpp"
#include "daemon/ledger/methods.hpp"

namespace barmkeep::ledger {
namespace {

using contract::LotDeed;

/// What is said of a lot, and can be changed.
json::object said_of(const KnownLot& known) {
    const json::object lot = to_json(known.lot).as_object();
    json::object said;
    for (const char* member : {"supplier", "packed", "canned", "best_by", "hold"})
        if (const auto* value = lot.if_contains(member))
            said[member] = *value;
    said["facts"] = to_json(known.own_facts);
    return said;
}

/// Notes the members in which two objects differ, of members that are objects only those within.
void note_difference(const json::object& before, const json::object& after, json::object& was,
                     json::object& became) {
    json::object all = before;
    all.insert(after.begin(), after.end());
    for (const auto& member : all) {
        const auto* old = before.if_contains(member.key());
        const auto* now = after.if_contains(member.key());
        if (old != nullptr && now != nullptr && *old == *now)
            continue;
        if (old != nullptr && now != nullptr && old->is_object() && now->is_object()) {
            note_difference(old->as_object(), now->as_object(), was[member.key()].emplace_object(),
                            became[member.key()].emplace_object());
            continue;
        }
        was[member.key()] = old != nullptr ? *old : json::value(nullptr);
        became[member.key()] = now != nullptr ? *now : json::value(nullptr);
    }
}

/// Keeps what changed and why, tells of it, and answers the lot as it is now.
contract::Lot note_change(Transaction& transaction, const Call& call, const KnownLot& before,
                          LotDeed change, const std::string& reason) {
    const KnownLot after = lot_numbered(transaction, before.number());
    json::object was;
    json::object became;
    note_difference(said_of(before), said_of(after), was, became);
    transaction.run("INSERT INTO lot_change (lot, at, who, change, reason, was, became) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?)",
                    before.number(), transaction.now(), call.caller.name, change, reason,
                    write_json(was), write_json(became));
    transaction.event(contract::Topic::lot_changed, {{"lot", to_text(before.lot.code)},
                                                     {"good", before.lot.good},
                                                     {"change", to_string(change)},
                                                     {"reason", reason}});
    return after.lot;
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
    return note_change(transaction, call, known, LotDeed::changed, params.reason);
}

contract::Lot hold(Transaction& transaction, const Call& call,
                   const contract::LotHold::Params& params) {
    const KnownLot known = require_lot(transaction, params.code, "/code");
    transaction.run("UPDATE lot SET hold = ? WHERE number = ?", params.reason, known.number());
    return note_change(transaction, call, known, LotDeed::held, params.reason);
}

contract::Lot release(Transaction& transaction, const Call& call,
                      const contract::LotRelease::Params& params) {
    const KnownLot known = require_lot(transaction, params.code, "/code");
    if (!known.is_held())
        throw Error(ErrorKind::conflict, "not_on_hold",
                    "Lot " + to_text(params.code) + " is not on hold.", "", "/code");
    transaction.run("UPDATE lot SET hold = NULL WHERE number = ?", known.number());
    return note_change(transaction, call, known, LotDeed::released, params.reason);
}

struct Kept {
    std::int64_t number = 0;
    contract::LotPast past;
};

Kept read_past(const Row& row) {
    Kept kept;
    std::optional<std::string> was;
    std::optional<std::string> became;
    contract::LotPast& past = kept.past;
    take_row(row, kept.number, past.at, past.who, past.change, past.reason, was, became);
    if (was)
        past.was = parse_json(*was).as_object();
    if (became)
        past.became = parse_json(*became).as_object();
    return kept;
}

contract::LotHistory::Result history(const View& view, const Call&,
                                     const contract::LotHistory::Params& params) {
    const std::int64_t lot = require_lot(view, params.code, "/code").number();
    const auto [before] = place_after<contract::LotHistory, 1>(params);
    auto kept = view.all("SELECT number, at, who, change, reason, was, became FROM lot_change "
                         "WHERE lot = ?1 AND (?2 IS NULL OR number < ?2) "
                         "ORDER BY number DESC LIMIT ?3",
                         read_past, lot, before, params.limit + 1);
    contract::LotHistory::Result result;
    result.next = cut_page<contract::LotHistory>(
        params, kept, [](const Kept& last) { return Place<1>{std::to_string(last.number)}; });
    for (auto& one : kept)
        result.changes.push_back(std::move(one.past));
    return result;
}

} // namespace

void add_lots(Methods& methods) {
    methods.reads<contract::LotShow>(&show);
    methods.reads<contract::LotHistory>(&history);
    methods.writes<contract::LotChange>(&change);
    methods.writes<contract::LotHold>(&hold);
    methods.writes<contract::LotRelease>(&release);
}

} // namespace barmkeep::ledger
