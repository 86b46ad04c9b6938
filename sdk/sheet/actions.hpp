// All actions of a sheet, wherever they stand: at its end, at a step, a row or a warning.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/sheet.hpp"

#include <functional>

namespace barmkeep::sheet {

/// Every action, those of the sheet itself first, then those of its blocks, within `more` too.  The
/// pointers live as long as the sheet is not changed.
[[nodiscard]] std::vector<const Action*> actions_of(const Sheet& sheet);

/// Takes out the actions that `is_wanted` is false for: the host's way to leave out what is above
/// the caller's rights.
///
///     keep_actions(sheet, [&](const Action& action) { return may_call(caller, action.method); });
void keep_actions(Sheet& sheet, const std::function<bool(const Action&)>& is_wanted);

} // namespace barmkeep::sheet
