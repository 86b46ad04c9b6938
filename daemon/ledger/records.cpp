#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/methods.hpp"
#include "sdk/contract/record.hpp"

namespace barmkeep::ledger {
namespace {

using contract::Record;

constexpr std::size_t document_bytes_max = 256 << 10;
constexpr std::string_view select_records =
    "SELECT owner, collection, name, version, changed, document FROM record ";

Record read_record(const Row& row) {
    Record record;
    std::string document;
    take_row(row, record.owner, record.collection, record.name, record.version, record.changed,
             document);
    record.document = parse_json(document).as_object();
    return record;
}

std::optional<Record> find(const View& view, const std::string& owner,
                           const std::string& collection, const std::string& name) {
    return view.first(std::string(select_records) +
                          "WHERE owner = ? AND collection = ? AND name = ?",
                      read_record, owner, collection, name);
}

void tell_changed(Transaction& transaction, const std::string& owner, const std::string& collection,
                  const std::string& name, std::int64_t version) {
    transaction.event(
        contract::Topic::record_changed,
        {{"owner", owner}, {"collection", collection}, {"name", name}, {"version", version}});
}

void check_version(std::int64_t there, const contract::RecordPut::Params& params) {
    if (!params.expected || *params.expected == there)
        return;
    const std::string found =
        there == 0 ? "there is none" : "it has version " + std::to_string(there);
    throw Error(ErrorKind::conflict, "version_changed",
                "Record " + params.collection + "/" + params.name +
                    " was expected to have version " + std::to_string(*params.expected) + ", but " +
                    found + ".",
                "Read it again, then put what you want to change.", "/expected");
}

Record put(Transaction& transaction, const Call& call, const contract::RecordPut::Params& params) {
    const std::string text = write_json(params.document);
    if (text.size() > document_bytes_max)
        throw Error(ErrorKind::params, "too_large",
                    "The document has " + std::to_string(text.size()) + " bytes of text; " +
                        std::to_string(document_bytes_max) + " are taken.",
                    "Split it into several records.", "/document");
    const std::string& owner = call.caller.plugin;
    const auto before = find(transaction, owner, params.collection, params.name);
    const std::int64_t there = before ? before->version : 0;
    check_version(there, params);
    transaction.run("INSERT INTO record (owner, collection, name, version, changed, document) "
                    "VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (owner, collection, name) DO UPDATE "
                    "SET version = excluded.version, changed = excluded.changed, "
                    "document = excluded.document",
                    owner, params.collection, params.name, there + 1, transaction.now(), text);
    tell_changed(transaction, owner, params.collection, params.name, there + 1);
    return {owner, params.collection, params.name, there + 1, transaction.now(), params.document};
}

Record get(const View& view, const Call& call, const contract::RecordGet::Params& params) {
    auto record =
        find(view, params.owner.value_or(call.caller.plugin), params.collection, params.name);
    if (!record)
        throw Error(ErrorKind::not_found, "record_unknown",
                    "There is no record " + params.collection + "/" + params.name + ".",
                    "record.list shows those of a collection.", "/name");
    return std::move(*record);
}

contract::RecordList::Result list(const View& view, const Call& call,
                                  const contract::RecordList::Params& params) {
    const auto [after] = place_after<contract::RecordList, 1>(params);
    contract::RecordList::Result result;
    result.records =
        view.all(std::string(select_records) +
                     "WHERE owner = ?1 AND collection = ?2 AND (?3 IS NULL OR name > ?3) "
                     "ORDER BY name LIMIT ?4",
                 read_record, params.owner.value_or(call.caller.plugin), params.collection, after,
                 params.limit + 1);
    result.next = cut_page<contract::RecordList>(
        params, result.records, [](const contract::Record& last) { return Place<1>{last.name}; });
    return result;
}

contract::RecordRemove::Result remove(Transaction& transaction, const Call& call,
                                      const contract::RecordRemove::Params& params) {
    const std::string& owner = call.caller.plugin;
    if (transaction.run("DELETE FROM record WHERE owner = ? AND collection = ? AND name = ?", owner,
                        params.collection, params.name) == 0)
        return {false};
    tell_changed(transaction, owner, params.collection, params.name, 0);
    return {true};
}

} // namespace

void add_records(Methods& methods) {
    methods.writes<contract::RecordPut>(&put);
    methods.reads<contract::RecordGet>(&get);
    methods.reads<contract::RecordList>(&list);
    methods.writes<contract::RecordRemove>(&remove);
}

} // namespace barmkeep::ledger
