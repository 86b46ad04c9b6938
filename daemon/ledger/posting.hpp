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
    std::optional<std::string> memo;
    std::optional<std::int64_t> brew;
    std::optional<std::int64_t> corrects;
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

    /// Gives back stock set aside that is there no more, tells of the entry, and answers it.
    contract::Posted finish();

private:
    Transaction& transaction_;
    contract::EntryKind kind_;
    std::int64_t sequence_ = 0;
    std::int64_t position_ = 0;
};

/// The lines of an entry, in order.
[[nodiscard]] std::vector<contract::Line> lines_of(const View& view, std::int64_t sequence);

} // namespace barmkeep::ledger
