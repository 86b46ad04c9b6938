#include "daemon/ledger/cursor.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/row_checksum.hpp"
#include "sdk/contract/record.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::Record;
using contract::RecordChanged;
using contract::RecordOrder;

constexpr std::size_t document_bytes_max = 256 << 10;
constexpr std::size_t line_bytes_max = 16 << 10;
constexpr std::string_view select_records =
    "SELECT row, owner, collection, number, name, state, version, changed, document FROM record ";

struct Kept {
    std::int64_t row = 0;
    Record record;
};

Kept read_record(const Row& row) {
    Kept kept;
    Record& record = kept.record;
    std::string document;
    take_row(row, kept.row, record.owner, record.collection, record.number, record.name,
             record.state, record.version, record.changed, document);
    record.document = parse_json(document).as_object();
    return kept;
}

/// A record by its name or its number in a collection.
struct Which {
    std::string owner;
    std::string collection;
    std::optional<std::string> name;
    std::optional<std::int64_t> number;
};

template <class Params>
Which which(const Params& params, std::string owner) {
    if (params.name.has_value() == params.number.has_value())
        throw Error(ErrorKind::params, "missing", "Either a name or a number is needed, not both.",
                    "Give `name` or `number`.", "/name");
    return {std::move(owner), params.collection, params.name, params.number};
}

std::optional<Kept> find(const View& view, const Which& which) {
    const std::string of = std::string(select_records) + "WHERE owner = ? AND collection = ? AND ";
    if (which.name)
        return view.first(of + "name = ?", read_record, which.owner, which.collection, *which.name);
    return view.first(of + "number = ?", read_record, which.owner, which.collection, *which.number);
}

std::string text_of(const Which& which) {
    return which.collection + "/" +
           (which.name ? *which.name : std::to_string(which.number.value_or(0)));
}

Kept require(const View& view, const Which& of) {
    if (auto kept = find(view, of))
        return std::move(*kept);
    throw Error(ErrorKind::not_found, "record_unknown", "There is no record " + text_of(of) + ".",
                "Call record.list for the records of the collection.",
                of.name ? "/name" : "/number");
}

void send_changed(Transaction& transaction, const Record& record, std::int64_t version) {
    transaction.event(contract::Topic::record_changed, {{"owner", record.owner},
                                                        {"collection", record.collection},
                                                        {"number", record.number},
                                                        {"version", version}});
}

void check_version(std::int64_t there, const std::optional<std::int64_t>& expected,
                   const Which& of) {
    if (!expected || *expected == there)
        return;
    const std::string found =
        there == 0 ? "there is none" : "it has version " + std::to_string(there);
    throw Error(ErrorKind::conflict, "version_changed",
                "Record " + text_of(of) + " was expected to have version " +
                    std::to_string(*expected) + ", but " + found + ".",
                "Call record.get, then record.put with your change.", "/expected");
}

std::string document_text(const json::object& document) {
    std::string text = write_json(document);
    if (text.size() > document_bytes_max)
        throw Error(ErrorKind::params, "too_large",
                    "The document has " + std::to_string(text.size()) +
                        " bytes of text; the limit is " + std::to_string(document_bytes_max) + ".",
                    "Split it into several records, or put what grows into its log.", "/document");
    return text;
}

std::int64_t next_number(Transaction& transaction, const std::string& owner,
                         const std::string& collection) {
    return transaction
        .first("INSERT INTO record_counter (owner, collection, last) VALUES (?, ?, 1) "
               "ON CONFLICT (owner, collection) DO UPDATE SET last = last + 1 RETURNING last",
               take_one<std::int64_t>, owner, collection)
        .value();
}

/// Appends to a record's log; answers how many lines it has.
std::int64_t append_lines(Transaction& transaction, std::int64_t row,
                          const std::vector<json::object>& lines) {
    std::int64_t last = transaction.number(
        "SELECT coalesce(max(position), 0) FROM record_line WHERE record = ?", row);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string text = write_json(lines[i]);
        if (text.size() > line_bytes_max)
            throw Error(ErrorKind::params, "too_large",
                        "The line has " + std::to_string(text.size()) +
                            " bytes of text; the limit is " + std::to_string(line_bytes_max) + ".",
                        "Split it into several lines.", "/lines/" + std::to_string(i));
        transaction.run("INSERT INTO record_line (record, position, line) VALUES (?, ?, ?)", row,
                        ++last, text);
    }
    return last;
}

RecordChanged make(Transaction& transaction, const Which& of, const json::object& document,
                   const std::optional<std::string>& state, const std::vector<json::object>& lines,
                   const contract::Links& about) {
    Record record;
    record.owner = of.owner;
    record.collection = of.collection;
    record.number = next_number(transaction, of.owner, of.collection);
    const std::int64_t row = insert_with_checksum(
        transaction, ChecksummedTable::record,
        "INSERT INTO record (owner, collection, number, name, state, version, changed, document) "
        "VALUES (?, ?, ?, ?, ?, 1, ?, ?)",
        of.owner, of.collection, record.number, of.name, state, transaction.now(),
        document_text(document));
    add_links(transaction, LinkSource::record, row, about);
    const auto count = append_lines(transaction, row, lines);
    send_changed(transaction, record, 1);
    return {record.number, 1, count, transaction.now()};
}

/// Changes a record; fields that are left out stay as they are.
RecordChanged update(Transaction& transaction, const Kept& kept,
                     const std::optional<std::string>& document,
                     const std::optional<std::string>& state,
                     const std::vector<json::object>& lines) {
    const std::int64_t version = kept.record.version + 1;
    update_with_checksum(transaction, ChecksummedTable::record, kept.row,
                         "UPDATE record SET version = ?, changed = ?, "
                         "state = coalesce(?, state), document = coalesce(?, document) "
                         "WHERE row = ?",
                         version, transaction.now(), state, document);
    const auto count = append_lines(transaction, kept.row, lines);
    send_changed(transaction, kept.record, version);
    return {kept.record.number, version, count, transaction.now()};
}

RecordChanged add(Transaction& transaction, const Call& call,
                  const contract::RecordAdd::Params& params) {
    check_links(transaction, params.about, "/about");
    return make(transaction, {call.caller.plugin, params.collection, {}, {}}, params.document,
                params.state, params.lines, params.about);
}

RecordChanged put(Transaction& transaction, const Call& call,
                  const contract::RecordPut::Params& params) {
    const Which of = which(params, call.caller.plugin);
    const auto before = find(transaction, of);
    check_version(before ? before->record.version : 0, params.expected, of);
    if (before)
        return update(transaction, *before, document_text(params.document), params.state,
                      params.lines);
    if (!of.name)
        return update(transaction, require(transaction, of), {}, {}, {}); // throws
    return make(transaction, of, params.document, params.state, params.lines, {});
}

RecordChanged append(Transaction& transaction, const Call& call,
                     const contract::RecordAppend::Params& params) {
    const Which of{call.caller.plugin, params.collection, {}, params.number};
    const Kept kept = require(transaction, of);
    check_version(kept.record.version, params.expected, of);
    return update(transaction, kept, {}, params.state, params.lines);
}

Record get(const View& view, const Call& call, const contract::RecordGet::Params& params) {
    Kept kept = require(view, which(params, params.owner.value_or(call.caller.plugin)));
    kept.record.lines = view.all(
        "SELECT line FROM record_line WHERE record = ? ORDER BY position",
        [](const Row& row) { return parse_json(take_one<std::string>(row)).as_object(); },
        kept.row);
    kept.record.about = links_of(view, LinkSource::record, kept.row);
    return std::move(kept.record);
}

/// Where a page of records begins, by its order.
std::string page_of(RecordOrder order) {
    switch (order) {
    case RecordOrder::newest:
        return "AND number < CAST(coalesce(?3, 9223372036854775807) AS INTEGER) "
               "ORDER BY number DESC LIMIT ?4";
    case RecordOrder::oldest:
        return "AND number > CAST(coalesce(?3, 0) AS INTEGER) ORDER BY number LIMIT ?4";
    case RecordOrder::name:
        break;
    }
    return "AND (?3 IS NULL OR coalesce(name, printf('%020d', number)) > ?3) "
           "ORDER BY coalesce(name, printf('%020d', number)) LIMIT ?4";
}

std::string place_of(const Record& record, RecordOrder order) {
    if (order != RecordOrder::name)
        return std::to_string(record.number);
    return record.name ? *record.name : fmt::format("{:020}", record.number);
}

contract::RecordList::Result list(const View& view, const Call& call,
                                  const contract::RecordList::Params& params) {
    if (params.about)
        check_link(view, *params.about, "/about");
    const auto [after] = place_after<contract::RecordList, 1>(params);
    const std::optional<std::string> states =
        params.states.empty() ? std::nullopt : std::optional{write_json(to_json(params.states))};
    const auto target = params.about ? std::optional{params.about->to} : std::nullopt;
    auto kept = view.all(
        std::string(select_records) +
            "WHERE owner = ?1 AND collection = ?2 "
            "AND (?5 IS NULL OR state IN (SELECT value FROM json_each(?5))) "
            "AND (?6 IS NULL OR row IN (SELECT source_number FROM link WHERE target = ?6 AND "
            "target_number = ?7 AND source = 'record')) " +
            page_of(params.order),
        read_record, params.owner.value_or(call.caller.plugin), params.collection, after,
        params.limit + 1, states, target, params.about ? params.about->number : 0);
    contract::RecordList::Result result;
    result.next = cut_page<contract::RecordList>(params, kept, [&](const Kept& last) {
        return Place<1>{place_of(last.record, params.order)};
    });
    std::vector<std::int64_t> rows;
    for (const Kept& one : kept)
        rows.push_back(one.row);
    auto links = links_of(view, LinkSource::record, rows);
    for (Kept& one : kept) {
        one.record.about = std::move(links[one.row]);
        result.records.push_back(std::move(one.record));
    }
    return result;
}

contract::RecordRemove::Result remove(Transaction& transaction, const Call& call,
                                      const contract::RecordRemove::Params& params) {
    const auto kept = find(transaction, which(params, call.caller.plugin));
    if (!kept)
        return {false};
    transaction.run("DELETE FROM record_line WHERE record = ?", kept->row);
    drop_links(transaction, LinkSource::record, kept->row);
    transaction.run("DELETE FROM record WHERE row = ?", kept->row);
    send_changed(transaction, kept->record, 0);
    return {true};
}

} // namespace

void add_records(Methods& methods) {
    methods.writes<contract::RecordAdd>(&add);
    methods.writes<contract::RecordAppend>(&append);
    methods.writes<contract::RecordPut>(&put);
    methods.reads<contract::RecordGet>(&get);
    methods.reads<contract::RecordList>(&list);
    methods.writes<contract::RecordRemove>(&remove);
}

} // namespace barmkeep::ledger
