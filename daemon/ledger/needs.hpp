// What brew days need, whether the shelf has it or not.
#pragma once

#include "daemon/ledger/view.hpp"

#include <map>

namespace barmkeep::ledger {

/// What brew days need, by brew day, each with what of it is reserved.
[[nodiscard]] std::map<std::int64_t, std::vector<contract::Need>>
needs_of(const View& view, const std::vector<std::int64_t>& brews);

/// Sets what a brew day needs of a good; zero steps take the need away.
void set_need(Transaction& transaction, std::int64_t brew, std::int64_t good, std::int64_t steps,
              Date day);
/// After a brew day has used some of what it needs.
void lessen_need(Transaction& transaction, std::int64_t brew, std::int64_t good,
                 std::int64_t steps);
void drop_needs(Transaction& transaction, std::int64_t brew);

/// Sets free stock of a good aside for the planned brew days that need more of it than they have,
/// the earliest first.  To be called whenever stock may have become free.
void settle_needs(Transaction& transaction, std::int64_t good);

/// Planned brew days before `brew` whose need of a good is not met.
[[nodiscard]] std::vector<std::int64_t> short_before(const View& view, std::int64_t brew,
                                                     std::int64_t good);

} // namespace barmkeep::ledger
