// Writes a sheet as text: for a terminal, a pipe, a mail.
//
//     Reader reader;
//     reader.units = brewing::System::us;
//     reader.width = 100;
//     std::cout << write_text(sheet, reader);
//
// Thread safety: a pure function.
#pragma once

#include "sdk/sheet/reader.hpp"

namespace barmkeep::sheet {

/// The sheet as lines, each ended by '\n' and at most `reader.width` columns wide (East Asian wide
/// letters count two, combining marks none).  The order: alarms, title, lead, blocks, actions, how
/// many cautions there are and how to read them.
///
/// Tables leave out columns by their priority, then wrap the last column of text, then become
/// labelled lines.  No control character of the sheet reaches the output; with `reader.colour` it
/// has ANSI colour codes of its own.  Throws nothing but std::bad_alloc.
[[nodiscard]] std::string write_text(const Sheet& sheet, const Reader& reader);

} // namespace barmkeep::sheet
