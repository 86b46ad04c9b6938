// Runs and processes as they are kept in the cellar's records.
#pragma once

#include "plugins/canning/plan.hpp"
#include "plugins/canning/run_state.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/record.hpp"
#include "sdk/plugin/host.hpp"

namespace barmkeep::canning {

inline constexpr std::string_view canning_owner = "canning";

/// A run with the version of its record, so that two who write at once do not undo each other.
struct KeptRun {
    RunDocument document;
    std::int64_t version = 0;
};

/// A process as it is kept: with what was known of its pressure when it was recorded.
struct KeptProcess {
    Process process;
    AtAltitude at_altitude;
    static FieldList fields(auto) {
        return {field<&KeptProcess::process>("The process."),
                          field<&KeptProcess::at_altitude>("What was known of its pressure.")};
    }
};

/// Throws Error(not_found, "unknown_run").
[[nodiscard]] KeptRun kept_run(const plugin::Requester& core, std::int64_t run);
/// Runs that are neither shelved nor abandoned, oldest first.
[[nodiscard]] std::vector<KeptRun> open_runs(const plugin::Requester& core, const Rules& rules);
/// A page of runs, newest first, and the cursor of the next one.
struct RunPage {
    std::vector<KeptRun> runs;
    std::optional<std::string> next;
};
/// Throws Error(params, "bad_cursor").
[[nodiscard]] RunPage page_of_runs(const plugin::Requester& core, const Rules& rules,
                                   const RunList::Params& params);
[[nodiscard]] contract::RecordPut::Params put_run(const KeptRun& run);
/// The document in the answer of a put.
[[nodiscard]] RunDocument document_of(const contract::Record& record);

/// The number of the next run, and the record that takes it.
struct NextRun {
    std::int64_t run = 0;
    contract::RecordPut::Params counter;
};
/// `open` are the runs open now.
[[nodiscard]] NextRun next_run(const plugin::Requester& core, std::span<const KeptRun> open);

/// Throws Error(not_found, "unknown_process").
[[nodiscard]] KeptProcess kept_process(const plugin::Requester& core, std::string_view name);
[[nodiscard]] std::vector<KeptProcess> all_processes(const plugin::Requester& core);

/// What there is, less what the open runs hold.
[[nodiscard]] Pantry pantry(const plugin::Requester& core, std::span<const KeptRun> open);

/// One of the plugin's own records, if there is one of that name.
[[nodiscard]] std::optional<contract::Record>
found_record(const plugin::Requester& core, std::string_view collection, std::string_view name);
/// All records of a collection, by name.
[[nodiscard]] std::vector<contract::Record> all_records(const plugin::Requester& core,
                                                        std::string_view collection);
/// All entries that touch a lot or belong to a brew day, newest first.
[[nodiscard]] std::vector<contract::Entry> all_entries(const plugin::Requester& core,
                                                       contract::EntryList::Params params);

/// The conversion by which a run ended, if it has; a corrected one does not count.
[[nodiscard]] std::optional<contract::Entry> conversion_of(const plugin::Requester& core,
                                                           const RunDocument& run);
/// The lots of jars that a run made.
[[nodiscard]] std::vector<contract::Lot> lots_of(const plugin::Requester& core,
                                                 const RunDocument& run);
/// The run whose jars an entry made, if it is a run's conversion.
[[nodiscard]] std::optional<std::int64_t> run_of(const plugin::Requester& core,
                                                 const contract::Entry& entry);
/// The run that made a lot, if one did.
[[nodiscard]] std::optional<std::int64_t> run_of(const plugin::Requester& core,
                                                 const contract::Lot& lot);

} // namespace barmkeep::canning
