// Turning stock into other stock.
#pragma once

#include "daemon/ledger/view.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// One entry: the inputs out, the outputs in as new lots.  The value of what went in is shared out
/// over the outputs to the last millionth; pieces lost on the way carry none of it.
[[nodiscard]] contract::StockConvert::Result convert(Transaction& transaction, const Call& call,
                                                     const contract::StockConvert::Params& params);

/// Shares a value out by weights that need not sum to anything; the shares sum to the value.
/// Throws Error(params) at "/outputs" if no weight is above zero.
[[nodiscard]] std::vector<Money> shares(Money value, const std::vector<double>& weights);

} // namespace barmkeep::ledger
