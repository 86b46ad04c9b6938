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

/// The digest that an entry should have after the one before it.
[[nodiscard]] std::string digest_of_entry(const View& view, std::int64_t entry,
                                          std::string_view before);
/// Writes the digest of the newest entry.  REQUIRES: all its lines are written.
void close_with_digest(Transaction& transaction, std::int64_t entry);

} // namespace barmkeep::ledger
