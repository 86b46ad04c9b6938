// The ledger's audit of itself.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/method/call.hpp"

#include <stop_token>

namespace barmkeep::ledger {

/// Reads the whole journal, adds it up again without looking at the balances, and compares; then
/// has SQLite check its file.  Sends its progress, a step for each line.  Throws Error(cancelled)
/// when asked to stop; while SQLite checks the file it does not listen.
[[nodiscard]] contract::LedgerCheck::Result check_ledger(const View& view, const Call& call);

/// Throws Error(cancelled) when asked to stop.
void stop_if_cancelled(const std::stop_token& cancelled);

} // namespace barmkeep::ledger
