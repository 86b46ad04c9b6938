// Following lots through the journal, both ways.
//
// A conversion ties what went in to what came out; the journal alone shows it, so tracing needs no
// register of its own that could be wrong.
//
// Thread safety: pure functions over the functions handed in.
#pragma once

#include "plugins/canning/trace/messages.hpp"

#include <functional>

namespace barmkeep::canning {

/// Where the tracer reads.
struct Journal {
    std::function<contract::Lot(const LotCode&)> lot;
    std::function<std::vector<contract::Entry>(const LotCode&)> entries;
};

/// What is met from one lot, before runs and brews are looked up.
struct LotTrace {
    std::vector<TracedLot> lots; ///< from the first bag to the last jar
    std::vector<TracedUse> uses; ///< of the lot and of what was made of it, oldest first
    std::vector<std::int64_t> runs;
    std::vector<std::int64_t> brews;
};

/// Follows a lot back to all it was made of, and on to all that was made of it. Entries that were
/// undone, and those that undo, do not count. A lot that is reached by two ways is there once, as
/// far away as the longer way.
[[nodiscard]] LotTrace trace_of(const LotCode& lot, const Journal& journal);

/// Puts two trails together, each lot, use, run and brew once.
void merge(LotTrace& into, LotTrace from);

} // namespace barmkeep::canning
