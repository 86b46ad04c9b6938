// The published sources that this plugin's words rest on, by the keys of docs/safety.md.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace barmkeep::canning {

struct Source {
    std::string_view key;
    std::string_view title;
};

[[nodiscard]] std::span<const Source> sources() noexcept;

/// Resolves keys separated by blanks: "S14 S15" becomes both titles, each followed by its key in
/// brackets.  Words that are no key ("house rule") stay as they are.
[[nodiscard]] std::string resolved(std::string_view keys);

} // namespace barmkeep::canning
