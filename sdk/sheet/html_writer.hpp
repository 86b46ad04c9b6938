// Writes a sheet as one self-contained page: for a browser, or to print and hang up.
//
// Thread safety: a pure function.
#pragma once

#include "sdk/sheet/reader.hpp"

namespace barmkeep::sheet {

/// The sheet as an HTML document that is well-formed XML too: style inside, no script, nothing
/// fetched.  Light and dark by the reader's system, print rules for A4 and Letter, readable at 360
/// pixels and without colour.  Everything of the sheet is escaped; control characters are taken
/// out.  Days stand with their dates, because paper outlives the day: `reader.days_are_near`,
/// `width`, `unicode`, `colour` and `full` do not count.  Cautions that are not `here` and `more`
/// are folded on the screen and in full on paper.  Throws nothing but std::bad_alloc.
[[nodiscard]] std::string write_html(const Sheet& sheet, const Reader& reader);

} // namespace barmkeep::sheet
