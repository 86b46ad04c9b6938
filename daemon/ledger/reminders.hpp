// Reminders: what the keeper should see to, and when.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

[[nodiscard]] contract::ReminderList::Result
list_reminders(const View& view, const Call& call, const contract::ReminderList::Params& params);

} // namespace barmkeep::ledger
