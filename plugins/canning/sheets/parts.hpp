// Parts that several sheets of the plugin share.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/canning/sheets/sheets.hpp"

namespace barmkeep::canning::sheets {

/// "9 pint jars", whatever the brewer called the size.
[[nodiscard]] sheet::Count jars_of(std::int64_t number, std::string_view size);
/// "9 jars" of an amount that counts jars.
[[nodiscard]] sheet::Count jars_in(const Amount& pieces);
/// "at pressure": a phase in words.
[[nodiscard]] std::string_view words_of(Phase phase);
/// "weight on": a step in words.
[[nodiscard]] std::string_view words_of(Step step);
/// "mould": a sign of spoilage in words.
[[nodiscard]] std::string_view words_of(Sign sign);
/// "J10N, J16B": codes one after the other.
[[nodiscard]] Text codes(const std::vector<LotCode>& lots);
/// A pressure to be reached, rounded up: who reads it off and reaches it has reached the target.
[[nodiscard]] brewing::GaugePressure to_reach(brewing::GaugePressure pressure);

/// The weighing card: what goes into which jars.
[[nodiscard]] sheet::Table card_table(const std::vector<CardLine>& card);

/// The holds of a lot, each with its note; empty without any.
[[nodiscard]] Text holds_of(const contract::Lot& lot);
/// Why jars of a lot do not stand on the shelf: its holds, each with its note, and where it is kept
/// and until when.  Empty for a lot that may be taken.
[[nodiscard]] Text why_not(const contract::Lot& lot);
/// Adds a warning for each that speaks of a lot's past: a short process, holds that were released.
void add_past(SheetBuilder& made, const contract::Lot& lot);
/// One row a lot: jars, best by, and why it may not be used.
[[nodiscard]] sheet::Table lots_table(const std::vector<contract::Lot>& lots);
/// Adds the caution about the brewer's process wherever its jars are shown.
void add_process_note(SheetBuilder& made, const std::optional<std::string>& note);
/// Adds each of a result's sentences about this case as a warning.
void add_warnings(SheetBuilder& made, std::string_view key,
                  const std::vector<std::string>& warnings);

/// Adds the caution of a key from all there are, in full, if the answer did not carry it.
void add_here(SheetBuilder& made, const std::vector<Caution>& all,
              std::initializer_list<std::string_view> keys);

} // namespace barmkeep::canning::sheets
