// Records: documents that a plugin keeps in the cellar under its own name.
//
// A record has a number, given by the core, counted up and never used twice; it may have a name and
// a state, by which it is listed.  What happens to it is appended to its log, a line at a time, so
// that the last line costs what the first did.
//
//     const auto run = call.once<contract::RecordAdd>([&] { return ...{"run", document, "open"};
//     }); record.append {"collection": "run", "number": 3, "lines": [{...}]}
#pragma once

#include "sdk/contract/link.hpp"
#include "sdk/contract/listing.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

struct Record {
    std::string owner;
    std::string collection;
    std::int64_t number = 0;
    std::optional<std::string> name;
    std::optional<std::string> state;
    std::int64_t version = 0;
    Instant changed;
    json::object document;
    std::vector<json::object> lines;
    Links about;
    static FieldList fields(auto) {
        return {field<&Record::owner>("The plugin it belongs to; empty for one a person keeps."),
                field<&Record::collection>("The collection."),
                field<&Record::number>("Its number in the collection."),
                field<&Record::name>("Its name in the collection, if it has one."),
                field<&Record::state>("The owner's word for where it stands."),
                field<&Record::version>("Counts its changes, from 1; lines of the log count too."),
                field<&Record::changed>("When it was last changed."),
                field<&Record::document>("What it holds."),
                field<&Record::lines>("Its log, oldest first; only where a single record is shown.")
                    .defaulted(),
                field<&Record::about>("What it is about.").defaulted()};
    }
};

/// What a change of a record answers: of the same size however long its log is.
struct RecordChanged {
    std::int64_t number = 0;
    std::int64_t version = 0;
    std::int64_t lines = 0;
    Instant changed;
    static FieldList fields(auto) {
        return {field<&RecordChanged::number>("Its number in the collection."),
                field<&RecordChanged::version>("Its version now."),
                field<&RecordChanged::lines>("Lines in its log."),
                field<&RecordChanged::changed>("When it was changed.")};
    }
};

struct RecordAdd {
    static constexpr About about{"record.add", Access::keep, Effect::writes,
                                 "Adds a record; the core gives it the next number."};
    struct Params {
        std::string collection;
        json::object document;
        std::optional<std::string> state;
        std::vector<json::object> lines;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::document>("What it holds; at most 256 KiB of text."),
                    field<&Params::state>("Your word for where it stands.").length(1, 40),
                    field<&Params::lines>("First lines of its log.").defaulted().length(0, 100),
                    links_field<&Params::about>()};
        }
    };
    using Result = RecordChanged;
};

struct RecordPut {
    static constexpr About about{
        "record.put", Access::keep, Effect::writes,
        "Keeps a document, in place of the one of that number or name.  A name that is not there "
        "yet makes a new record.  With `expected` it is refused if the one there has another "
        "version (0: there must be none)."};
    struct Params {
        std::string collection;
        std::optional<std::string> name;
        std::optional<std::int64_t> number;
        json::object document;
        std::optional<std::string> state;
        std::vector<json::object> lines;
        std::optional<std::int64_t> expected;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::name>("Its name in the collection.").positional().length(1, 120),
                    field<&Params::number>("Or its number there.").at_least(1),
                    field<&Params::document>("What it holds; at most 256 KiB of text."),
                    field<&Params::state>("Your word for where it stands; stays if left out.")
                        .length(1, 40),
                    field<&Params::lines>("Lines to append to its log.").defaulted().length(0, 100),
                    field<&Params::expected>("The version that must be there now.").at_least(0)};
        }
    };
    using Result = RecordChanged;
};

struct RecordAppend {
    static constexpr About about{"record.append", Access::keep, Effect::writes,
                                 "Appends lines to a record's log; the document stays."};
    struct Params {
        std::string collection;
        std::int64_t number = 0;
        std::vector<json::object> lines;
        std::optional<std::string> state;
        std::optional<std::int64_t> expected;
        static FieldList fields(auto) {
            return {
                field<&Params::collection>("The collection.").positional().length(1, 60),
                field<&Params::number>("The record.").positional().at_least(1),
                field<&Params::lines>("The lines; at most 16 KiB of text each.").length(1, 100),
                field<&Params::state>("Its state from now on; stays if left out.").length(1, 40),
                field<&Params::expected>("The version that must be there now.").at_least(1)};
        }
    };
    using Result = RecordChanged;
};

struct RecordGet {
    static constexpr About about{"record.get", Access::look, Effect::reads,
                                 "Shows one record, with its log."};
    struct Params {
        std::string collection;
        std::optional<std::string> name;
        std::optional<std::int64_t> number;
        std::optional<std::string> owner;
        static FieldList fields(auto) {
            return {
                field<&Params::collection>("The collection.").positional().length(1, 60),
                field<&Params::name>("Its name.").positional().length(1, 120),
                field<&Params::number>("Or its number.").at_least(1),
                field<&Params::owner>("Whose it is; the caller's own if left out.").length(0, 60)};
        }
    };
    using Result = Record;
};

/// In which order records are listed.
enum class RecordOrder { name, newest, oldest };
constexpr auto enum_names(RecordOrder) {
    using N = EnumName<RecordOrder>;
    return std::array{N{RecordOrder::name, "name"}, N{RecordOrder::newest, "newest"},
                      N{RecordOrder::oldest, "oldest"}};
}

struct RecordList {
    static constexpr About about{"record.list", Access::look, Effect::reads,
                                 "Lists the records of a collection, without their logs."};
    struct Params : Page {
        std::string collection;
        std::optional<std::string> owner;
        std::vector<std::string> states;
        std::optional<Link> about;
        RecordOrder order = RecordOrder::name;
        static FieldList fields(auto) {
            return joined(
                {field<&Params::collection>("The collection.").positional().length(1, 60),
                 field<&Params::owner>("Whose they are; the caller's own if left out.")
                     .length(0, 60),
                 field<&Params::states>("Only those in one of these states.")
                     .defaulted()
                     .length(0, 20),
                 field<&Params::about>("Only those about this."),
                 field<&Params::order>("By name, or newest or oldest first.").defaulted()},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Record> records;
        static FieldList fields(auto) {
            return joined({field<&Result::records>("The records.")}, NextPage::fields(0));
        }
    };
};

struct RecordRemove {
    static constexpr About about{"record.remove", Access::keep, Effect::writes,
                                 "Removes one of the caller's own records; its number is not used "
                                 "again."};
    struct Params {
        std::string collection;
        std::optional<std::string> name;
        std::optional<std::int64_t> number;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::name>("Its name.").positional().length(1, 120),
                    field<&Params::number>("Or its number.").at_least(1)};
        }
    };
    struct Result {
        bool was_there = false;
        static FieldList fields(auto) {
            return {field<&Result::was_there>("Whether there was one.")};
        }
    };
};

} // namespace barmkeep::contract
