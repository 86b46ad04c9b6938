// One value as a person reads it: in their units, with the cellar's currency.
#pragma once

#include "daemon/client/schema.hpp"
#include "daemon/client/style.hpp"

namespace barmkeep::barm {

/// A quantity by its x-unit, an amount or money by its x-kind, a date, a yes or no, a range, a
/// list in one line.  An object or a list of objects is shown as compact JSON, or by its count.
[[nodiscard]] std::string value_text(const json::value& value, const json::object& schema,
                                     const Style& style);
/// Whether such values stand to the right in a column.
[[nodiscard]] bool is_numeric(const json::object& schema);
/// "reserved" for "reserved".
[[nodiscard]] std::string label_of(std::string_view field);

} // namespace barmkeep::barm
