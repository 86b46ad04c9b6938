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
        return {field<&Record::owner>("The plugin that owns it. Empty for a record of a person."),
                field<&Record::collection>("The collection."),
                field<&Record::number>("Its number in the collection."),
                field<&Record::name>("Its name in the collection. Left out if it has none."),
                field<&Record::state>("Its state, in the owner's word."),
                field<&Record::version>(
                    "Its version: counts its changes from 1, lines of its log included."),
                field<&Record::changed>("When it last changed."),
                field<&Record::document>("The document."),
                field<&Record::lines>("Its log, oldest first. Empty in a list.").defaulted(),
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
                field<&RecordChanged::lines>("Number of lines in its log."),
                field<&RecordChanged::changed>("When it changed.")};
    }
};

struct RecordAdd {
    static constexpr About about{"record.add", Access::keep, Effect::writes,
                                 "Adds a record. The core gives it the next number."};
    struct Params {
        std::string collection;
        json::object document;
        std::optional<std::string> state;
        std::vector<json::object> lines;
        Links about;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::document>("The document, at most 256 KiB."),
                    field<&Params::state>("Its state, a word of your own. None if left out.")
                        .length(1, 40),
                    field<&Params::lines>("The first lines of its log. None if left out.")
                        .defaulted()
                        .length(0, 100),
                    links_field<&Params::about>()};
        }
    };
    using Result = RecordChanged;
};

struct RecordPut {
    static constexpr About about{
        "record.put", Access::keep, Effect::writes,
        "Replaces the document of a record. A name that does not exist adds a record. With "
        "`expected` it is refused if the record has another version (0: it must not exist)."};
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
                    field<&Params::name>("Its name in the collection. Give a name or a number.")
                        .positional()
                        .length(1, 120),
                    field<&Params::number>("Its number in the collection, instead of a name.")
                        .at_least(1),
                    field<&Params::document>("The document, at most 256 KiB."),
                    field<&Params::state>(
                        "Its state, a word of your own. It stays as it is if left out.")
                        .length(1, 40),
                    field<&Params::lines>("Lines to append to its log. None if left out.")
                        .defaulted()
                        .length(0, 100),
                    field<&Params::expected>(
                        "The version that it must have now. Not compared if left out.")
                        .at_least(0)};
        }
    };
    using Result = RecordChanged;
};

struct RecordAppend {
    static constexpr About about{"record.append", Access::keep, Effect::writes,
                                 "Appends lines to a record's log. The document stays as it is."};
    struct Params {
        std::string collection;
        std::int64_t number = 0;
        std::vector<json::object> lines;
        std::optional<std::string> state;
        std::optional<std::int64_t> expected;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::number>("The record's number.").positional().at_least(1),
                    field<&Params::lines>("The lines, at most 16 KiB each.").length(1, 100),
                    field<&Params::state>("Its new state. It stays as it is if left out.")
                        .length(1, 40),
                    field<&Params::expected>(
                        "The version that it must have now. Not compared if left out.")
                        .at_least(1)};
        }
    };
    using Result = RecordChanged;
};

struct RecordGet {
    static constexpr About about{"record.get", Access::look, Effect::reads,
                                 "Shows one record with its log."};
    struct Params {
        std::string collection;
        std::optional<std::string> name;
        std::optional<std::int64_t> number;
        std::optional<std::string> owner;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::name>("Its name. Give a name or a number.")
                        .positional()
                        .length(1, 120),
                    field<&Params::number>("Its number, instead of a name.").at_least(1),
                    field<&Params::owner>("The plugin that owns it. Your own if left out.")
                        .length(0, 60)};
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
                 field<&Params::owner>("The plugin that owns them. Your own if left out.")
                     .length(0, 60),
                 field<&Params::states>("Lists only those in one of these states. All if left out.")
                     .defaulted()
                     .length(0, 20),
                 field<&Params::about>(
                     "Lists only what is about this entry, lot, brew day or record."),
                 field<&Params::order>("The order: by name, newest first or oldest first.")
                     .defaulted()},
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
    static constexpr About about{
        "record.remove", Access::keep, Effect::writes,
        "Removes one of your own records. Its number is never used again."};
    struct Params {
        std::string collection;
        std::optional<std::string> name;
        std::optional<std::int64_t> number;
        static FieldList fields(auto) {
            return {field<&Params::collection>("The collection.").positional().length(1, 60),
                    field<&Params::name>("Its name. Give a name or a number.")
                        .positional()
                        .length(1, 120),
                    field<&Params::number>("Its number, instead of a name.").at_least(1)};
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
