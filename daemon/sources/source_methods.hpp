// The methods that resolve the keys of sources: source.show and source.list.
//
// They read two constant tables, that of the science and that of the safety texts, and nothing
// else.
#pragma once

#include "sdk/contract/source.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::sources {

/// Every source and statement of both tables, by key: letters first, then the number.
[[nodiscard]] std::vector<contract::Source> all_sources();

/// The one with that key.  Throws Error(not_found, "no_such_source") with the nearest key as hint.
[[nodiscard]] contract::Source source_with(const std::string& key);

/// Adds both methods.
void add_source_methods(MethodTable& table);

} // namespace barmkeep::sources
