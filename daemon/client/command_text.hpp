// The command for a call, as a person would type it.
//
//     command_text(catalogue, "starter.make", {{"brew", 12}}, {}) == "barm starter make 12"
#pragma once

#include "daemon/client/catalogue.hpp"

namespace barmkeep::barm {

/// `ask` names the params that the person still has to give; they stand as in the usage line.  A
/// method that the catalogue does not have is written with its params: "starter.make brew=12".
[[nodiscard]] std::string command_text(const Catalogue& catalogue, std::string_view method,
                                       const json::object& params,
                                       const std::vector<std::string>& ask);

/// A word as a shell takes it: in quotes where it needs them.
[[nodiscard]] std::string shell_word(std::string_view word);

} // namespace barmkeep::barm
