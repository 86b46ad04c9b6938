#include "daemon/ledger/brews.hpp"
#include "daemon/ledger/conversion.hpp"
#include "daemon/ledger/error_collector.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/needs.hpp"
#include "daemon/ledger/posting.hpp"
#include "daemon/ledger/reservations.hpp"
#include "daemon/ledger/shelf.hpp"
#include "daemon/ledger/taking.hpp"

namespace barmkeep::ledger {
namespace {

using contract::EntryKind;

/// Jars of which nobody has shown how they were canned are no stock until somebody does.
void hold_unknown(Transaction& transaction, const Call& call, std::int64_t lot,
                  const std::string& how) {
    set_hold(transaction, call, lot, {contract::HoldKind::process_unknown, how}, {});
}

/// The lot for jars that a recount has found: no re-booking makes stock of them.
std::int64_t found_jars(Transaction& transaction, const Call& call, const LotRow& beside,
                        std::int64_t origin) {
    const auto lot = make_lot(transaction, require_good(transaction, beside.lot.good, "/lot"),
                              {{}, {}, beside.own_facts}, origin);
    hold_unknown(transaction, call, lot, "found by a recount of lot " + to_text(beside.lot.code));
    return lot;
}

contract::StockBuy::Result buy(Transaction& transaction, const Call& call,
                               const contract::StockBuy::Params& params) {
    ErrorCollector faults;
    const auto good =
        faults.gather([&] { return require_good(transaction, params.good, "/good"); });
    std::optional<Amount> amount;
    if (good) // it says how it is measured
        amount =
            faults.gather([&] { return positive(params.amount, good->good.measure, "/amount"); });
    faults.gather([&] { check_money(params.paid, "/paid"); });
    const auto day = faults.gather([&] { return day_or_today(transaction, params.day, "/day"); });
    faults.gather([&] { check_past(transaction, params.packed, "/packed", "packed"); });
    const LotDates dates{day, params.packed, std::nullopt, params.best_by};
    faults.gather([&] { check_dates(dates, "/best_by"); });
    faults.throw_any();

    Posting posting{transaction, call, {EntryKind::bought, *day, params.note, {}, {}}};
    const auto lot =
        make_lot(transaction, *good, {dates, params.supplier, to_json(params.facts).as_object()},
                 posting.sequence());
    if (good->good.category == contract::Category::concentrate)
        hold_unknown(transaction, call, lot, "bought or given");
    posting.change(lot, amount->steps, params.paid);
    posting.finish();
    return {posting.sequence(), lot_numbered(transaction, lot).lot};
}

contract::Posted use(Transaction& transaction, const Call& call,
                     const contract::StockUse::Params& params) {
    const Named named = require_named(transaction, params.what, "/what");
    const Amount amount = positive(params.amount, named.good.good.measure, "/amount");
    const Date day = day_or_today(transaction, params.day, "/day");
    if (params.brew)
        require_not_cancelled(transaction, *params.brew, "/brew");
    check_own_links(transaction, call, params.about, "/about");
    const auto parts =
        choose(transaction, named, {amount, params.brew, day, params.boiled}, "/amount");

    Posting posting{
        transaction, call, {EntryKind::used, day, params.note, params.brew, {}, params.about}};
    bool brew_changed = false;
    for (const auto& part : parts) {
        if (part.from_reserved > 0) {
            give_back(transaction, *params.brew, part.lot, part.from_reserved);
            brew_changed = true;
        }
        posting.take(part.lot, part.steps);
        posting.sweep(part.lot, {part.swept, amount.measure});
    }
    if (params.brew)
        lessen_need(transaction, *params.brew, named.good.number, amount.steps);
    if (brew_changed)
        send_brew_changed(transaction, *params.brew);
    return posting.finish();
}

contract::Posted discard(Transaction& transaction, const Call& call,
                         const contract::StockDiscard::Params& params) {
    const LotRow known = require_lot(transaction, params.lot, "/lot");
    const Amount amount =
        params.amount ? positive(*params.amount, known.measure, "/amount") : known.lot.on_hand;
    check_own_links(transaction, call, params.about, "/about");
    if (amount.steps > known.steps_on_hand() || known.steps_on_hand() == 0)
        throw not_enough(transaction, "lot " + to_text(params.lot), {known}, amount, "/amount");
    Posting posting{
        transaction,
        call,
        {EntryKind::discarded, transaction.today(), params.reason, {}, {}, params.about}};
    posting.take(known.number(), amount.steps);
    return posting.finish();
}

/// What is found missing takes its share of the value with it.  What is found beyond the books has
/// no cost of its own: the lot's value stays, and each piece of it is worth a little less.
contract::Posted recount(Transaction& transaction, const Call& call,
                         const contract::StockRecount::Params& params) {
    const LotRow known = require_lot(transaction, params.lot, "/lot");
    const Amount counted = not_negative(params.amount, known.measure, "/amount");
    Posting posting{
        transaction, call, {EntryKind::recounted, transaction.today(), params.reason, {}, {}}};
    const std::int64_t more = counted.steps - known.steps_on_hand();
    if (more < 0)
        posting.take(known.number(), -more);
    else if (known.lot.category != contract::Category::concentrate || more == 0)
        posting.change(known.number(), more, Money{});
    else
        posting.change(found_jars(transaction, call, known, posting.sequence()), more, Money{});
    return posting.finish();
}

} // namespace

void add_stock(Methods& methods) {
    methods.writes<contract::StockBuy>(&buy);
    methods.writes<contract::StockUse>(&use);
    methods.writes<contract::StockDiscard>(&discard);
    methods.writes<contract::StockRecount>(&recount);
    methods.writes<contract::StockConvert>(&convert);
    methods.reads<contract::StockList>(&list_stock);
}

} // namespace barmkeep::ledger
