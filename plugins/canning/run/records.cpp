#include "plugins/canning/run/records.hpp"

#include "plugins/canning/plan/inventory.hpp"
#include "sdk/contract/reminder.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::Record;
using plugin::Requester;

} // namespace

RunRecord load_run(const Requester& core, std::int64_t number) {
    contract::RecordGet::Params params;
    params.collection = run_collection;
    params.number = number;
    try {
        const Record record = core.call<contract::RecordGet>(params);
        RunRecord run;
        run.number = record.number;
        run.begun = decode<RunDocument>(record.document);
        for (const auto& line : record.lines)
            run.log.push_back(decode<LogLine>(line));
        run.version = record.version;
        run.changed = record.changed;
        return run;
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::not_found)
            throw;
        throw Error(ErrorKind::not_found, "unknown_run",
                    "There is no canning run " + std::to_string(number) + ".",
                    "List all runs: barm run list --all", "/run");
    }
}

RunRecord run_after(const Requester& core, const contract::RecordChanged& change) {
    RunRecord run = load_run(core, change.number);
    run.log.resize(std::min(run.log.size(), static_cast<std::size_t>(change.lines)));
    run.version = change.version;
    run.changed = change.changed;
    return run;
}

contract::RecordAppend::Params append(const RunRecord& run, const LogLine& line,
                                      std::optional<std::string_view> state) {
    contract::RecordAppend::Params params;
    params.collection = run_collection;
    params.number = run.number;
    params.lines = {to_json(line).as_object()};
    if (state)
        params.state = std::string(*state);
    params.expected = run.version;
    return params;
}

contract::Links about_run(std::int64_t number) {
    return {{std::string(run_link), number}};
}

std::optional<std::int64_t> run_of(const contract::Links& about) {
    return contract::linked(about, run_link);
}

std::vector<contract::Lot> jars_of(const Requester& core, std::int64_t run) {
    contract::StockList::Params params;
    params.category = contract::Category::concentrate;
    std::vector<contract::Lot> jars;
    for (auto& shelf : core.call<contract::StockList>(params).shelves)
        for (auto& lot : shelf.lots)
            if (lot.on_hand.steps > 0 && run_of(lot.about) == run)
                jars.push_back(std::move(lot));
    return jars;
}

std::vector<contract::Entry> entries_of(const Requester& core, std::int64_t run) {
    contract::EntryList::Params params;
    params.about = about_run(run).front();
    auto entries = plugin::all_pages<contract::EntryList>(core, std::move(params),
                                                          &contract::EntryList::Result::entries);
    std::erase_if(entries, [](const contract::Entry& entry) {
        return entry.undone_by || entry.kind == contract::EntryKind::undone;
    });
    return entries;
}

contract::ReminderPost::Params reminder(std::int64_t run, std::string_view cause, std::string title,
                                        std::string detail, Date due) {
    contract::ReminderPost::Params params;
    params.name = "canning-run-" + std::to_string(run) + "-" + std::string(cause);
    params.title = std::move(title);
    params.note = std::move(detail);
    params.due = due;
    params.cause = std::string(cause);
    params.about = about_run(run);
    return params;
}

contract::ReminderClear::Params clear_reminders(std::int64_t run,
                                                std::optional<std::string_view> cause) {
    contract::ReminderClear::Params params;
    params.about = about_run(run).front();
    if (cause)
        params.cause = std::string(*cause);
    return params;
}

Logging logging(const Context& context, const Call& call, const std::optional<Instant>& at) {
    // The machine's own clock is read now, and the host's was at the arrival: what the call has
    // waited is no disagreement between the two.
    auto uptime = context.uptime_now();
    if (uptime)
        *uptime -= (context.host.now() - call.arrived()).count();
    return {call.caller(), at, call.arrived(), {context.session, context.session_began}, uptime};
}

Inventory read_inventory(const Requester& core) {
    auto glance = core.call<contract::CellarGlance>({});
    Inventory inventory{
        glance.today,
        std::move(glance.cellar),
        plugin::all_pages<contract::GoodList>(core, {}, &contract::GoodList::Result::all),
        std::move(glance.shelves),
        core.call<contract::EquipmentList>({}),
        {}};
    contract::RecordList::Params open;
    open.collection = run_collection;
    open.states = {std::string(state_open)};
    open.order = contract::RecordOrder::oldest;
    for (const Record& record : plugin::all_pages<contract::RecordList>(
             core, std::move(open), &contract::RecordList::Result::records)) {
        auto begun = decode<RunDocument>(record.document);
        inventory.open_runs.push_back(
            {record.number, std::move(begun.canner), std::move(begun.lots), std::move(begun.used)});
    }
    return inventory;
}

} // namespace barmkeep::canning
