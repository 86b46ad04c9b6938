// Text for man pages.
#pragma once

#include <string>
#include <string_view>

namespace barmkeep::client {

/// The text with nothing in it that troff would take for a request or an escape.
[[nodiscard]] std::string troff(std::string_view text);
/// A term in bold and what it means, as one item of a list.
[[nodiscard]] std::string man_item(std::string_view term, std::string_view meaning);

} // namespace barmkeep::client
