// Checking a value against a schema, where no C++ type stands behind it.
#pragma once

#include "sdk/method/parse_context.hpp"

namespace barmkeep {

/// Notes every fault of `value` with its place, in the words that reading a described struct would
/// use.  Of JSON Schema, draft 07, it knows what descriptions are made of: type, enum, properties,
/// required, additionalProperties, items, minimum, maximum, exclusiveMinimum, exclusiveMaximum,
/// minLength, maxLength, minItems, maxItems.  A text for which `x-unit`, `x-kind` or `format` name
/// something that the house can read (a volume, a sum of money, a date) is read as such, and the
/// bounds hold for what it means.  Other words, and those of a wrong form, are passed over.  As
/// everywhere in the house, a member that is null and not required counts as left out.
void check_schema(const json::value& value, const json::object& schema, ParseContext& reading);

} // namespace barmkeep
