// An error as a person or a script reads it: what, why, what next.
#pragma once

#include "daemon/client/option.hpp"
#include "daemon/client/style.hpp"

namespace barmkeep::barm {

/// "barm: stock buy: --paid: -3 is out of range; it must be at least 0." and its hint, for every
/// fault.  `command` may be empty; `options` are the command's, to name the one at fault.
[[nodiscard]] std::string complaint_text(const Error& error, std::string_view command,
                                         const std::vector<Option>& options, const Style& style);
/// The same error as one line of JSON: `{"error": {...}}` with the members of JSON-RPC's.
[[nodiscard]] std::string complaint_json(const Error& error);

/// "--inputs[0].amount" for "/inputs/0/amount"; empty for an empty pointer.
[[nodiscard]] std::string option_at(std::string_view pointer, const std::vector<Option>& options);

} // namespace barmkeep::barm
