// The journal: what happened, in order, for ever.
#pragma once

#include "sdk/contract/stock.hpp"

namespace barmkeep::contract {

enum class EntryKind { bought, used, discarded, converted, recounted, corrected };
constexpr auto enum_names(EntryKind) {
    using W = EnumName<EntryKind>;
    return std::array{W{EntryKind::bought, "bought"},       W{EntryKind::used, "used"},
                      W{EntryKind::discarded, "discarded"}, W{EntryKind::converted, "converted"},
                      W{EntryKind::recounted, "recounted"}, W{EntryKind::corrected, "corrected"}};
}

struct Entry {
    std::int64_t sequence = 0;
    Instant at;
    Date day;
    std::string who;
    EntryKind kind = EntryKind::used;
    std::optional<std::string> memo;
    std::optional<std::int64_t> brew;
    std::optional<std::int64_t> corrects;
    std::optional<std::int64_t> corrected_by;
    std::optional<std::int64_t> lost;
    std::optional<Money> lost_value;
    std::vector<Line> lines;
    static FieldList fields(auto) {
        return {
            field<&Entry::sequence>("Its number."),
            field<&Entry::at>("When it was posted."),
            field<&Entry::day>("The local day it is about."),
            field<&Entry::who>("Who posted it."),
            field<&Entry::kind>("What happened."),
            field<&Entry::memo>("The note given."),
            field<&Entry::brew>("The brew day it was for."),
            field<&Entry::corrects>("The entry it undoes."),
            field<&Entry::corrected_by>("The entry that undid it."),
            field<&Entry::lost>("Pieces that a conversion made and lost; left out where none were, "
                                "and of entries older than version 3 of the ledger's tables."),
            field<&Entry::lost_value>("The part of the value that the lost pieces "
                                      "would have carried."),
            field<&Entry::lines>("What it changed.")};
    }
};

struct EntryList {
    static constexpr About about{"entry.list", Access::look, Effect::reads,
                                 "Lists journal entries, newest first."};
    struct Params : Page {
        std::optional<LotCode> lot;
        std::optional<std::int64_t> brew;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::lot>("Only entries that touch this lot.").positional(),
                           field<&Params::brew>("Only entries for this brew day.")},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Entry> entries;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::entries>("The entries.")},
                                  NextPage::fields(0));
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

struct EntryCorrect {
    static constexpr About about{"entry.correct", Access::keep, Effect::writes,
                                 "Undoes an entry by posting its counter-entry.  Refused if that "
                                 "would leave a lot below zero."};
    struct Params {
        std::int64_t sequence = 0;
        std::string reason;
        static FieldList fields(auto) {
            return {
                field<&Params::sequence>("Number of the entry to undo.").positional().at_least(1),
                field<&Params::reason>("What was wrong.").length(1, 400)};
        }
    };
    using Result = Posted;
};

} // namespace barmkeep::contract
