// What is said whenever a jar of canned wort is opened.
#pragma once

#include <string>
#include <vector>

namespace barmkeep::starter {

/// Sentences in the order of doing, each with its sources in brackets at its end: keys of
/// docs/safety.md, or that it has none.
///
/// The plugin canning has cautions of its own (plugins/canning/cautions.hpp).  Either plugin may
/// run without the other, so both say what belongs to opening a jar, from the same sources; who
/// changes one changes the other.
[[nodiscard]] std::vector<std::string> cautions();

} // namespace barmkeep::starter
