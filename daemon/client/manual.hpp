// The reference, generated from the daemon's description of itself.
#pragma once

#include "daemon/client/catalogue.hpp"

#include <string>

namespace barmkeep::barm {

/// All methods in Markdown: docs/methods.md is this text.
[[nodiscard]] std::string methods_markdown(const Catalogue& catalogue);
/// The man page of barm with every command, in troff's man macros.
[[nodiscard]] std::string man_page(const Catalogue& catalogue, const std::string& version);

} // namespace barmkeep::barm
