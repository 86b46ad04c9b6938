#include "daemon/ledger/digest.hpp"

#include "sdk/method/json.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>

namespace barmkeep::ledger {
namespace {

json::value as_json(const Value& value) {
    return std::visit([](const auto& held) { return json::value(held); }, value);
}

json::array row_as_json(const Row& row, int columns) {
    json::array all;
    for (int column = 0; column < columns; ++column)
        all.push_back(as_json(row.value(column)));
    return all;
}

} // namespace

std::string digest_of_entry(const View& view, std::int64_t entry, std::string_view before) {
    constexpr int entry_columns = 9;
    constexpr int line_columns = 4;
    constexpr int loss_columns = 2;
    constexpr int link_columns = 2;
    json::array covered{digest_encoding, json::value(before)};
    view.each(
        "SELECT sequence, at, day, who, kind, note, request_key, brew, undoes FROM entry "
        "WHERE sequence = ?",
        [&](const Row& row) { covered.push_back(row_as_json(row, entry_columns)); }, entry);
    view.each(
        "SELECT position, lot, quantity, value FROM line WHERE entry = ? ORDER BY position",
        [&](const Row& row) { covered.push_back(row_as_json(row, line_columns)); }, entry);
    view.each(
        "SELECT pieces, value FROM loss WHERE entry = ?",
        [&](const Row& row) { covered.push_back(row_as_json(row, loss_columns)); }, entry);
    view.each(
        "SELECT target, target_number FROM link WHERE source = 'entry' AND source_number = ? "
        "ORDER BY target, target_number",
        [&](const Row& row) { covered.push_back(row_as_json(row, link_columns)); }, entry);
    // A name-based UUID is SHA-1 over the text: enough against accidents, which is what it is for.
    const boost::uuids::name_generator_sha1 digest{boost::uuids::ns::oid()};
    return boost::uuids::to_string(digest(write_json(covered)));
}

void close_with_digest(Transaction& transaction, std::int64_t entry) {
    const auto before = transaction.first("SELECT digest FROM entry_digest WHERE entry = ?",
                                          take_one<std::string>, entry - 1);
    transaction.run("INSERT INTO entry_digest (entry, encoding, digest) VALUES (?, ?, ?)", entry,
                    digest_encoding, digest_of_entry(transaction, entry, before.value_or("")));
}

} // namespace barmkeep::ledger
