#include "daemon/ledger/row_checksum.hpp"

#include "daemon/ledger/digest.hpp"
#include "sdk/contract/good.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

/// A table and how its rows are read: first the columns that name a row in a sentence, then the
/// stored checksum, then the columns that the checksum covers.
struct Rows {
    ChecksummedTable table;
    std::string_view read;
    std::string_view key; ///< the column of the row's number
    std::string_view write;
    int names = 0;
    int covered = 0;
    std::string (*name_of)(const Row&);
};

std::string lot_name(const Row& row) {
    const auto number = Stored<std::int64_t>::take(row.value(0));
    const auto category = Stored<std::optional<contract::Category>>::take(row.value(1));
    if (!category) // its good is none that there is
        return fmt::format("Lot number {}", number);
    return fmt::format("Lot {}", to_text(LotCode{contract::lot_letter(*category), number}));
}

std::string brew_name(const Row& row) {
    return fmt::format("Brew day {} ({})", Stored<std::int64_t>::take(row.value(0)),
                       Stored<std::string>::take(row.value(1)));
}

std::string record_name(const Row& row) {
    return fmt::format("Record {}.{} {}", Stored<std::string>::take(row.value(0)),
                       Stored<std::string>::take(row.value(1)),
                       Stored<std::int64_t>::take(row.value(2)));
}

constexpr std::array<Rows, 3> all_rows{{
    {ChecksummedTable::lot,
     "SELECT lot.number, (SELECT class FROM good WHERE good.number = lot.good), checksum, "
     "number, good, supplier, bought, packed, canned, best_by, kept, facts, origin FROM lot ",
     "number", "UPDATE lot SET checksum = ? WHERE number = ?", 2, 10, &lot_name},
    {ChecksummedTable::brew,
     "SELECT number, name, checksum, "
     "number, day, name, state, volume, gravity, strain, note FROM brew ",
     "number", "UPDATE brew SET checksum = ? WHERE number = ?", 2, 8, &brew_name},
    {ChecksummedTable::record,
     "SELECT owner, collection, number, checksum, "
     "row, owner, collection, number, name, state, version, changed, document FROM record ",
     "row", "UPDATE record SET checksum = ? WHERE row = ?", 3, 9, &record_name},
}};

const Rows& rows_of(ChecksummedTable table) {
    return all_rows.at(static_cast<std::size_t>(table));
}

/// The form of the row stands before the digest, so that a later program can still read this one.
std::string checksum_of(const Rows& rows, const Row& row) {
    return fmt::format("{}:{}", checksum_encoding,
                       digest_of(row_as_json(row, rows.names + 1, rows.covered)));
}

} // namespace

void write_checksum(Transaction& transaction, ChecksummedTable table, std::int64_t number) {
    const Rows& rows = rows_of(table);
    const auto checksum = transaction.first(
        fmt::format("{}WHERE {} = ?", rows.read, rows.key),
        [&](const Row& row) { return checksum_of(rows, row); }, number);
    transaction.run(rows.write, checksum.value(), number);
}

std::vector<std::string> compare_checksums(const View& view) {
    std::vector<std::string> found;
    for (const Rows& rows : all_rows)
        view.each(fmt::format("{}ORDER BY {}", rows.read, rows.key), [&](const Row& row) {
            const auto stored = Stored<std::optional<std::string>>::take(row.value(rows.names));
            if (stored != checksum_of(rows, row))
                found.push_back(fmt::format("{} was changed outside the program: its checksum does "
                                            "not fit.",
                                            rows.name_of(row)));
        });
    return found;
}

} // namespace barmkeep::ledger
