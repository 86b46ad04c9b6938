// The shelf: what there is, by good and lot.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

[[nodiscard]] contract::StockList::Result list_stock(const View& view, const Call& call,
                                                     const contract::StockList::Params& params);

} // namespace barmkeep::ledger
