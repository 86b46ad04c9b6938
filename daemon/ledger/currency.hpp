// Which currencies there are.
#pragma once

#include <string_view>

namespace barmkeep::ledger {

/// The text of data/currency.csv.
[[nodiscard]] std::string_view currency_table();
/// Whether a three-letter code is one of ISO 4217's.
[[nodiscard]] bool is_currency(std::string_view code);

} // namespace barmkeep::ledger
