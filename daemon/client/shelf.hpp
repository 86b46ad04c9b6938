// The shelf as tables: by good, and by lot.  Where a terminal is too narrow, the columns that can
// be missed most easily go first.
#pragma once

#include "daemon/client/style.hpp"
#include "sdk/contract/cellar.hpp"

namespace barmkeep::barm {

[[nodiscard]] std::string amount_text(const Amount& amount, const Style& style);
[[nodiscard]] std::string money_text(Money money, const Style& style);

/// A row for each good.
[[nodiscard]] std::string goods_table(const std::vector<contract::Shelf>& shelves,
                                      const Style& style, std::size_t indent);
/// What `barm stock list` prints: the goods, their lots, what all of it cost.  Empty for an empty
/// shelf.
[[nodiscard]] std::string shelf_text(const contract::StockList::Result& shelf, const Style& style);

} // namespace barmkeep::barm
