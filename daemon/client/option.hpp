// The options of a command, made from the schema of its params.
//
// Nothing here is written twice: a field of a method's params becomes `--field`, its doc the
// help, its rules the check.  A field of an object within the params is reached by its own name
// where that is unambiguous in the command (`--gravity`), and always by its whole path
// (`--facts-gravity`).  A general option parser of the shelf was not taken: such parsers want
// their options in code, and barm learns its commands from the daemon that it talks to.
#pragma once

#include "daemon/client/schema.hpp"
#include "sdk/method/error.hpp"

#include <functional>

namespace barmkeep::barm {

struct Option {
    std::string name;              ///< without dashes before it: "best-by"
    std::string whole_name;        ///< "facts-gravity"; the same as `name` at the top
    std::vector<std::string> path; ///< where its value goes in the params
    json::object schema;
    std::string doc;
    Shape shape = Shape::json;
    bool is_required = false;
    bool is_positional = false;
    bool is_variadic = false;

    [[nodiscard]] bool takes_value() const { return shape != Shape::flag; }
    [[nodiscard]] bool repeats() const {
        return shape == Shape::texts || shape == Shape::records || shape == Shape::members;
    }
    /// A JSON Pointer to its value.
    [[nodiscard]] std::string pointer() const;
};

/// "best-by" for "best_by": how a field, or a verb, is written on the command line.
[[nodiscard]] std::string dashed(std::string_view name);
/// The options of an object schema, in its order.
[[nodiscard]] std::vector<Option> options_of(const json::object& params_schema);
/// The option with this name (dashes, without the leading two), or null.
[[nodiscard]] const Option* find_option(const std::vector<Option>& options, std::string_view name);

/// Sets a member deep in `params`, making the objects on the way.
void set_at(json::object& params, const std::vector<std::string>& path, json::value value);
/// The member, or null.
[[nodiscard]] json::value* find_at(json::object& params, const std::vector<std::string>& path);

} // namespace barmkeep::barm
