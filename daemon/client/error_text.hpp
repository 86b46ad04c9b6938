// An error as a person or a script reads it: what, why, what next.
#pragma once

#include "daemon/client/catalogue.hpp"
#include "daemon/client/option.hpp"
#include "daemon/client/style.hpp"

namespace barmkeep::barm {

/// "barm: stock buy: --paid: -3 is out of range; it must be at least 0." and its hint, for every
/// fault.  `command` may be empty; `options` are the command's, to name the one at fault.  Methods
/// of the catalogue, if there is one, are shown as commands.
[[nodiscard]] std::string error_text(const Error& error, std::string_view command,
                                     const std::vector<Option>& options, const Catalogue* catalogue,
                                     const Style& style);
/// The same error as one line of JSON: `{"error": {...}}` with the members of JSON-RPC's.
[[nodiscard]] std::string error_json(const Error& error);

/// The text with `barm stock recount` in place of each `stock.recount`.
[[nodiscard]] std::string with_commands(std::string text, const Catalogue& catalogue);

/// "--inputs[0].amount" for "/inputs/0/amount"; empty for an empty pointer.
[[nodiscard]] std::string option_at(std::string_view pointer, const std::vector<Option>& options);

} // namespace barmkeep::barm
