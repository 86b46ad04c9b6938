#include "daemon/ledger/clearing.hpp"
#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/needs.hpp"
#include "daemon/ledger/posting.hpp"
#include "daemon/ledger/reservations.hpp"
#include "daemon/ledger/row_checksum.hpp"
#include "daemon/ledger/taking.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Hold;
using contract::HoldEnd;
using contract::HoldKind;
using contract::LotDeed;

/// The facts of a lot that can be changed.
json::object changeable_facts(const LotRow& known) {
    const json::object lot = to_json(known.lot).as_object();
    json::object facts;
    for (const char* member : {"supplier", "packed", "canned", "best_by", "kept", "holds"})
        if (const auto* value = lot.if_contains(member))
            facts[member] = *value;
    facts["facts"] = known.own_facts;
    return facts;
}

/// Records the members in which two objects differ; of members that are objects, those within.
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

/// Records what changed and why, sends an event, and answers the lot as it is now.
contract::Lot note_change(Transaction& transaction, const Call& call, const LotRow& before,
                          LotDeed change, const std::string& reason) {
    const LotRow after = lot_numbered(transaction, before.number());
    json::object was;
    json::object became;
    note_difference(changeable_facts(before), changeable_facts(after), was, became);
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
    return require_lot(view, params.lot, "/lot").lot;
}

/// A lot that never becomes stock keeps its place and its best-by day: no change makes it last.
void refuse_new_days(const contract::Lot& lot) {
    for (const Hold& hold : lot.holds)
        if (end_of(hold.kind) == HoldEnd::never)
            throw Error(ErrorKind::conflict, "days_fixed",
                        "Lot " + to_text(lot.code) + " is held (" +
                            std::string(meaning_of(hold.kind)) +
                            "). Its place and its best-by day cannot be changed.",
                        "When its days are over, throw it out. Enter that with: barm stock "
                        "discard " +
                            to_text(lot.code),
                        "/lot");
}

contract::Lot change(Transaction& transaction, const Call& call,
                     const contract::LotChange::Params& params) {
    const LotRow known = require_lot(transaction, params.lot, "/lot");
    const contract::Lot& lot = known.lot;
    check_clear(params.clear, {"supplier", "packed", "canned", "best_by"}, true);
    check_past(transaction, params.packed, "/packed", "packed");
    check_past(transaction, params.canned, "/canned", "canned");
    const bool is_stock_changed =
        params.kept || params.best_by || is_cleared(params.clear, "best_by");
    if (is_stock_changed)
        refuse_new_days(lot);
    const auto newer = [&](std::string_view field, const auto& given, const auto& held) {
        refuse_both(given.has_value(), field, params.clear);
        return given || is_cleared(params.clear, field) ? given : held;
    };
    const LotDates dates{lot.bought, newer("packed", params.packed, lot.packed),
                         newer("canned", params.canned, lot.canned),
                         newer("best_by", params.best_by, lot.best_by)};
    check_dates(dates, params.best_by ? "/best_by" : params.canned ? "/canned" : "/packed");
    update_with_checksum(transaction, ChecksummedTable::lot, known.number(),
                         "UPDATE lot SET supplier = ?, packed = ?, canned = ?, best_by = ?, "
                         "kept = ?, facts = ? WHERE number = ?",
                         newer("supplier", params.supplier, lot.supplier), dates.packed,
                         dates.canned, dates.best_by, params.kept.value_or(lot.kept),
                         write_json(changed_facts(known.own_facts, params.facts, params.clear)));
    if (is_stock_changed)
        settle_needs(transaction, known.good_number);
    return note_change(transaction, call, known, LotDeed::changed, params.reason);
}

contract::Lot hold(Transaction& transaction, const Call& call,
                   const contract::LotHold::Params& params) {
    LotRow known = require_lot(transaction, params.lot, "/lot");
    if (params.kind == HoldKind::unknown)
        throw Error(ErrorKind::params, "not_given", "A hold of kind 'unknown' cannot be set.",
                    "Name another kind, such as quarantine.", "/kind");
    check_own_links(transaction, call, params.about, "/about");
    if (params.amount) {
        const Amount part = positive(*params.amount, known.measure, "/amount");
        if (part.steps > known.steps_on_hand())
            throw not_enough(transaction, "lot " + to_text(params.lot), {known}, part, "/amount");
        if (part.steps < known.steps_on_hand())
            known = split_lot(transaction, call, known, part.steps, params.note);
    }
    set_hold(transaction, call, known.number(), {params.kind, params.note}, params.about);
    // What is held is promised to nobody: the brew days get other stock, or show that they are
    // short.
    give_back_lot(transaction, known.number());
    settle_needs(transaction, known.good_number);
    return note_change(transaction, call, known, LotDeed::held, params.note);
}

/// The holds in force that a release applies to.
std::vector<Hold> holds_meant(const LotRow& known, const contract::LotRelease::Params& params) {
    std::vector<Hold> meant;
    for (const Hold& one : known.lot.holds)
        if (params.kind ? one.kind == *params.kind : end_of(one.kind) == HoldEnd::by_brewer)
            meant.push_back(one);
    if (known.lot.holds.empty() || (params.kind && meant.empty()))
        throw Error(ErrorKind::conflict, "not_on_hold",
                    "Lot " + to_text(params.lot) + " has no such hold in force.",
                    "List its holds with: barm lot show " + to_text(params.lot),
                    params.kind ? "/kind" : "/lot");
    for (const Hold& one : params.kind ? meant : known.lot.holds)
        if (end_of(one.kind) != HoldEnd::by_brewer && (params.kind || meant.empty()))
            throw Error(ErrorKind::conflict, "never_released",
                        "Lot " + to_text(params.lot) + " cannot be released: " +
                            std::string(meaning_of(one.kind)) + " (" + one.note + ").",
                        way_out(params.lot, {one}), "/lot");
    return meant;
}

contract::Lot release(Transaction& transaction, const Call& call,
                      const contract::LotRelease::Params& params) {
    const LotRow known = require_lot(transaction, params.lot, "/lot");
    for (const Hold& one : holds_meant(known, params))
        end_hold(transaction, call, one.number, params.reason);
    settle_needs(transaction, known.good_number);
    return note_change(transaction, call, known, LotDeed::released, params.reason);
}

contract::Lot vouch(Transaction& transaction, const Call& call,
                    const contract::LotVouch::Params& params) {
    const LotRow known = require_lot(transaction, params.lot, "/lot");
    if (params.confirm != to_text(params.lot))
        throw Error(ErrorKind::params, "not_confirmed",
                    "The confirmation '" + params.confirm + "' is not the code of lot " +
                        to_text(params.lot) + ".",
                    "Give the code again with --confirm " + to_text(params.lot), "/confirm");
    check_past(transaction, params.canned, "/canned", "canned");
    std::int64_t ended = 0;
    for (const Hold& one : known.lot.holds)
        if (end_of(one.kind) == HoldEnd::by_process) {
            end_hold(transaction, call, one.number, params.process);
            ++ended;
        }
    if (ended == 0)
        throw Error(ErrorKind::conflict, "not_on_hold",
                    "Lot " + to_text(params.lot) + " is not on hold for an unknown process.",
                    "List its holds with: barm lot show " + to_text(params.lot), "/lot");
    update_with_checksum(transaction, ChecksummedTable::lot, known.number(),
                         "UPDATE lot SET canned = ? WHERE number = ?", params.canned);
    settle_needs(transaction, known.good_number);
    return note_change(transaction, call, known, LotDeed::released, params.process);
}

struct Kept {
    std::int64_t number = 0;
    contract::LotPast past;
};

Kept read_past(const Row& row) {
    Kept kept;
    std::string was;
    std::string became;
    contract::LotPast& past = kept.past;
    take_row(row, kept.number, past.at, past.who, past.change, past.reason, was, became);
    past.was = parse_json(was).as_object();
    past.became = parse_json(became).as_object();
    return kept;
}

contract::LotHistory::Result history(const View& view, const Call&,
                                     const contract::LotHistory::Params& params) {
    const std::int64_t lot = require_lot(view, params.lot, "/lot").number();
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
    methods.writes<contract::LotVouch>(&vouch);
}

} // namespace barmkeep::ledger
