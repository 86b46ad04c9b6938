// Runs in the cellar's records: the collection "run", with a number from the core, a state word
// and a log.
#pragma once

#include "plugins/canning/context.hpp"
#include "plugins/canning/run/log.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/batch.hpp"

namespace barmkeep::canning {

using plugin::Batch;

inline constexpr std::string_view run_collection = "run";
/// What links of entries, lots, holds and reminders to a run lead to.
inline constexpr std::string_view run_link = "canning.run";

// The state words of a run's record.
inline constexpr std::string_view state_open = "open";
inline constexpr std::string_view state_shelved = "shelved";
inline constexpr std::string_view state_abandoned = "abandoned";

/// A run with the version of its record, so that two who write at once do not undo each other.
struct RunRecord : Run {
    std::int64_t version = 0;
    Instant changed;
};

/// Throws Error(not_found, "unknown_run").
[[nodiscard]] RunRecord load_run(const plugin::Requester& core, std::int64_t number);
/// The run as it was when a change had been made: with so many lines. A repeated request is
/// answered from this, and so as it was the first time.
[[nodiscard]] RunRecord run_after(const plugin::Requester& core,
                                  const contract::RecordChanged& change);

/// The params that append a line, if the run is still as it was read.
[[nodiscard]] contract::RecordAppend::Params append(const RunRecord& run, const LogLine& line,
                                                    std::optional<std::string_view> state = {});

[[nodiscard]] contract::Links about_run(std::int64_t number);
/// The number of the run that a lot or an entry comes from.
[[nodiscard]] std::optional<std::int64_t> run_of(const contract::Links& about);
/// The lots of a run that are not empty.
[[nodiscard]] std::vector<contract::Lot> jars_of(const plugin::Requester& core, std::int64_t run);
/// The entries of a run that stand, newest first: not undone, and none that undoes another.
[[nodiscard]] std::vector<contract::Entry> entries_of(const plugin::Requester& core,
                                                      std::int64_t run);

/// Why a reminder of a run is there.
inline constexpr std::string_view cause_seals = "seals";
inline constexpr std::string_view cause_inspection = "inspection";
inline constexpr std::string_view cause_refrigerator = "refrigerator";
[[nodiscard]] contract::ReminderPost::Params
reminder(std::int64_t run, std::string_view cause, std::string title, std::string detail, Date due);
/// Its reminders with a cause; with none, all of them.
[[nodiscard]] contract::ReminderClear::Params
clear_reminders(std::int64_t run, std::optional<std::string_view> cause = {});

/// Who logs a line of this call, and when.
[[nodiscard]] Logging logging(const Context& context, const Call& call,
                              const std::optional<Instant>& at = {});

} // namespace barmkeep::canning
