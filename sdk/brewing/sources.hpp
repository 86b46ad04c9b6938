// The sources of the science: what stands behind each key that an estimate, a reason or a warning
// carries.
//
// Two kinds of key exist.  A source is a publication; its full citation is in docs/science.md, and
// there alone.  A statement is one figure of such a source, which plans and reasons name.
// Descriptions are neutral: kind and year, no names.  The keys of safety texts are in
// sdk/contract/safety_sources.hpp.
//
// Thread safety: constants; pure functions.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace barmkeep::brewing {

/// One publication.
struct Source {
    std::string_view key;
    std::string_view what;     ///< kind and year
    std::string_view used_for; ///< which figures rest on it
};

/// All publications, by key.
[[nodiscard]] std::span<const Source> sources() noexcept;

/// One figure of a publication.
struct Statement {
    std::string key;
    std::string what;
    std::string used_for;
    std::string source; ///< keys of its publications, separated by spaces
};

/// All statements, by key.
[[nodiscard]] std::vector<Statement> statements();

} // namespace barmkeep::brewing
