#include "daemon/ledger/sheets/parts.hpp"
#include "daemon/ledger/sheets/sheets.hpp"

namespace barmkeep::ledger::sheets {

using contract::Entry;
using contract::EntryKind;
using sheet::SheetBuilder;
using sheet::Text;
using sheet::text;

namespace {

constexpr std::size_t lots_named = 3;

/// "2 jars of J10N": the lines in a few words, without their signs.
Text moved(const Entry& entry) {
    std::vector<Text> parts;
    for (const contract::Line& line : entry.lines) {
        if (parts.size() == lots_named) {
            parts.push_back(text(sheet::count(
                static_cast<std::int64_t>(entry.lines.size() - lots_named), "more lot")));
            break;
        }
        const Amount amount{std::abs(line.quantity.steps), line.quantity.measure};
        parts.push_back(text(amount_of(line.lot, amount), " of ", line.lot));
    }
    return listed(parts);
}

bool can_be_undone(const Entry& entry) {
    return !entry.undone_by && entry.kind != EntryKind::undone;
}

std::string_view state_words(const Entry& entry) {
    return entry.undone_by ? " (undone)" : "";
}

void add_facts(SheetBuilder& made, const Entry& entry) {
    made.facts({{"entered", text(entry.at, " by ", entry.who)},
                {"for", entry.brew ? text(numbered("brew day", *entry.brew)) : Text{}},
                {"undoes", entry.undoes ? text(numbered("entry", *entry.undoes)) : Text{}},
                {"undone by", entry.undone_by ? text(numbered("entry", *entry.undone_by)) : Text{}},
                {"lost", entry.lost ? text(sheet::count(*entry.lost, "piece")) : Text{}},
                {"value lost", entry.lost_value ? text(*entry.lost_value) : Text{}},
                {"note", text(entry.note.value_or(""))}});
}

/// "used 2 jars of J10N on 3 Oct".
Text in_words(const Entry& entry) {
    return text(to_string(entry.kind), " ", moved(entry), " on ", entry.day);
}

} // namespace

sheet::Sheet entry_list(const contract::EntryList::Params& params,
                        const contract::EntryList::Result& result) {
    SheetBuilder made("Journal");
    if (params.lot)
        made = SheetBuilder("Journal of lot ", *params.lot);
    else if (params.brew)
        made = SheetBuilder("Journal of ", numbered("brew day", *params.brew));
    if (result.entries.empty())
        made.lead("There are no entries.");
    else
        made.lead(
            sheet::count(static_cast<std::int64_t>(result.entries.size()), "entry", "entries"),
            ", newest first; the last: ", in_words(result.entries.front()), ".");
    sheet::Table table;
    table.columns = {sheet::column("entry", sheet::Align::right), sheet::column("day"),
                     sheet::column("what"), sheet::column("note", sheet::Align::left, 3),
                     sheet::column("who", sheet::Align::left, 4)};
    for (const Entry& entry : result.entries)
        table.rows.push_back(
            sheet::row(std::to_string(entry.number), entry.day,
                       text(to_string(entry.kind), " ", moved(entry), state_words(entry)),
                       entry.note.value_or(""), entry.who));
    made.table(std::move(table));
    offer_next(made, "entry.list", params, result.next);
    if (!result.entries.empty())
        made.action(asking("show one", "entry.show", {}, {"entry"}, "s"));
    return made.topic("entry.");
}

sheet::Sheet entry_show(const contract::EntryShow::Params&, const Entry& entry) {
    SheetBuilder made(text(numbered("Entry", entry.number)));
    made.lead("On ", entry.day, ": ", to_string(entry.kind), " ", moved(entry), state_words(entry),
              ".");
    made.table(changes_table(entry.lines));
    add_facts(made, entry);
    if (can_be_undone(entry))
        made.action(sheet::offer("see what undoing changes", "entry.preview",
                                 {{"entry", entry.number}}, "p"));
    return made.topic("entry.");
}

sheet::Sheet entry_preview(const contract::EntryPreview::Params&,
                           const contract::Undoing& undoing_of) {
    const Entry& entry = undoing_of.undoes;
    SheetBuilder made("Undo ", numbered("entry", entry.number));
    if (!undoing_of.refused.empty()) {
        made.lead("It cannot be undone: ", in_words(entry), ".");
        for (const std::string& why : undoing_of.refused)
            made.warning("cannot_undo", why);
    } else {
        made.lead("It can be undone: ", in_words(entry), ". Nothing is changed yet.");
    }
    sheet::Table table = changes_table(undoing_of.lines);
    table.title = text("What undoing would change");
    made.table(std::move(table));
    add_facts(made, entry);
    if (undoing_of.refused.empty())
        made.usual_action(undoing(entry.number, to_string(entry.kind)));
    return made.topic("entry.").topic("lot.");
}

sheet::Sheet entry_undo(const contract::EntryUndo::Params& params,
                        const contract::EntryUndo::Result& result) {
    const Entry& entry = result.done.undoes;
    SheetBuilder made("Undone: ", numbered("entry", entry.number));
    made.lead("No longer ", in_words(entry), ": ", params.reason, ".");
    made.table(changes_table(result.done.lines));
    made.note("The counter-entry is ", numbered("entry", result.entry),
              ". Both stay in the journal.");
    made.action(sheet::offer("show it", "entry.show", {{"entry", result.entry}}, "s"));
    return made.topic("entry.").topic("lot.");
}

} // namespace barmkeep::ledger::sheets
