// Copies of the ledger: making one, checking one, putting one in place.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/method/call.hpp"

#include <filesystem>

namespace barmkeep::ledger {

/// Copies the picture that a reading store has in its transaction to a new file, checks the copy,
/// and only then gives it its name.  Throws Error(params) for a relative path, Error(conflict,
/// "file_exists"), Error(unavailable) if the copy cannot be written or is not sound,
/// Error(cancelled).
[[nodiscard]] contract::LedgerBackup::Result
make_copy(Store& from, const Call& call, const contract::LedgerBackup::Params& params);

/// Opens a copy, checks its version, its file and its journal; answers its entries.
/// Throws Error(unavailable).
std::int64_t check_copy(const std::filesystem::path& file);

/// Puts a copy, with what is in the log beside it, in the place of a ledger that nobody uses.  The
/// ledger replaced is kept beside it, its own log moved into it first.  Throws Error(unavailable):
/// "in_use" if a daemon runs on it, "copy_differs" if the copy changed meanwhile, and what
/// check_copy throws.
void put_in_place(const std::filesystem::path& copy, const std::filesystem::path& ledger_file);

} // namespace barmkeep::ledger
