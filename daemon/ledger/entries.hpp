// The statements by which the journal is listed: one for each way of asking, so that each is driven
// by an index of its own.  A test holds them to that.
#pragma once

#include <string>

namespace barmkeep::ledger {

enum class EntriesBy { number, lot, link, brew };

/// ?1 is the number before which the page begins (null: the end), ?2 how many; what follows is
/// what is asked for, and for a lot or a link the brew day (null: any).
[[nodiscard]] std::string statement_of_entries(EntriesBy by);

} // namespace barmkeep::ledger
