// The store and the opening of jars.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/run_names.hpp"
#include "plugins/canning/store.hpp"
#include "sdk/plugin/pages.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::GoodClass;

constexpr std::string_view temperatures = "temperatures";
constexpr std::size_t temperatures_a_month_max = 2000;
constexpr std::size_t temperatures_shown_max = 100;

/// A month of the store's temperatures, as kept.
struct TemperatureMonth {
    std::vector<StoreReading> readings;
    static FieldList fields(auto) {
        return {field<&TemperatureMonth::readings>("In order of time.")};
    }
};

/// Jars of a run that are left once some of one lot are gone.
std::int64_t jars_left(const plugin::Requester& core, const RunDocument& run, std::int64_t gone) {
    std::int64_t left = -gone;
    for (const auto& lot : lots_of(core, run))
        left += lot.on_hand.steps;
    return left;
}

/// Whether a run still has the jars that a reminder is about.
bool has_jars_for(const plugin::Requester& core, const RunDocument& run, Reminds about) {
    return std::ranges::any_of(lots_of(core, run), [&](const contract::Lot& lot) {
        return lot.on_hand.steps > 0 &&
               (about != Reminds::refrigerator || lot.facts.unsealed.value_or(false));
    });
}

std::string month_of(Instant at) {
    return to_text(at).substr(0, 7);
}

/// The month's readings with one more, and the record that keeps them.
contract::RecordPut::Params put_temperature(const plugin::Requester& core,
                                            const StoreReading& reading) {
    const std::string month = month_of(reading.at);
    TemperatureMonth kept;
    std::int64_t version = 0;
    if (const auto record = found_record(core, temperatures, month)) {
        kept = decode<TemperatureMonth>(record->document);
        version = record->version;
    }
    if (kept.readings.size() >= temperatures_a_month_max)
        throw Error(ErrorKind::busy, "log_full", "The month's log of temperatures is full.",
                    "Once an hour is plenty.");
    const auto later = std::ranges::upper_bound(kept.readings, reading.at, {}, &StoreReading::at);
    kept.readings.insert(later, reading);
    return {std::string(temperatures), month, to_json(kept).as_object(), version};
}

} // namespace

StoreInspect::Result Canning::inspect_store(const Call& call, const StoreInspect::Params& params) {
    check_signs(params.signs, params.note);
    if (params.signs.empty() != (params.discard == 0))
        throw Error(ErrorKind::params, "missing",
                    params.discard == 0 ? "Signs were found, but no jar is thrown out."
                                        : "Jars are thrown out, but not why.",
                    "Give both `discard` and `signs`.",
                    params.discard == 0 ? "/discard" : "/signs");
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        require_jars(lot);
        const auto number = run_of(call, lot);
        if (!number)
            throw Error(ErrorKind::not_found, "unknown_run",
                        "No canning run made lot " + to_text(params.lot) + ".",
                        "Discard other lots with stock.discard.", "/lot");
        KeptRun run = kept_run(call, *number);
        std::string note = to_text(params.lot) + ": ";
        note += params.signs.empty() ? "nothing found"
                                     : std::to_string(params.discard) + " thrown out, " +
                                           reason_of(params.signs, params.note);
        log_note(run.document, Told::inspected, note, logging(call));
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        const std::string name = reminder_name(*number, Reminds::inspection);
        if (jars_left(call, run.document, params.discard) > 0)
            together.add<contract::ReminderPost>(
                {name, "Look at the jars of canning run " + std::to_string(*number),
                 "Lids hollow and tight, no leak, no streaks, no bubbles: store.inspect.",
                 plus_days(today(call), static_cast<int>(settings_.inspection_days))});
        else
            together.add<contract::ReminderClear>({name});
        if (params.discard > 0)
            together.add<contract::StockDiscard>({params.lot, AmountGiven{pieces(params.discard)},
                                                  reason_of(params.signs, params.note)});
        return std::move(together).steps();
    });

    StoreInspect::Result result;
    result.lot = params.lot;
    result.discarded = params.discard;
    if (done.results.at(1).as_object().contains("due"))
        result.look_again = Together::result<contract::ReminderPost>(done, 1).due;
    result.cautions = cautions(Moment::storing);
    return result;
}

StoreTemperature::Result Canning::note_temperature(const Call& call,
                                                   const StoreTemperature::Params& params) {
    const std::scoped_lock lock{writing_};
    const auto record = call.once<contract::RecordPut>([&] {
        const Instant now = call.arrived();
        const StoreReading reading{params.at.value_or(now), params.temperature, call.caller()};
        if (reading.at > now)
            throw Error(ErrorKind::params, "from_the_future",
                        to_text(reading.at) + " is later than the daemon's clock, " + to_text(now) +
                            ".",
                        "Set the clock of the sender, or leave `at` out.", "/at");
        return put_temperature(call, reading);
    });
    StoreTemperature::Result result;
    result.reading = {params.at.value_or(record.changed), params.temperature, call.caller()};
    result.warnings = temperature_warnings(params.temperature);
    result.cautions = cautions(Moment::storing);
    return result;
}

StoreShow::Result Canning::show_store(const Call& call, const Nothing&) {
    StoreShow::Result result;
    for (const auto& record : all_records(call, temperatures)) {
        auto month = decode<TemperatureMonth>(record.document);
        std::ranges::move(month.readings, std::back_inserter(result.temperatures));
    }
    std::ranges::reverse(result.temperatures);
    if (result.temperatures.size() > temperatures_shown_max)
        result.temperatures.resize(temperatures_shown_max);
    if (!result.temperatures.empty())
        result.concerns = temperature_warnings(result.temperatures.front().temperature);
    const auto glance = call.call<contract::CellarGlance>({});
    for (const auto& shelf : glance.shelves)
        if (shelf.goods == GoodClass::concentrate)
            for (const auto& lot : shelf.lots) {
                if (lot.on_hand.steps == 0)
                    continue;
                for (const auto& stop : opening_stops(lot, glance.today))
                    result.concerns.push_back(to_text(lot.code) + ": " + stop);
                if (lot.facts.unsealed.value_or(false))
                    result.concerns.push_back(
                        to_text(lot.code) + ": Did not seal: in the refrigerator, for days only.");
                result.lots.push_back(lot);
            }
    result.cautions = cautions(Moment::storing);
    return result;
}

OpeningShow::Result Canning::show_opening(const Call& call, const OpeningShow::Params& params) {
    OpeningShow::Result result;
    result.lot = call.call<contract::LotShow>({params.lot});
    require_jars(result.lot);
    const auto glance = call.call<contract::CellarGlance>({});
    result.stops = opening_stops(result.lot, glance.today);
    result.checklist = opening_checklist(result.lot);
    result.boil_before_use = boil_before_use(glance.cellar.altitude);
    result.cautions = cautions(Moment::opening);
    return result;
}

OpeningRecord::Result Canning::record_opening(const Call& call,
                                              const OpeningRecord::Params& params) {
    check_signs(params.signs, params.note);
    const bool used = params.signs.empty();
    if (used && !(params.looked && params.listened && params.smelled))
        throw Error(ErrorKind::params, "not_checked",
                    "A jar is used only after looking, listening and smelling; never tasting.",
                    "Give looked, listened and smelled once each was done, or the signs found.",
                    params.looked ? params.listened ? "/smelled" : "/listened" : "/looked");
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        require_jars(lot);
        Together together;
        if (used)
            together.add<contract::StockUse>(
                {to_text(params.lot), pieces(params.jars), params.brew, {}, params.note});
        else
            together.add<contract::StockDiscard>({params.lot, AmountGiven{pieces(params.jars)},
                                                  reason_of(params.signs, params.note)});
        if (const auto run = run_of(call, lot))
            if (jars_left(call, kept_run(call, *run).document, params.jars) <= 0)
                together.add<contract::ReminderClear>({reminder_name(*run, Reminds::inspection)});
        together.add<contract::EventPost>(
            {"canning.opened",
             {{"lot", to_text(params.lot)}, {"jars", params.jars}, {"used", used}}});
        return std::move(together).steps();
    });
    return {Together::result<contract::StockUse>(done, 0).entry, used, what_now(used, params.signs),
            cautions(Moment::opening)};
}

/// Most entries touch no jars, and then no reminder has to be looked at.
void Canning::entry_posted(const contract::Event& event) {
    const auto* lots = event.about.if_contains("lots");
    const auto is_of_jars = [](const json::value& code) {
        return code.as_string().starts_with(contract::lot_letter(GoodClass::concentrate));
    };
    if (lots == nullptr || std::ranges::any_of(lots->as_array(), is_of_jars))
        jars_may_be_gone(event);
}

/// Reminders of jars that are gone go with them, whichever way the jars went.
void Canning::jars_may_be_gone(const contract::Event&) {
    contract::ReminderList::Params params;
    params.all = true;
    for (const auto& one : plugin::all_pages<contract::ReminderList>(
             host_, std::move(params), &contract::ReminderList::Result::reminders)) {
        if (one.owner != canning_owner || one.state == contract::ReminderState::done)
            continue;
        const auto of = run_reminder(one.name);
        if (of && of->about != Reminds::seals &&
            !has_jars_for(host_, kept_run(host_, of->run).document, of->about))
            (void)host_.call<contract::ReminderClear>({one.name});
    }
}

} // namespace barmkeep::canning
