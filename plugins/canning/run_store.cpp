#include "plugins/canning/run_store.hpp"

#include "plugins/canning/seal.hpp"

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

std::optional<Record> find(const Requester& core, std::string_view collection,
                           const std::string& name) {
    try {
        return core.call<contract::RecordGet>({std::string(collection), name, {}});
    } catch (const Error& error) {
        if (error.kind() == ErrorKind::not_found)
            return std::nullopt;
        throw;
    }
}

KeptRun kept(const Record& record) {
    return {document_of(record), record.version};
}

} // namespace

RunDocument document_of(const Record& record) {
    return read_as<RunDocument>(record.document, Unknown::passed_over);
}

KeptRun kept_run(const Requester& core, std::int64_t run) {
    if (const auto record = find(core, runs, name_of(run)))
        return kept(*record);
    throw Error(ErrorKind::not_found, "unknown_run",
                "There is no canning run " + std::to_string(run) + ".",
                "run.list --all shows those there are.", "/run");
}

std::vector<KeptRun> all_runs(const Requester& core) {
    std::vector<KeptRun> all;
    for (const Record& record : all_records(core, runs))
        all.push_back(kept(record));
    return all;
}

contract::RecordPut::Params put_run(const KeptRun& run) {
    return {std::string(runs), name_of(run.document.run), to_json(run.document).as_object(),
            run.version};
}

NextRun next_run(const Requester& core) {
    const auto record = find(core, counters, "run");
    const std::int64_t last = record ? record->document.at("last").as_int64() : 0;
    return {last + 1,
            {std::string(counters), "run", {{"last", last + 1}}, record ? record->version : 0}};
}

KeptProcess kept_process(const Requester& core, std::string_view name) {
    if (const auto record = find(core, processes, std::string(name)))
        return read_as<KeptProcess>(record->document, Unknown::passed_over);
    throw Error(ErrorKind::not_found, "unknown_process",
                "There is no process '" + std::string(name) + "'.",
                "Record your own with process.set: pressure, time, jar, gauge and whose it is.  "
                "Barmkeep has none to offer.",
                "/process");
}

std::vector<KeptProcess> all_processes(const Requester& core) {
    std::vector<KeptProcess> all;
    for (const Record& record : all_records(core, processes))
        all.push_back(read_as<KeptProcess>(record.document, Unknown::passed_over));
    return all;
}

Pantry pantry(const Requester& core) {
    auto glance = core.call<contract::CellarGlance>({});
    return {glance.today, std::move(glance.cellar), core.call<contract::GoodList>({}).all,
            std::move(glance.shelves), core.call<contract::EquipmentList>({})};
}

std::vector<Record> all_records(const Requester& core, std::string_view collection) {
    std::vector<Record> all;
    contract::RecordList::Params params;
    params.collection = collection;
    do {
        auto page = core.call<contract::RecordList>(params);
        std::move(page.records.begin(), page.records.end(), std::back_inserter(all));
        params.cursor = page.next;
    } while (params.cursor);
    return all;
}

std::vector<contract::Entry> all_entries(const Requester& core,
                                         contract::EntryList::Params params) {
    std::vector<contract::Entry> all;
    do {
        auto page = core.call<contract::EntryList>(params);
        std::move(page.entries.begin(), page.entries.end(), std::back_inserter(all));
        params.cursor = page.next;
    } while (params.cursor);
    return all;
}

std::optional<contract::Entry> conversion_of(const Requester& core, const RunDocument& run) {
    if (!run.seals || (run.lots.empty() && !run.again))
        return std::nullopt;
    contract::EntryList::Params params;
    params.lot = run.again ? *run.again : run.lots.front().lot;
    for (auto& entry : all_entries(core, params))
        if (entry.kind == contract::EntryKind::converted && !entry.corrected_by &&
            run_of_memo(entry.memo) == run.run)
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

std::optional<std::int64_t> run_of(const Requester& core, const contract::Lot& lot) {
    const auto entry = core.call<contract::EntryShow>({lot.origin});
    if (entry.kind != contract::EntryKind::converted)
        return std::nullopt;
    return run_of_memo(entry.memo);
}

} // namespace barmkeep::canning
