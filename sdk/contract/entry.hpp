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
    std::int64_t sequence = 0;
    Instant at;
    Date day;
    std::string who;
    EntryKind kind = EntryKind::used;
    std::optional<std::string> memo;
    std::optional<std::int64_t> brew;
    std::optional<std::int64_t> undoes;
    std::optional<std::int64_t> undone_by;
    std::optional<std::int64_t> lost;
    std::optional<Money> lost_value;
    std::vector<Line> lines;
    Links about;
    static FieldList fields(auto) {
        return {field<&Entry::sequence>("Its number."),
                field<&Entry::at>("When it was posted."),
                field<&Entry::day>("The local day it is about."),
                field<&Entry::who>("Who posted it."),
                field<&Entry::kind>("What happened."),
                field<&Entry::memo>("The note given."),
                field<&Entry::brew>("The brew day it was for."),
                field<&Entry::undoes>("The entry it undoes."),
                field<&Entry::undone_by>("The entry that undid it."),
                field<&Entry::lost>(
                    "Pieces that a conversion made and lost; left out where none were."),
                field<&Entry::lost_value>("The part of the value that the lost pieces "
                                          "would have carried."),
                field<&Entry::lines>("What it changed."),
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
                FieldList{field<&Params::lot>("Only entries that touch this lot.").positional(),
                          field<&Params::brew>("Only entries for this brew day."),
                          field<&Params::about>("Only entries about this.")},
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
    static constexpr About about{"entry.show", Access::look, Effect::reads, "Shows one entry."};
    struct Params {
        std::int64_t sequence = 0;
        static FieldList fields(auto) {
            return {field<&Params::sequence>("Its number.").positional().at_least(1)};
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
        return {field<&Undoing::undoes>("The entry that is undone."),
                field<&Undoing::lines>("What the counter-entry changes."),
                field<&Undoing::refused>("Why it cannot be undone, one sentence each; empty if it "
                                         "can.")
                    .defaulted()};
    }
};

struct EntryPreview {
    static constexpr About about{
        "entry.preview", Access::look, Effect::reads,
        "Shows what undoing an entry would do, or why it cannot be undone; changes nothing."};
    struct Params {
        std::optional<std::int64_t> sequence;
        static FieldList fields(auto) {
            return {
                field<&Params::sequence>("Number of the entry; the caller's newest if left out.")
                    .positional()
                    .at_least(1)};
        }
    };
    using Result = Undoing;
};

struct EntryUndo {
    static constexpr About about{
        "entry.undo", Access::keep, Effect::writes,
        "Undoes an entry by posting its counter-entry, and shows what it undid.  Refused if that "
        "would leave a lot below zero, or if the entry belongs to a plugin's record, which has a "
        "way back of its own."};
    struct Params {
        std::int64_t sequence = 0;
        EntryKind kind = EntryKind::used;
        std::string reason;
        static FieldList fields(auto) {
            return {
                field<&Params::sequence>("Number of the entry to undo.").positional().at_least(1),
                field<&Params::kind>("What that entry is (bought, used ...): a check that the "
                                     "number is the right one.")
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
