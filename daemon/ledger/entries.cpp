#include "daemon/ledger/correction.hpp"
#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/posting.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Entry;

constexpr std::string_view select_entries =
    "SELECT sequence, at, day, who, kind, memo, brew, corrects, "
    "(SELECT later.sequence FROM entry AS later WHERE later.corrects = entry.sequence), "
    "loss.pieces, loss.value FROM entry LEFT JOIN loss ON loss.entry = entry.sequence ";

Entry read_entry(const Row& row) {
    Entry entry;
    take_row(row, entry.sequence, entry.at, entry.day, entry.who, entry.kind, entry.memo,
             entry.brew, entry.corrects, entry.corrected_by, entry.lost, entry.lost_value);
    return entry;
}

contract::EntryList::Result list(const View& view, const Call&,
                                 const contract::EntryList::Params& params) {
    std::optional<std::int64_t> lot;
    if (params.lot)
        lot = require_lot(view, *params.lot, "/lot").number();
    const auto [before] = place_after<contract::EntryList, 1>(params);
    contract::EntryList::Result result;
    result.entries =
        view.all(std::string(select_entries) +
                     "WHERE (?1 IS NULL OR sequence IN (SELECT entry FROM line WHERE lot = ?1)) "
                     "AND (?2 IS NULL OR brew = ?2) AND (?3 IS NULL OR sequence < ?3) "
                     "ORDER BY sequence DESC LIMIT ?4",
                 read_entry, lot, params.brew, before, params.limit + 1);
    result.next =
        cut_page<contract::EntryList>(params, result.entries, [](const contract::Entry& last) {
            return Place<1>{std::to_string(last.sequence)};
        });
    for (auto& entry : result.entries)
        entry.lines = lines_of(view, entry.sequence);
    return result;
}

contract::Entry show(const View& view, const Call&, const contract::EntryShow::Params& params) {
    return require_entry(view, params.sequence, "/sequence");
}

} // namespace

Entry require_entry(const View& view, std::int64_t sequence, std::string_view pointer) {
    auto entry =
        view.first(std::string(select_entries) + "WHERE sequence = ?", read_entry, sequence);
    if (!entry)
        throw Error(ErrorKind::not_found, "entry_unknown",
                    "There is no entry " + std::to_string(sequence) + ".",
                    "entry.list shows the journal.", pointer);
    entry->lines = lines_of(view, sequence);
    return std::move(*entry);
}

void add_entries(Methods& methods) {
    methods.reads<contract::EntryList>(&list);
    methods.reads<contract::EntryShow>(&show);
    methods.writes<contract::EntryCorrect>(&correct);
}

} // namespace barmkeep::ledger
