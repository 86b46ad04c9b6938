// Lots: everything in the cellar is held by lot.
#pragma once

#include "daemon/ledger/goods.hpp"
#include "daemon/ledger/holds.hpp"
#include "daemon/ledger/limits.hpp"
#include "sdk/contract/shelf.hpp"

namespace barmkeep::ledger {

struct LotRow {
    std::int64_t good_number = 0;
    Measure measure = Measure::pieces;
    json::object own_facts; ///< the lot's alone, as stored; `lot.facts` has the good's under them
    contract::Lot lot;

    [[nodiscard]] std::int64_t number() const { return lot.code.number(); }
    [[nodiscard]] std::int64_t steps_on_hand() const { return lot.on_hand.steps; }
    /// Not reserved; what a hold forbids is counted too.
    [[nodiscard]] std::int64_t steps_unreserved() const {
        return lot.on_hand.steps - lot.reserved.steps;
    }
};

/// By number.  REQUIRES: there is one.
[[nodiscard]] LotRow lot_numbered(const View& view, std::int64_t number);
/// By code; nothing if there is none of that number and letter.
[[nodiscard]] std::optional<LotRow> find_lot(const View& view, const LotCode& code);
/// By code, or Error(not_found, "lot_unknown").
[[nodiscard]] LotRow require_lot(const View& view, const LotCode& code, std::string_view pointer);

/// The lots of a good with something on hand, in the order in which they are taken
/// (contract::is_taken_before).
[[nodiscard]] std::vector<LotRow> lots_of_good(const View& view, std::int64_t good_number,
                                               bool also_empty = false);
/// The same for all goods at once, ordered by the good's name first.
[[nodiscard]] std::vector<LotRow> lots_of_all(const View& view, bool also_empty);

/// What a new lot begins with; its balance is zero until a line is posted.
struct NewLot {
    LotDates dates;
    std::optional<std::string> supplier;
    json::object facts;
    contract::Keeping kept = contract::Keeping::shelf;
    contract::Links about{};
};
/// Answers the lot's number.
std::int64_t make_lot(Transaction& transaction, const GoodRow& good, const NewLot& lot,
                      std::int64_t origin);

/// What `what` names: a lot if it is the code of one, else a good.
struct Named {
    std::optional<LotRow> lot;
    GoodRow good; ///< the lot's good, or the one named
};
[[nodiscard]] Named require_named(const View& view, const std::string& what,
                                  std::string_view pointer);

} // namespace barmkeep::ledger
