// JSON as the house reads and writes it: one compact text, exact numbers, no surprises.
//
// Boost.JSON holds the values.  Its own text functions are not used on the wire: 1.81 reads 1e999
// as infinity (and would print `Infinity`, which is no JSON), and prints 12.5 as `1.25E1`.
#pragma once

#include <boost/json.hpp>

#include <string>
#include <string_view>

namespace barmkeep {

namespace json = boost::json;

/// How deep arrays and objects may nest in a text that comes from outside.
inline constexpr std::size_t json_depth_max = 32;

/// Reads one JSON text.  Throws std::invalid_argument, with the byte where it broke off, for
/// anything that is not JSON, is nested deeper than json_depth_max, or holds a number too large
/// for a double.  Of a member named twice, the last wins.
[[nodiscard]] json::value parse_json(std::string_view text);

/// Writes compact JSON in one line.  Doubles are the shortest text that reads back to the same
/// double.  REQUIRES: no NaN or infinity inside.
[[nodiscard]] std::string write_json(const json::value& value);

/// Whether no NaN or infinity is inside: what write_json wants.
[[nodiscard]] bool all_finite(const json::value& value);

} // namespace barmkeep
