// Records: documents that a plugin keeps in the cellar under its own name.
#pragma once

#include "sdk/contract/listing.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

struct Record {
    std::string owner;
    std::string collection;
    std::string name;
    std::int64_t version = 0;
    Instant changed;
    json::object document;
    static FieldList fields(auto) {
        return {
            field<&Record::owner>("The plugin it belongs to; empty for one a person keeps."),
            field<&Record::collection>("The collection."),
            field<&Record::name>("Its name in the collection."),
            field<&Record::version>("Counts its changes, from 1."),
            field<&Record::changed>("When it was last changed."),
            field<&Record::document>("What it holds.")};
    }
};

struct RecordPut {
    static constexpr About about{
        "record.put", Access::keep, Effect::writes,
        "Keeps a document, in place of the one of that name.  With `expected` it is refused if the "
        "one there has another version (0: there must be none)."};
    struct Params {
        std::string collection;
        std::string name;
        json::object document;
        std::optional<std::int64_t> expected;
        static FieldList fields(auto) {
            return {
                field<&Params::collection>("The collection.").positional().length(1, 60),
                field<&Params::name>("Its name in the collection.").positional().length(1, 120),
                field<&Params::document>("What it holds; at most 256 KiB of text."),
                field<&Params::expected>("The version that must be there now.").at_least(0)};
        }
    };
    using Result = Record;
};

struct RecordGet {
    static constexpr About about{"record.get", Access::look, Effect::reads, "Shows one record."};
    struct Params {
        std::string collection;
        std::string name;
        std::optional<std::string> owner;
        static FieldList fields(auto) {
            return {
                field<&Params::collection>("The collection.").positional().length(1, 60),
                field<&Params::name>("Its name.").positional().length(1, 120),
                field<&Params::owner>("Whose it is; the caller's own if left out.").length(0, 60)};
        }
    };
    using Result = Record;
};

struct RecordList {
    static constexpr About about{"record.list", Access::look, Effect::reads,
                                 "Lists the records of a collection, by name."};
    struct Params : Page {
        std::string collection;
        std::optional<std::string> owner;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::collection>("The collection.").positional().length(1, 60),
                           field<&Params::owner>("Whose they are; the caller's own if left out.")
                               .length(0, 60)},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<Record> records;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::records>("The records.")},
                                  NextPage::fields(0));
        }
    };
};

struct RecordRemove {
    static constexpr About about{"record.remove", Access::keep, Effect::writes,
                                 "Removes one of the caller's own records."};
    struct Params {
        std::string collection;
        std::string name;
        static FieldList fields(auto) {
            return {
                field<&Params::collection>("The collection.").positional().length(1, 60),
                field<&Params::name>("Its name.").positional().length(1, 120)};
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
