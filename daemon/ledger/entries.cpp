#include "daemon/ledger/entries.hpp"

#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/posting.hpp"
#include "daemon/ledger/undo.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Entry;

constexpr std::string_view select_entries =
    "SELECT sequence, at, day, who, kind, note, brew, undoes, "
    "(SELECT later.sequence FROM entry AS later WHERE later.undoes = entry.sequence), "
    "loss.pieces, loss.value FROM entry LEFT JOIN loss ON loss.entry = entry.sequence ";

Entry read_entry(const Row& row) {
    Entry entry;
    take_row(row, entry.number, entry.at, entry.day, entry.who, entry.kind, entry.note, entry.brew,
             entry.undoes, entry.undone_by, entry.lost, entry.lost_value);
    return entry;
}

/// Adds what stands in other tables.
void complete(const View& view, std::vector<Entry>& entries) {
    std::vector<std::int64_t> numbers;
    for (const Entry& entry : entries)
        numbers.push_back(entry.number);
    auto lines = lines_of(view, numbers);
    auto links = links_of(view, LinkSource::entry, numbers);
    for (Entry& entry : entries) {
        entry.lines = std::move(lines[entry.number]);
        entry.about = std::move(links[entry.number]);
    }
}

contract::EntryList::Result list(const View& view, const Call&,
                                 const contract::EntryList::Params& params) {
    std::optional<std::int64_t> lot;
    if (params.lot)
        lot = require_lot(view, *params.lot, "/lot").number();
    if (params.about)
        check_link(view, *params.about, "/about");
    const auto [before] = place_after<contract::EntryList, 1>(params);
    contract::EntryList::Result result;
    const std::int64_t most = params.limit + 1;
    if (lot)
        result.entries = view.all(statement_of_entries(EntriesBy::lot), read_entry, before, most,
                                  *lot, params.brew);
    else if (params.about)
        result.entries = view.all(statement_of_entries(EntriesBy::link), read_entry, before, most,
                                  params.about->to, params.about->number, params.brew);
    else if (params.brew)
        result.entries =
            view.all(statement_of_entries(EntriesBy::brew), read_entry, before, most, *params.brew);
    else
        result.entries =
            view.all(statement_of_entries(EntriesBy::number), read_entry, before, most);
    result.next =
        cut_page<contract::EntryList>(params, result.entries, [](const contract::Entry& last) {
            return Place<1>{std::to_string(last.number)};
        });
    complete(view, result.entries);
    return result;
}

contract::Entry show(const View& view, const Call&, const contract::EntryShow::Params& params) {
    return require_entry(view, params.entry, "/entry");
}

} // namespace

std::string statement_of_entries(EntriesBy by) {
    const auto where = [by]() -> std::string_view {
        switch (by) {
        case EntriesBy::lot:
            return "sequence IN (SELECT entry FROM line WHERE lot = ?3) "
                   "AND (?4 IS NULL OR brew = ?4) AND ";
        case EntriesBy::link:
            return "sequence IN (SELECT source_number FROM link WHERE target = ?3 AND "
                   "target_number = ?4 AND source = 'entry') AND (?5 IS NULL OR brew = ?5) AND ";
        case EntriesBy::brew:
            return "brew = ?3 AND ";
        case EntriesBy::number:
            break;
        }
        return "";
    };
    return std::string(select_entries)
        .append("WHERE ")
        .append(where())
        .append("sequence < CAST(coalesce(?1, 9223372036854775807) AS INTEGER) "
                "ORDER BY sequence DESC LIMIT ?2");
}

Entry require_entry(const View& view, std::int64_t sequence, std::string_view pointer) {
    auto entry =
        view.first(std::string(select_entries) + "WHERE sequence = ?", read_entry, sequence);
    if (!entry)
        throw Error(ErrorKind::not_found, "entry_unknown",
                    "There is no entry " + std::to_string(sequence) + ".",
                    "List the entries with: barm entry list", pointer);
    entry->lines = lines_of(view, sequence);
    entry->about = links_of(view, LinkSource::entry, sequence);
    return std::move(*entry);
}

void add_entries(Methods& methods) {
    methods.reads<contract::EntryList>(&list);
    methods.reads<contract::EntryShow>(&show);
    methods.reads<contract::EntryPreview>(&preview_undo);
    methods.writes<contract::EntryUndo>(&undo);
}

} // namespace barmkeep::ledger
