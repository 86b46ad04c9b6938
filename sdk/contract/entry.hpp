// The journal: what happened, in order, for ever.
#pragma once

#include "sdk/contract/stock.hpp"

namespace barmkeep::contract {

enum class EntryKind { bought, used, discarded, converted, recounted, split, undone };
constexpr auto enum_names(EntryKind) {
    using W = EnumName<EntryKind>;
    return std::array{W{EntryKind::bought, "bought"},       W{EntryKind::used, "used"},
                      W{EntryKind::discarded, "discarded"}, W{EntryKind::converted, "converted"},
                      W{EntryKind::recounted, "recounted"}, W{EntryKind::split, "split"},
                      W{EntryKind::undone, "undone"}};
}

struct Entry {
    std::int64_t number = 0;
    Instant at;
    Date day;
    std::string who;
    EntryKind kind = EntryKind::used;
    std::optional<std::string> note;
    std::optional<std::int64_t> brew;
    std::optional<std::int64_t> undoes;
    std::optional<std::int64_t> undone_by;
    std::optional<std::int64_t> lost;
    std::optional<Money> lost_value;
    std::vector<Line> lines;
    Links about;
    static FieldList fields(auto) {
        return {field<&Entry::number>("Its number."),
                field<&Entry::at>("When it was posted."),
                field<&Entry::day>("The local day on which it happened."),
                field<&Entry::who>("Who posted it."),
                field<&Entry::kind>("What happened."),
                field<&Entry::note>("The note."),
                field<&Entry::brew>("The brew day it was for."),
                field<&Entry::undoes>("The entry that it undoes."),
                field<&Entry::undone_by>("The entry that undid it."),
                field<&Entry::lost>(
                    "Pieces that a conversion made and lost. Left out if there were none."),
                field<&Entry::lost_value>(
                    "The part of the value that the lost pieces would have carried."),
                field<&Entry::lines>("What it changed, lot by lot."),
                field<&Entry::about>("What it is about.").defaulted()};
    }
};

struct EntryList {
    static constexpr About about{"entry.list", Access::look, Effect::reads,
                                 "Lists journal entries, newest first."};
    struct Params : Page {
        std::optional<LotCode> lot;
        std::optional<std::int64_t> brew;
        std::optional<Link> about;
        static FieldList fields(auto) {
            return joined(
                FieldList{
                    field<&Params::lot>("Lists only entries that change this lot.").positional(),
                    field<&Params::brew>("Lists only entries for this brew day."),
                    field<&Params::about>(
                        "Lists only entries about this entry, lot, brew day or record.")},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Entry> entries;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::entries>("The entries.")}, NextPage::fields(0));
        }
    };
};

struct EntryShow {
    static constexpr About about{"entry.show", Access::look, Effect::reads,
                                 "Shows one journal entry."};
    struct Params {
        std::int64_t entry = 0;
        static FieldList fields(auto) {
            return {field<&Params::entry>("Its number.").positional().at_least(1)};
        }
    };
    using Result = Entry;
};

/// What undoing an entry does, or did.
struct Undoing {
    Entry undoes;
    std::vector<Line> lines;
    std::vector<std::string> refused;
    static FieldList fields(auto) {
        return {
            field<&Undoing::undoes>("The entry to undo."),
            field<&Undoing::lines>("What the counter-entry changes."),
            field<&Undoing::refused>("Why it cannot be undone, a sentence each. Empty if it can.")
                .defaulted()};
    }
};

struct EntryPreview {
    static constexpr About about{"entry.preview", Access::look, Effect::reads,
                                 "Shows what undoing an entry would change, or why it cannot be "
                                 "undone. It changes nothing."};
    struct Params {
        std::optional<std::int64_t> entry;
        static FieldList fields(auto) {
            return {field<&Params::entry>("Number of the entry. Your newest if left out.")
                        .positional()
                        .at_least(1)};
        }
    };
    using Result = Undoing;
};

struct EntryUndo {
    static constexpr About about{
        "entry.undo", Access::keep, Effect::writes,
        "Undoes an entry by posting its counter-entry, and shows what it undid. It is refused if a "
        "lot would fall below zero. It is refused for an entry of a canning run or starter too: "
        "undo that where it was made."};
    struct Params {
        std::int64_t entry = 0;
        EntryKind kind = EntryKind::used;
        std::string reason;
        static FieldList fields(auto) {
            return {field<&Params::entry>("Number of the entry to undo.").positional().at_least(1),
                    field<&Params::kind>("The kind of that entry (bought, used ...), as a check "
                                         "that the number is right.")
                        .positional(),
                    field<&Params::reason>("What was wrong.").length(1, 400)};
        }
    };
    struct Result {
        std::int64_t entry = 0;
        Undoing done;
        static FieldList fields(auto) {
            return {field<&Result::entry>("Number of the counter-entry."),
                    field<&Result::done>("What it undid.")};
        }
    };
};

} // namespace barmkeep::contract
