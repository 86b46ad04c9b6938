// The chain of digests over the journal.
//
// Each digest covers an entry with its lines, loss and links and the digest before it, so that a
// changed text or figure shows, and a removed entry as well.  The chain's head is a row like any
// other: it rolls back with the savepoint of a request that fails, and stands in every backup.
#pragma once

#include "daemon/ledger/view.hpp"

namespace barmkeep::ledger {

/// How an entry is written down for its digest; a later form gets the next number.
inline constexpr std::int64_t digest_encoding = 1;

/// Name-based UUID of a JSON text: SHA-1, which is enough against accidents.
[[nodiscard]] std::string digest_of(const json::value& covered);
/// The first columns of a row as a JSON array.
[[nodiscard]] json::array row_as_json(const Row& row, int first, int columns);

/// Writes the digest of the newest entry.  REQUIRES: all its lines are written.
void close_with_digest(Transaction& transaction, std::int64_t entry);

/// Makes the digest of every entry again, in one pass over the journal, in order of number.
/// `take(entry, is_right)` says of each entry whether its stored digest is right.
void compare_digests(const View& view, const std::function<void(std::int64_t, bool)>& take);

/// The statement of that pass, for a test that looks at SQLite's plan of it.
[[nodiscard]] std::string statement_of_digests();

} // namespace barmkeep::ledger
