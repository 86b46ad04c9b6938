// What is said whenever a jar of canned wort is opened.
#pragma once

#include <string>
#include <vector>

namespace barmkeep::starter {

/// Sentences, each with its sources in brackets at its end: those of sdk/contract/safety.hpp, which
/// the plugin canning shows too.
[[nodiscard]] std::vector<std::string> cautions();

} // namespace barmkeep::starter
