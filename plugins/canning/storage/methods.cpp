// Stored jars: inspections, and the temperature in the storage.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/storage/signs.hpp"
#include "plugins/canning/storage/spoiled.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>
#include <map>

namespace barmkeep::canning {
namespace {

using contract::Category;
using contract::LedgerBatch;

constexpr std::string_view temperatures = "temperature"; ///< a record a month, a line a reading
constexpr std::size_t temperatures_shown_max = 100;

std::string month_of(Instant at) {
    return to_text(at).substr(0, 7);
}

void check_inspection(const StorageInspect::Params& params) {
    check_signs(params.signs, params.note);
    if (params.signs.empty() != (params.discard == 0))
        throw Error(ErrorKind::params, "missing",
                    params.discard == 0 ? "You gave signs of spoilage, but no jar to throw out."
                                        : "You throw jars out without a sign of spoilage.",
                    "Give both --discard and --signs.",
                    params.discard == 0 ? "/discard" : "/signs");
}

/// The run's reminder to look again, or the end of it with the last jar.
void add_next_look(Batch& batch, const Context& context, const Call& call, std::int64_t run,
                   std::int64_t gone, Date next) {
    std::int64_t left = -gone;
    for (const auto& lot : jars_of(call, run))
        left += lot.on_hand.steps;
    if (left <= 0) {
        batch.add<contract::ReminderClear>(clear_reminders(run, cause_inspection));
        return;
    }
    auto look = reminder(
        run, cause_inspection, "Look at the jars of canning run " + std::to_string(run),
        "Check that lids are hollow and tight, with no leak, streaks, bubbles or odd colour. "
        "Then log it: barm storage inspect.",
        next);
    look.every_days = context.settings.inspection_days;
    batch.add<contract::ReminderPost>(look);
}

StorageInspect::Result inspect(const Context& context, const Call& call,
                               const StorageInspect::Params& params) {
    check_inspection(params);
    const auto number_of = [&](const contract::Lot& lot) {
        const auto number = run_of(lot.about);
        if (!number)
            throw Error(ErrorKind::not_found, "unknown_run",
                        "No canning run made lot " + to_text(params.lot) + ".",
                        "Throw out jars of other lots with: barm stock discard " +
                            to_text(params.lot),
                        "/lot");
        return *number;
    };
    const auto done = call.once<LedgerBatch>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        require_jars(lot);
        const std::int64_t number = number_of(lot);
        const Date next =
            plus_days(today(call), static_cast<int>(context.settings.inspection_days));
        const std::string reason = reason_of(params.signs, params.note);
        Batch batch;
        if (params.discard > 0) {
            add_spoiled(batch, context, call, lot, params.discard, reason);
            contract::StockDiscard::Params discard;
            discard.lot = params.lot;
            discard.amount = AmountGiven{pieces(params.discard)};
            discard.reason = reason;
            batch.add<contract::StockDiscard>(discard);
        } else {
            const RunRecord run = load_run(call, number);
            LogLine line = note_line(run, LineKind::inspected, params.note, logging(context, call));
            line.lots = {params.lot};
            line.look_again = next;
            batch.add<contract::RecordAppend>(append(run, line));
        }
        add_next_look(batch, context, call, number, params.discard, next);
        return std::move(batch).steps();
    });

    const RunRecord run = run_after(call, Batch::result<contract::RecordAppend>(done, 0));
    StorageInspect::Result result;
    result.lot = params.lot;
    result.discarded = params.discard;
    result.held = held_for(run);
    result.look_again = run.log.back().look_again;
    result.notes = process_notes(call.call<contract::LotShow>({params.lot}).facts);
    result.cautions = cautions(Moment::storing);
    return result;
}

StorageTemperature::Result note_temperature(const Context&, const Call& call,
                                            const StorageTemperature::Params& params) {
    const auto change = call.once<contract::RecordPut>([&] {
        const Instant now = call.arrived();
        const StorageReading reading{params.at.value_or(now), params.temperature, call.caller()};
        if (reading.at > now)
            throw Error(ErrorKind::params, "from_the_future",
                        to_text(reading.at) + " is later than the daemon's clock, " + to_text(now) +
                            ".",
                        "Set the clock of the sender, or leave --at out.", "/at");
        contract::RecordPut::Params put;
        put.collection = temperatures;
        put.name = month_of(reading.at);
        put.lines = {to_json(reading).as_object()};
        return put;
    });
    StorageTemperature::Result result;
    result.reading = {params.at.value_or(change.changed), params.temperature, call.caller()};
    result.warnings = temperature_warnings(params.temperature);
    result.cautions = cautions(Moment::storing);
    return result;
}

/// The last readings, newest first.
std::vector<StorageReading> last_temperatures(const Call& call) {
    contract::RecordList::Params params;
    params.collection = temperatures;
    auto months = plugin::all_pages<contract::RecordList>(call, std::move(params),
                                                          &contract::RecordList::Result::records);
    std::vector<StorageReading> readings;
    for (auto month = months.rbegin();
         month != months.rend() && readings.size() < temperatures_shown_max; ++month) {
        contract::RecordGet::Params get;
        get.collection = temperatures;
        get.number = month->number;
        std::vector<StorageReading> some;
        for (const auto& line : call.call<contract::RecordGet>(get).lines)
            some.push_back(decode<StorageReading>(line));
        std::ranges::reverse(some); // of one instant the later line is the newer
        std::ranges::stable_sort(some, std::ranges::greater{}, &StorageReading::at);
        std::ranges::move(some, std::back_inserter(readings));
    }
    if (readings.size() > temperatures_shown_max)
        readings.resize(temperatures_shown_max);
    return readings;
}

StorageShow::Result show_storage(const Context&, const Call& call, const Nothing&) {
    StorageShow::Result result;
    result.temperatures = last_temperatures(call);
    if (!result.temperatures.empty())
        result.warnings = temperature_warnings(result.temperatures.front().temperature);
    const auto glance = call.call<contract::CellarGlance>({});
    for (const auto& shelf : glance.shelves)
        if (shelf.category == Category::concentrate)
            for (const auto& lot : shelf.lots) {
                if (lot.on_hand.steps == 0)
                    continue;
                for (const auto& stop : opening_stops(lot, glance.today))
                    result.warnings.push_back(to_text(lot.code) + ": " + stop);
                for (const auto& note : opening_notes(lot, glance.today))
                    result.warnings.push_back(to_text(lot.code) + ": " + note);
                result.lots.push_back(lot);
            }
    result.cautions = cautions(Moment::storing);
    return result;
}

/// Reminders of jars that are gone go with them, whichever way the jars went.
void clear_reminders_of_gone(const Context& context) {
    contract::StockList::Params of_jars;
    of_jars.category = Category::concentrate;
    std::map<std::int64_t, bool> runs; // with jars left: whether some are kept cold
    for (const auto& shelf : context.host.call<contract::StockList>(of_jars).shelves)
        for (const auto& lot : shelf.lots)
            if (const auto run = run_of(lot.about); run && lot.on_hand.steps > 0)
                runs[*run] |= lot.kept != contract::Keeping::shelf;
    contract::ReminderList::Params all;
    all.all = true;
    for (const auto& one : plugin::all_pages<contract::ReminderList>(
             context.host, std::move(all), &contract::ReminderList::Result::reminders)) {
        const auto run = run_of(one.about);
        const bool is_cold = one.cause == cause_refrigerator;
        if (one.owner != canning_owner || !run || !(is_cold || one.cause == cause_inspection))
            continue;
        const auto left = runs.find(*run);
        if (left == runs.end() || (is_cold && !left->second))
            (void)context.host.call<contract::ReminderClear>(clear_reminders(*run, *one.cause));
    }
}

void day_begun(Canning& canning, const contract::Event&) {
    clear_reminders_of_gone(canning);
}

/// Most entries touch no jars, and then no reminder has to be looked at.
void entry_posted(Canning& canning, const contract::Event& event) {
    const auto* lots = event.about.if_contains("lots");
    const auto is_of_jars = [](const json::value& code) {
        return code.as_string().starts_with(contract::lot_letter(Category::concentrate));
    };
    if (lots == nullptr || std::ranges::any_of(lots->as_array(), is_of_jars))
        clear_reminders_of_gone(canning);
}

} // namespace

void declare_storage(Declaration& plugin) {
    plugin.method<StorageInspect>(&inspect);
    plugin.method<StorageTemperature>(&note_temperature);
    plugin.method<StorageShow>(&show_storage);
    plugin.event(contract::Topic::day_begun, &day_begun);
    plugin.event(contract::Topic::entry_posted, &entry_posted);
}

} // namespace barmkeep::canning
