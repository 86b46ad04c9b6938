#include "daemon/ledger/digest.hpp"

#include "sdk/method/json.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

/// The parts of an entry, in the order in which its digest covers them.
enum Part : std::int64_t { part_entry, part_line, part_loss, part_link, part_digest };

constexpr int first_covered = 4; ///< after the entry, two columns of the order, and the part
constexpr std::array columns_covered{9, 4, 2, 2};

/// The rows of one entry ("?1") or of all entries, by entry and part.  SQLite sorts integers before
/// texts and texts before blobs, so the second column alone puts the parts in their order: -1 for
/// the entry, a line's position, the highest integer for the loss, a link's target, and an empty
/// blob for the digest.  So each part comes in the order of its key, and nothing is sorted.
std::string statement_of_parts(bool is_one_entry) {
    const auto where = [&](std::string_view condition) {
        return is_one_entry ? condition : std::string_view{};
    };
    return fmt::format(
        "SELECT sequence, -1, 0, 0, sequence, at, day, who, kind, note, request_key, brew, undoes "
        "FROM entry {} "
        "UNION ALL SELECT entry, position, 0, 1, position, lot, quantity, value, "
        "NULL, NULL, NULL, NULL, NULL FROM line {} "
        "UNION ALL SELECT entry, 9223372036854775807, 0, 2, pieces, value, "
        "NULL, NULL, NULL, NULL, NULL, NULL, NULL FROM loss {} "
        "UNION ALL SELECT source_number, target, target_number, 3, target, target_number, "
        "NULL, NULL, NULL, NULL, NULL, NULL, NULL FROM link WHERE source = 'entry' {} "
        "UNION ALL SELECT entry, x'', 0, 4, digest, "
        "NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL FROM entry_digest {} "
        "ORDER BY 1, 2, 3",
        where("WHERE sequence = ?1"), where("WHERE entry = ?1"), where("WHERE entry = ?1"),
        where("AND source_number = ?1"), where("WHERE entry = ?1"));
}

/// Gathers what a digest covers.
class EntryDigest {
public:
    explicit EntryDigest(std::string_view before)
        : covered_{digest_encoding, json::value(before)} {}
    void add(const Row& row, std::int64_t part) {
        covered_.push_back(
            row_as_json(row, first_covered, columns_covered.at(static_cast<std::size_t>(part))));
    }
    [[nodiscard]] std::string text() const { return digest_of(covered_); }

private:
    json::array covered_;
};

} // namespace

std::string digest_of(const json::value& covered) {
    const boost::uuids::name_generator_sha1 digest{boost::uuids::ns::oid()};
    return boost::uuids::to_string(digest(write_json(covered)));
}

json::array row_as_json(const Row& row, int first, int columns) {
    json::array all;
    for (int column = first; column < first + columns; ++column)
        all.push_back(
            std::visit([](const auto& held) { return json::value(held); }, row.value(column)));
    return all;
}

void close_with_digest(Transaction& transaction, std::int64_t entry) {
    const auto before = transaction.first("SELECT digest FROM entry_digest WHERE entry = ?",
                                          take_one<std::string>, entry - 1);
    static const std::string parts = statement_of_parts(true);
    EntryDigest digest{before.value_or("")};
    transaction.each(
        parts, [&](const Row& row) { digest.add(row, Stored<std::int64_t>::take(row.value(3))); },
        entry);
    transaction.run("INSERT INTO entry_digest (entry, encoding, digest) VALUES (?, ?, ?)", entry,
                    digest_encoding, digest.text());
}

std::string statement_of_digests() {
    return statement_of_parts(false);
}

void compare_digests(const View& view, const std::function<void(std::int64_t, bool)>& take) {
    std::int64_t entry = 0;
    std::optional<EntryDigest> digest; ///< of `entry`, none before the first one
    std::optional<std::string> stored;
    std::string before;
    const auto close = [&] {
        if (!digest)
            return;
        take(entry, stored == digest->text());
        before = stored.value_or("");
        digest.reset();
        stored.reset();
    };
    view.each(statement_of_digests(), [&](const Row& row) {
        const auto number = Stored<std::int64_t>::take(row.value(0));
        const auto part = Stored<std::int64_t>::take(row.value(3));
        if (part == part_entry) {
            close();
            entry = number;
            digest.emplace(before);
        } else if (!digest || number != entry)
            return; // of no entry: the check of foreign keys finds it
        if (part == part_digest)
            stored = Stored<std::string>::take(row.value(first_covered));
        else
            digest->add(row, part);
    });
    close();
}

} // namespace barmkeep::ledger
