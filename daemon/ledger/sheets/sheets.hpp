// The sheets of the ledger's methods: what a person reads of their answers.
//
// Each is a pure function of what was asked and answered; sheets.cpp lists which method has which.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/cellar.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::ledger::sheets {

// Parts that several sheets share (parts.cpp).

/// An amount with the noun of its category: "7 jars", "2 packs", "500 g".
[[nodiscard]] sheet::Run amount_of(contract::Category category, const Amount& amount);
/// What stands where a lot may not be used, one line each: "J17D: 2 jars did not seal".
[[nodiscard]] std::vector<sheet::Text> not_to_use(const std::vector<contract::Shelf>& shelves,
                                                  std::optional<Date> today);
/// One row for each good with something on hand: what is available, what to take first.
[[nodiscard]] sheet::Table shelf_table(const std::vector<contract::Shelf>& shelves);
/// "Dunkel, 20 L at 1.052": a beer in a few words.
[[nodiscard]] sheet::Text beer(const contract::Brew& brew);
/// Lot by lot, what an entry changed.
[[nodiscard]] sheet::Table changes_table(const std::vector<contract::Line>& lines);

// stock.cpp
[[nodiscard]] sheet::Sheet stock(const contract::StockList::Params&,
                                 const contract::StockList::Result&);
// cellar.cpp
[[nodiscard]] sheet::Sheet glance(const Nothing&, const contract::Glance&);

} // namespace barmkeep::ledger::sheets
