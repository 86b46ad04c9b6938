// A figure that published sources or ordinary practice give only as a range.
//
// Thread safety: a value; nothing here allocates or throws.
#pragma once

#include <string_view>

namespace barmkeep::brewing {

/// What is likely, and the range the sources span around it: low <= likely <= high.
///
/// `sources` names the source keys (docs/science.md resolves them), separated by spaces; it must
/// point at text that lives as long as the program, such as a string literal.
template <class T>
struct Estimate {
    T low{};
    T likely{};
    T high{};
    std::string_view sources;
};

} // namespace barmkeep::brewing
