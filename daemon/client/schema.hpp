// Questions asked of a JSON Schema, draft 07, of the kind our methods are described with.
#pragma once

#include "sdk/method/schema_words.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::barm {

/// What a value of the schema looks like on a command line or in a table.
enum class Shape {
    text,
    number,
    integer,
    flag,
    record,  ///< an object with known members
    members, ///< an object with any names and values of one kind
    texts,   ///< a list of plain values
    records, ///< a list of objects with known members
    json,    ///< anything else
};
[[nodiscard]] Shape shape_of(const json::object& schema);

/// Whether the schema's type is, or may be, this one.
[[nodiscard]] bool has_type(const json::object& schema, std::string_view type);
[[nodiscard]] bool is_true(const json::object& schema, std::string_view member);
[[nodiscard]] const json::object& properties_of(const json::object& schema);
/// The words of an enumeration; none if it is none.
[[nodiscard]] std::vector<std::string> enum_words(const json::object& schema);
/// "likely 4 (3 to 5)": whether the schema is a figure known as a range.
[[nodiscard]] bool is_range(const json::object& schema);

/// One phrase that says what to write or what comes: "a date", "number in L, or text with a
/// unit", "one of dial, weighted".
[[nodiscard]] std::string kind_phrase(const json::object& schema);
/// Bounds, default and example in one phrase; may be empty: "1 to 500; default 100".
[[nodiscard]] std::string rules_phrase(const json::object& schema);

} // namespace barmkeep::barm
