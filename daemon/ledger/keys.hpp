// Request keys: a request that carries one is done once, however often it is sent.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// How long an answer is kept for its key.
inline constexpr Days keys_kept{90};

/// The answer stored for a call's key; nothing if it has no key or was not done yet.
/// Throws Error(conflict, "key_used") if the key belongs to another request.
[[nodiscard]] std::optional<json::value> stored_answer(const View& view, const std::string& key,
                                                       const std::string& digest);

/// Keeps the answer for the key, and drops keys that are too old.
void store_answer(Transaction& transaction, const std::string& key, const std::string& digest,
                  const json::value& answer);

} // namespace barmkeep::ledger
