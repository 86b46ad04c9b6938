#include "plugins/canning/run_store.hpp"

#include "plugins/canning/run_names.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>
#include <numeric>

namespace barmkeep::canning {
namespace {

using contract::Record;
using plugin::Requester;

constexpr std::string_view runs = "runs";
constexpr std::string_view processes = "processes";
constexpr std::string_view counters = "counters";
constexpr std::size_t name_digits = 8; // so that records come in the order of their numbers

std::string name_of(std::int64_t run) {
    std::string digits = std::to_string(run);
    return std::string(name_digits - std::min(name_digits, digits.size()), '0') + digits;
}

KeptRun kept(const Record& record) {
    return {document_of(record), record.version};
}

/// The lot that every conversion of a run takes from.
std::optional<LotCode> main_input_of(const RunDocument& run) {
    if (run.again)
        return run.again;
    return run.lots.empty() ? std::nullopt : std::optional{run.lots.front().lot};
}

/// Whether an entry, by its memo one of this run's, is the conversion that made its jars.  Runs
/// that do not know the number of theirs go by what it takes.
bool is_conversion_of(const RunDocument& run, const contract::Entry& entry) {
    if (entry.kind != contract::EntryKind::converted || !run.seals)
        return false;
    if (run.conversion)
        return entry.sequence == *run.conversion;
    const auto input = main_input_of(run);
    return std::ranges::any_of(entry.lines, [&](const contract::Line& line) {
        return line.lot == input && line.quantity.steps < 0;
    });
}

/// The cursor of what comes after a run in the list.
std::string cursor_of(std::int64_t run) {
    return "after-run-" + std::to_string(run);
}

std::int64_t run_of_cursor(std::string_view cursor) {
    const auto run = number_after(cursor, "after-run-");
    if (!run || cursor_of(*run) != cursor)
        throw Error(ErrorKind::params, "bad_cursor", "This cursor was not made for this list.",
                    "Give the `next` of the answer before, or begin without a cursor.", "/cursor");
    return *run;
}

/// How many runs there are, and which of them may be open: all that were when the last one began,
/// and that one.  So nobody has to read every run there ever was to find the few that are open.
struct RunCounter {
    std::int64_t last = 0;
    std::optional<std::vector<std::int64_t>> open; ///< absent in what the first version kept
    static FieldList fields(auto) {
        return {field<&RunCounter::last>("Number of the last run."),
                          field<&RunCounter::open>("Runs that may be open.")};
    }

    [[nodiscard]] std::vector<std::int64_t> all() const {
        std::vector<std::int64_t> numbers(static_cast<std::size_t>(last));
        std::iota(numbers.begin(), numbers.end(), 1);
        return numbers;
    }
    [[nodiscard]] std::vector<std::int64_t> perhaps_open() const { return open ? *open : all(); }
};

struct KeptCounter {
    RunCounter counter;
    std::int64_t version = 0;
};

KeptCounter kept_counter(const Requester& core) {
    const auto record = found_record(core, counters, "run");
    if (!record)
        return {};
    return {decode<RunCounter>(record->document), record->version};
}

} // namespace

RunDocument document_of(const Record& record) {
    return decode<RunDocument>(record.document);
}

KeptRun kept_run(const Requester& core, std::int64_t run) {
    if (const auto record = found_record(core, runs, name_of(run)))
        return kept(*record);
    throw Error(ErrorKind::not_found, "unknown_run",
                "There is no canning run " + std::to_string(run) + ".",
                "run.list --all shows those there are.", "/run");
}

std::vector<KeptRun> open_runs(const Requester& core, const Rules& rules) {
    std::vector<KeptRun> open;
    for (const std::int64_t run : kept_counter(core).counter.perhaps_open())
        if (const auto record = found_record(core, runs, name_of(run)))
            if (KeptRun one = kept(*record); !has_ended(state_of(one.document, rules).phase))
                open.push_back(std::move(one));
    return open;
}

RunPage page_of_runs(const Requester& core, const Rules& rules, const RunList::Params& params) {
    const RunCounter counter = kept_counter(core).counter;
    const auto numbers = params.all ? counter.all() : counter.perhaps_open();
    const std::int64_t before = params.cursor ? run_of_cursor(*params.cursor) : counter.last + 1;
    RunPage page;
    for (auto run = numbers.rbegin(); run != numbers.rend(); ++run) {
        const auto record = *run < before ? found_record(core, runs, name_of(*run)) : std::nullopt;
        if (!record)
            continue;
        KeptRun one = kept(*record);
        if (!params.all && has_ended(state_of(one.document, rules).phase))
            continue;
        if (std::ssize(page.runs) == params.limit) {
            page.next = cursor_of(page.runs.back().document.run);
            break;
        }
        page.runs.push_back(std::move(one));
    }
    return page;
}

contract::RecordPut::Params put_run(const KeptRun& run) {
    return {std::string(runs), name_of(run.document.run), to_json(run.document).as_object(),
            run.version};
}

NextRun next_run(const Requester& core, std::span<const KeptRun> open) {
    auto [counter, version] = kept_counter(core);
    const std::int64_t next = counter.last + 1;
    counter.last = next;
    counter.open.emplace();
    for (const KeptRun& run : open)
        counter.open->push_back(run.document.run);
    counter.open->push_back(next);
    return {next, {std::string(counters), "run", to_json(counter).as_object(), version}};
}

KeptProcess kept_process(const Requester& core, std::string_view name) {
    if (const auto record = found_record(core, processes, name))
        return decode<KeptProcess>(record->document);
    throw Error(ErrorKind::not_found, "unknown_process",
                "There is no process '" + std::string(name) + "'.",
                "Record your own with process.set: pressure, time, jar, gauge and whose it is.  "
                "Barmkeep has none to offer.",
                "/process");
}

std::vector<KeptProcess> all_processes(const Requester& core) {
    std::vector<KeptProcess> all;
    for (const Record& record : all_records(core, processes))
        all.push_back(decode<KeptProcess>(record.document));
    return all;
}

Pantry pantry(const Requester& core, std::span<const KeptRun> open) {
    auto glance = core.call<contract::CellarGlance>({});
    Pantry there{glance.today,
                 std::move(glance.cellar),
                 plugin::all_pages<contract::GoodList>(core, {}, &contract::GoodList::Result::all),
                 std::move(glance.shelves),
                 core.call<contract::EquipmentList>({}),
                 {}};
    for (const KeptRun& run : open)
        there.open_runs.push_back(run.document);
    return there;
}

std::optional<Record> found_record(const Requester& core, std::string_view collection,
                                   std::string_view name) {
    try {
        return core.call<contract::RecordGet>({std::string(collection), std::string(name), {}});
    } catch (const Error& error) {
        if (error.kind() == ErrorKind::not_found)
            return std::nullopt;
        throw;
    }
}

std::vector<Record> all_records(const Requester& core, std::string_view collection) {
    contract::RecordList::Params params;
    params.collection = collection;
    return plugin::all_pages<contract::RecordList>(core, std::move(params),
                                                   &contract::RecordList::Result::records);
}

std::vector<contract::Entry> all_entries(const Requester& core,
                                         contract::EntryList::Params params) {
    return plugin::all_pages<contract::EntryList>(core, std::move(params),
                                                  &contract::EntryList::Result::entries);
}

std::optional<contract::Entry> conversion_of(const Requester& core, const RunDocument& run) {
    if (!run.seals)
        return std::nullopt;
    if (run.conversion) {
        auto entry = core.call<contract::EntryShow>({*run.conversion});
        return entry.corrected_by ? std::nullopt : std::optional{std::move(entry)};
    }
    contract::EntryList::Params params;
    params.lot = main_input_of(run);
    if (params.lot)
        for (auto& entry : all_entries(core, params))
            if (!entry.corrected_by && run_of_memo(entry.memo) == run.run &&
                is_conversion_of(run, entry))
                return std::move(entry);
    return std::nullopt;
}

std::vector<contract::Lot> lots_of(const Requester& core, const RunDocument& run) {
    std::vector<contract::Lot> lots;
    if (const auto entry = conversion_of(core, run))
        for (const auto& line : entry->lines)
            if (line.quantity.steps > 0)
                lots.push_back(core.call<contract::LotShow>({line.lot}));
    return lots;
}

std::optional<std::int64_t> run_of(const Requester& core, const contract::Entry& entry) {
    const auto run = run_of_memo(entry.memo);
    const auto record = run ? found_record(core, runs, name_of(*run)) : std::nullopt;
    return record && is_conversion_of(document_of(*record), entry) ? run : std::nullopt;
}

std::optional<std::int64_t> run_of(const Requester& core, const contract::Lot& lot) {
    return run_of(core, core.call<contract::EntryShow>({lot.origin}));
}

} // namespace barmkeep::canning
