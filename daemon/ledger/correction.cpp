#include "daemon/ledger/correction.hpp"

#include "daemon/ledger/posting.hpp"

namespace barmkeep::ledger {

contract::Posted correct(Transaction& transaction, const Call& call,
                         const contract::EntryCorrect::Params& params) {
    const contract::Entry entry = require_entry(transaction, params.sequence, "/sequence");
    if (entry.corrected_by)
        throw Error(ErrorKind::conflict, "already_corrected",
                    "Entry " + std::to_string(entry.sequence) + " was undone by entry " +
                        std::to_string(*entry.corrected_by) + ".",
                    "Nothing is left to undo.", "/sequence");
    if (entry.corrects)
        throw Error(ErrorKind::conflict, "is_correction",
                    "Entry " + std::to_string(entry.sequence) + " itself undoes entry " +
                        std::to_string(*entry.corrects) + ".",
                    "Record again what happened instead of undoing the undoing.", "/sequence");
    Posting posting{transaction,
                    call,
                    {contract::EntryKind::corrected, transaction.today(), params.reason, entry.brew,
                     entry.sequence}};
    // From the last line to the first: an entry that took one lot in two lines gives back the way
    // it came.
    for (auto line = entry.lines.rbegin(); line != entry.lines.rend(); ++line)
        posting.change(line->lot.number(), -line->quantity.steps, -line->value);
    return posting.finish();
}

} // namespace barmkeep::ledger
