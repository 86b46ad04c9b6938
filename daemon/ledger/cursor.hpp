// The opaque cursors of lists that come in pages.
#pragma once

#include <string>
#include <string_view>

namespace barmkeep::ledger {

/// A cursor for a place in one kind of list: letters, digits, '-' and '_'.
[[nodiscard]] std::string cursor_of(std::string_view list, std::string_view position);
/// The place in a cursor.  Throws Error(params, "bad_cursor") for one that was not made here for
/// this kind of list: it carries a check, against slips and not against malice.
[[nodiscard]] std::string position_in(std::string_view list, std::string_view cursor);

} // namespace barmkeep::ledger
