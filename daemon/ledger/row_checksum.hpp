// The checksums of rows that may change: lots, brew days and records.
//
// The journal has its chain of digests; what may change has a checksum in each row.  All writers of
// these tables go through the two functions below, so that no row is left with an old checksum.
#pragma once

#include "daemon/ledger/view.hpp"

namespace barmkeep::ledger {

enum class ChecksummedTable { lot, brew, record };

/// How a row is written down for its checksum; a later form gets the next number.
inline constexpr std::int64_t checksum_encoding = 1;

/// Writes the checksum of a row over all its other columns.
void write_checksum(Transaction& transaction, ChecksummedTable table, std::int64_t number);

/// Inserts one row into the table and answers its number.
template <class... T>
std::int64_t insert_with_checksum(Transaction& transaction, ChecksummedTable table,
                                  std::string_view statement, const T&... parameters) {
    transaction.run(statement, parameters...);
    const std::int64_t number = transaction.last_number();
    write_checksum(transaction, table, number);
    return number;
}

/// Changes one row of the table; the row's number is the statement's last parameter.
template <class... T>
void update_with_checksum(Transaction& transaction, ChecksummedTable table, std::int64_t number,
                          std::string_view statement, const T&... parameters) {
    transaction.run(statement, parameters..., number);
    write_checksum(transaction, table, number);
}

/// Makes every row's checksum again; answers a sentence for each row whose checksum is another.
[[nodiscard]] std::vector<std::string> compare_checksums(const View& view);

} // namespace barmkeep::ledger
