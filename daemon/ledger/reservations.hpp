// Stock that brew days have reserved.
#pragma once

#include "daemon/ledger/view.hpp"

#include <map>

namespace barmkeep::ledger {

/// What brew days have reserved, by brew day, then good and lot.
[[nodiscard]] std::map<std::int64_t, std::vector<contract::Reservation>>
reservations_for(const View& view, const std::vector<std::int64_t>& brews);
/// How many steps of one lot it has reserved.
[[nodiscard]] std::int64_t steps_reserved(const View& view, std::int64_t brew, std::int64_t lot);

/// Reserves more of a lot.  REQUIRES: there is as much that is not reserved.
void reserve_more(Transaction& transaction, std::int64_t brew, std::int64_t lot,
                  std::int64_t steps);
/// Gives some back.  REQUIRES: 0 <= steps <= what is reserved.
void give_back(Transaction& transaction, std::int64_t brew, std::int64_t lot, std::int64_t steps);
/// Gives back all that a brew day has reserved.
void give_back_all(Transaction& transaction, std::int64_t brew);

/// Gives back all that is reserved of a lot, and sends an event for each brew day.
void give_back_lot(Transaction& transaction, std::int64_t lot);

/// After stock went that was reserved (found missing, thrown away, corrected): what is left goes
/// to the brew days that come first, the later ones lose theirs, and each change sends an event.
void trim_reservations(Transaction& transaction, std::int64_t lot);

void send_brew_changed(Transaction& transaction, std::int64_t brew);

} // namespace barmkeep::ledger
