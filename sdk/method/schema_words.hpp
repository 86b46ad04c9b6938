// Questions asked of a JSON object that describes something: a schema, a notice, a fault.
#pragma once

#include "sdk/method/json.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace barmkeep {

/// A member that is a text ("x-unit", "format"); empty if there is none.
[[nodiscard]] std::string text_of(const json::object& object, std::string_view member);
[[nodiscard]] std::optional<double> number_of(const json::object& object, std::string_view member);
/// The object in a member ("items", "properties"); an empty one if there is none.
[[nodiscard]] const json::object& schema_at(const json::object& schema, std::string_view member);
/// Whether an object schema demands this member.
[[nodiscard]] bool is_required(const json::object& schema, std::string_view property);

} // namespace barmkeep
