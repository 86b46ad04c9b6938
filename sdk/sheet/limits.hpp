// What a sheet from outside must keep to.
//
// A plugin may make a sheet of any size, or none at all.  The host decodes it here; for one that is
// refused it logs the faults and shows the generic sheet.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/sheet.hpp"

namespace barmkeep::sheet {

struct Limits {
    std::size_t bytes_max = std::size_t{256} * 1024; ///< of compact JSON
    std::size_t depth_max = 6;                       ///< blocks within blocks; 1: no `more` at all
    /// Rows, steps, facts, lines and points of charts, all together.
    std::size_t rows_max = 2000;
};

/// What is wrong with a sheet, one sentence each; nothing if it may be shown.  Faults are: a limit
/// passed, a control character in any text, a number that is not finite, a range whose ends are
/// out of order, a letter that is not one of a to z or stands for two different calls, an action
/// without label or method, more than one usual action, an empty title.
[[nodiscard]] std::vector<std::string> check(const Sheet& sheet, const Limits& limits = {});

/// A sheet that came from outside, or why there is none.
struct DecodedSheet {
    std::optional<Sheet> sheet;
    std::vector<std::string> faults; ///< empty exactly if there is a sheet
};

/// Reads the JSON of a sheet.  Unknown blocks and values are kept as unknown; everything in
/// check() holds.  Never throws for what stands in the text.
[[nodiscard]] DecodedSheet decode_sheet(std::string_view json_text, const Limits& limits = {});

} // namespace barmkeep::sheet
