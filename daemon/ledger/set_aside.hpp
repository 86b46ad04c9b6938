// Stock that brew days have set aside.
#pragma once

#include "daemon/ledger/view.hpp"

#include <map>

namespace barmkeep::ledger {

/// What brew days have set aside, by brew day, then good and lot.
[[nodiscard]] std::map<std::int64_t, std::vector<contract::SetAside>>
set_aside_for(const View& view, const std::vector<std::int64_t>& brews);
/// How many steps of one lot it has set aside.
[[nodiscard]] std::int64_t steps_set_aside(const View& view, std::int64_t brew, std::int64_t lot);

/// Sets more of a lot aside.  REQUIRES: there is as much that is not set aside.
void set_more_aside(Transaction& transaction, std::int64_t brew, std::int64_t lot,
                    std::int64_t steps);
/// Gives some back.  REQUIRES: 0 <= steps <= what is set aside.
void give_back(Transaction& transaction, std::int64_t brew, std::int64_t lot, std::int64_t steps);
/// Gives back all that a brew day has set aside.
void give_back_all(Transaction& transaction, std::int64_t brew);

/// After stock went that was set aside (found missing, thrown away, corrected): what is left goes
/// to the brew days that come first, the later ones lose theirs, and each change is told.
void trim_set_aside(Transaction& transaction, std::int64_t lot);

void tell_brew_changed(Transaction& transaction, std::int64_t brew);

} // namespace barmkeep::ledger
