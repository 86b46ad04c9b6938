// What is said whenever a jar of canned wort is opened.
#pragma once

#include <string>
#include <vector>

namespace barmkeep::starter {

/// Sentences in the order of doing.  Sources: docs/starter.md.
[[nodiscard]] std::vector<std::string> cautions();

} // namespace barmkeep::starter
