#include "daemon/ledger/undo.hpp"

#include "daemon/ledger/posting.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::Entry;
using contract::EntryKind;

/// The record of a plugin that an entry belongs to, unless that plugin itself asks.
const contract::Link* record_of_another(const Entry& entry, const Call& call) {
    for (const contract::Link& link : entry.about) {
        const auto dot = link.to.find('.');
        if (dot != std::string::npos && link.to.substr(0, dot) != call.caller.plugin)
            return &link;
    }
    return nullptr;
}

/// Why an entry cannot be undone at all; nothing if it can.
std::optional<Error> refusal(const Entry& entry, const Call& call) {
    if (entry.undone_by)
        return Error{
            ErrorKind::conflict, "already_undone",
            fmt::format("Entry {} was undone by entry {}.", entry.number, *entry.undone_by),
            fmt::format("Nothing is left to undo. See both with: barm entry show {}", entry.number),
            "/entry"};
    if (entry.undoes)
        return Error{
            ErrorKind::conflict, "is_undoing",
            fmt::format("Entry {} undoes entry {} and cannot be undone itself.", entry.number,
                        *entry.undoes),
            "Enter again what happened, with the command that made the entry that was undone.",
            "/entry"};
    if (entry.kind == EntryKind::split)
        return Error{
            ErrorKind::conflict, "is_split",
            fmt::format("Entry {} split a lot to put a part of it on hold. It cannot be undone.",
                        entry.number),
            fmt::format("If the hold of lot {0} can be released, do that with: barm lot "
                        "release {0}",
                        to_text(entry.lines.back().lot)),
            "/entry"};
    if (const auto* record = record_of_another(entry, call))
        return Error{
            ErrorKind::conflict, "belongs_to_record",
            fmt::format("Entry {} belongs to {} {}.", entry.number, record->to, record->number),
            fmt::format("Undo it with the commands of the plugin that made it, so that {} {} is "
                        "updated, too.",
                        record->to, record->number),
            "/entry"};
    return std::nullopt;
}

std::vector<contract::Line> negated(const Entry& entry) {
    std::vector<contract::Line> lines = entry.lines;
    // From the last line to the first: an entry that took one lot in two lines gives back the way
    // it came.
    std::reverse(lines.begin(), lines.end());
    for (contract::Line& line : lines) {
        line.quantity.steps = -line.quantity.steps;
        line.value = -line.value;
    }
    return lines;
}

/// A sentence for each lot whose amount or value would become negative.
std::vector<std::string> too_short(const View& view, const std::vector<contract::Line>& lines) {
    std::map<std::int64_t, std::pair<std::int64_t, Money>> left;
    std::vector<std::string> sentences;
    for (const contract::Line& line : lines) {
        const auto known = lot_numbered(view, line.lot.number());
        auto& [steps, value] =
            left.try_emplace(known.number(), known.steps_on_hand(), known.lot.value).first->second;
        steps += line.quantity.steps;
        value = value + line.value;
        if (steps < 0 || value < Money{} || (steps == 0 && value != Money{}))
            sentences.push_back(fmt::format("Lot {} has only {} left.", to_text(line.lot),
                                            to_text(known.lot.on_hand)));
    }
    return sentences;
}

std::int64_t newest_of(const View& view, const Call& call) {
    const auto newest =
        view.first("SELECT max(sequence) FROM entry WHERE who = ? AND undoes IS NULL AND "
                   "sequence NOT IN (SELECT undoes FROM entry WHERE undoes IS NOT NULL)",
                   take_one<std::optional<std::int64_t>>, call.caller.name);
    if (!newest || !*newest)
        throw Error(ErrorKind::not_found, "entry_unknown",
                    fmt::format("{} has no entry that could be undone.", call.caller.name),
                    "Name an entry, as listed by: barm entry list", "/entry");
    return **newest;
}

} // namespace

contract::Undoing preview_undo(const View& view, const Call& call,
                               const contract::EntryPreview::Params& params) {
    contract::Undoing undoing;
    undoing.undoes =
        require_entry(view, params.entry ? *params.entry : newest_of(view, call), "/entry");
    undoing.lines = negated(undoing.undoes);
    if (const auto why = refusal(undoing.undoes, call))
        undoing.refused.emplace_back(why->what());
    else
        undoing.refused = too_short(view, undoing.lines);
    return undoing;
}

contract::EntryUndo::Result undo(Transaction& transaction, const Call& call,
                                 const contract::EntryUndo::Params& params) {
    contract::Undoing undoing;
    undoing.undoes = require_entry(transaction, params.entry, "/entry");
    const Entry& entry = undoing.undoes;
    if (entry.kind != params.kind)
        throw Error(ErrorKind::conflict, "other_kind",
                    fmt::format("Entry {} is not of kind '{}' but of kind '{}' ({}).", entry.number,
                                to_string(params.kind), to_string(entry.kind), to_text(entry.day)),
                    fmt::format("See what it did with: barm entry preview {}", entry.number),
                    "/kind");
    if (auto why = refusal(entry, call))
        throw Error(std::move(*why));
    undoing.lines = negated(entry);
    Posting posting{transaction,
                    call,
                    {EntryKind::undone, transaction.today(), params.reason, entry.brew,
                     entry.number, entry.about}};
    for (const contract::Line& line : undoing.lines)
        posting.change(line.lot.number(), line.quantity.steps, line.value);
    (void)posting.finish();
    return {posting.sequence(), std::move(undoing)};
}

} // namespace barmkeep::ledger
