// A method's result as text, from its schema alone: a plugin's results look like the core's.
#pragma once

#include "daemon/client/value_text.hpp"

namespace barmkeep::barm {

struct Rendered {
    std::string out;   ///< for stdout
    std::string notes; ///< for stderr: that there is nothing, or more
};

/// A list of objects becomes a table, an object labelled lines, its lists tables under a heading.
[[nodiscard]] Rendered render(const json::value& result, const json::object& schema,
                              const Style& style);

} // namespace barmkeep::barm
