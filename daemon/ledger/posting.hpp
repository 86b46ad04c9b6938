// The journal's pen: the only place that writes entries, lines and losses and changes balances.
#pragma once

#include "daemon/ledger/lots.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/method/call.hpp"

namespace barmkeep::ledger {

/// What is said of an entry as a whole.
struct EntryHead {
    contract::EntryKind kind = contract::EntryKind::used;
    Date day;
    std::optional<std::string> note;
    std::optional<std::int64_t> brew;
    std::optional<std::int64_t> undoes;
    contract::Links about{}; ///< checked
};

/// One entry being written: begun, given its lines, finished.
///
/// A lot's value is shared out by amount: taking a part takes its part of the value, rounded to the
/// millionth, and taking the last of it takes all that is left.
class Posting {
public:
    Posting(Transaction& transaction, const Call& call, const EntryHead& head);

    [[nodiscard]] std::int64_t sequence() const noexcept { return sequence_; }

    /// Takes so many steps out of a lot; answers the value that goes with them.
    /// REQUIRES: 0 <= steps <= on hand.
    Money take(std::int64_t lot, std::int64_t steps);
    /// Posts one line.  Throws Error(conflict, "below_zero") if it would leave less than nothing,
    /// or a value without anything that has it.
    void change(std::int64_t lot, std::int64_t steps, Money value);

    /// Notes pieces that were made and lost, and the value that they would have carried.
    void lose(std::int64_t pieces, Money value);

    /// Notes what a weighing took beyond what was asked.
    void sweep(std::int64_t lot, const Amount& amount);

    /// Gives back stock reserved that is there no more, sets new stock aside for the brew days
    /// that need it, closes the entry with its digest, posts its event, and answers it.
    contract::Posted finish();

private:
    Transaction& transaction_;
    EntryHead head_;
    std::int64_t sequence_ = 0;
    std::int64_t position_ = 0;
    std::vector<contract::Swept> swept_;
};

/// The lines of an entry, in order.
[[nodiscard]] std::vector<contract::Line> lines_of(const View& view, std::int64_t sequence);
/// Those of many entries at once.
[[nodiscard]] std::map<std::int64_t, std::vector<contract::Line>>
lines_of(const View& view, const std::vector<std::int64_t>& sequences);

/// Makes a part of a lot a lot of its own, which has all that the other has.  Answers the new one.
/// REQUIRES: 0 < steps < on hand.
[[nodiscard]] LotRow split_lot(Transaction& transaction, const Call& call, const LotRow& known,
                               std::int64_t steps, const std::string& why);

} // namespace barmkeep::ledger
