// The sheet of an answer for which nobody made one.
//
// Thread safety: a pure function.
#pragma once

#include "sdk/method/about.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::sheet {

/// Makes a readable sheet of any result and its schema (Description::result): single values as
/// facts with words for labels, lists of objects as tables, sentences each on a line, objects
/// within as blocks under a heading.  Values become typed by `x-unit`, `x-kind` and `format` of the
/// schema.  Members that the schema does not know come last.  An empty list of the result itself
/// says that there is none, unless it is advice; deeper inside it is left out.  Takes any JSON, and
/// any schema; what it cannot show as a table cell is written out.
[[nodiscard]] Sheet generic_sheet(Text title, const json::value& result,
                                  const json::object& result_schema);

/// The same, with the first sentence of the method's doc as title: "Records a purchase as a new
/// lot".  If that is longer than 60 characters, with the method's name in words: "Lot list".
[[nodiscard]] Sheet generic_sheet(const Description& method, const json::value& result);

} // namespace barmkeep::sheet
