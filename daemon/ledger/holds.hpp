// Holds: the only place that sets and ends them.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/contract/hold.hpp"
#include "sdk/method/call.hpp"

#include <map>

namespace barmkeep::ledger {

/// The holds of lots, in force and ended, oldest first.
[[nodiscard]] std::map<std::int64_t, std::vector<contract::Hold>>
holds_of(const View& view, const std::vector<std::int64_t>& lots);

/// Sets a hold; where one of the same kind is in force already, a second one says what happened
/// next.  Answers its number.  REQUIRES: the links are checked.
std::int64_t set_hold(Transaction& transaction, const Call& call, std::int64_t lot,
                      const contract::HoldGiven& hold, const contract::Links& about);
/// Ends one.  REQUIRES: it is in force, and may be ended so.
void end_hold(Transaction& transaction, const Call& call, std::int64_t hold,
              const std::string& reason);

/// Gives a lot the holds of another one, those that have ended too.
void copy_holds(Transaction& transaction, const Call& call, std::int64_t lot,
                const std::vector<contract::Hold>& holds);

/// The holds of lots that were released and are shown at every later use (contract::is_remembered).
[[nodiscard]] std::map<std::int64_t, std::vector<contract::Hold>>
releases_of(const View& view, const std::vector<std::int64_t>& lots);

/// "quarantine (mould on a lid)", several joined; for errors.
[[nodiscard]] std::string holds_text(const std::vector<contract::Hold>& holds);

/// What can be done about a lot whose holds are in force, for the hint of an error.
[[nodiscard]] std::string way_out(const LotCode& lot, const std::vector<contract::Hold>& holds);

} // namespace barmkeep::ledger
