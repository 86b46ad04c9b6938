// From the seal test to the shelf: sealing, measuring, holding and releasing.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/run_names.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/extract.hpp"

#include <algorithm>
#include <numeric>

namespace barmkeep::canning {
namespace {

using brewing::Gravity;
using brewing::Volume;

void add_reminders(Together& together, const RunDocument& run, const Sealing& made,
                   Date next_look) {
    const std::string number = std::to_string(run.run);
    together.add<contract::ReminderClear>({reminder_name(run.run, Reminds::seals)});
    if (!made.conversion)
        return;
    together.add<contract::ReminderPost>(
        {reminder_name(run.run, Reminds::inspection), "Look at the jars of canning run " + number,
         "Lids hollow and tight, no leak, no streaks, no bubbles, no odd colour: store.inspect.",
         next_look});
    if (made.refrigerator_until)
        together.add<contract::ReminderPost>(
            {reminder_name(run.run, Reminds::refrigerator),
             "Use or throw out the unsealed jars of canning run " + number,
             std::to_string(made.seals.failed) + " in the refrigerator, good for days only.",
             *made.refrigerator_until});
}

/// The mean of what was measured, or what was known before.
template <class T, class Number>
std::optional<T> mean(const std::vector<T>& measured, const std::optional<T>& known,
                      Number (T::*number)() const noexcept, T (*made)(double)) {
    if (measured.empty())
        return known;
    double sum = 0;
    for (const T& one : measured)
        sum += (one.*number)();
    return made(sum / static_cast<double>(measured.size()));
}

Error unmeasured(std::string_view what, std::string_view pointer) {
    return {ErrorKind::params, "missing",
            "The " + std::string(what) + " of these jars is not known.",
            "Measure it in one jar and give it as well.", pointer};
}

/// What the extract must have yielded, if one lot of it was weighed into the jars.
std::optional<double> points_found(const RunDocument& run, const contract::Facts& facts) {
    if (!run.each || run.lots.size() != 1 || !facts.extract)
        return std::nullopt;
    const double fraction = *facts.extract / run.each->weighed;
    if (fraction <= 0 || fraction > 1.02)
        return std::nullopt;
    const double points =
        brewing::ExtractPotential::of_mass_fraction(fraction).points_per_pound_gallon();
    return std::round(points * 10) / 10;
}

contract::Facts measured_facts(const RunMeasure::Params& params, const contract::Lot& lot) {
    if (params.gravity.empty() && params.fill.empty())
        throw Error(ErrorKind::params, "missing", "Nothing was measured.",
                    "Give gravity, fill or both.", "/gravity");
    const auto gravity =
        mean<Gravity>(params.gravity, lot.facts.gravity, &Gravity::sg, &Gravity::sg);
    const auto fill =
        mean<Volume>(params.fill, lot.facts.fill, &Volume::canonical, &Volume::of_canonical);
    if (!gravity)
        throw unmeasured("gravity", "/gravity");
    if (!fill)
        throw unmeasured("fill", "/fill");
    contract::Facts facts;
    facts.gravity = gravity;
    facts.fill = fill;
    try {
        facts.extract = brewing::extract_in({*fill, *gravity});
    } catch (const brewing::OutOfRange& fault) {
        throw Error(ErrorKind::params, "out_of_range", fault.finding(), fault.advice(), "/gravity");
    }
    return facts;
}

} // namespace

RunSeal::Result Canning::seal_run(const Call& call, const RunSeal::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        KeptRun run = kept_run(call, params.run);
        const RunState before = state_of(run.document, rules_);
        const auto glance = call.call<contract::CellarGlance>({});
        const Date day = glance.today;
        const Sealing made = sealing(run.document, before, params, day, call.arrived(), shelf_rules_,
                                     glance.cellar.time_zone);
        log_note(run.document, Told::sealed, params.reason, logging(call));
        run.document.seals = made.seals;
        run.document.failed_to = params.failed_to;
        run.document.best_by = made.best_by;
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        if (run.document.again)
            together.add<contract::LotRelease>({*run.document.again, "processed again"});
        if (made.conversion)
            together.add<contract::StockConvert>(*made.conversion);
        for (const auto& use : made.thrown_out)
            together.add<contract::StockUse>(use);
        add_reminders(together, run.document, made,
                      plus_days(day, static_cast<int>(settings_.inspection_days)));
        add_turn_event(together, before, run.document);
        return std::move(together).steps();
    });

    RunSeal::Result result;
    result.run = shown_first(done);
    const RunDocument run = document_of(Together::result<contract::RecordPut>(done, 0));
    result.held_because = state_of(run, rules_).missing();
    const std::size_t place = run.again ? 2 : 1;
    const auto& answer = done.results.at(place).as_object();
    if (answer.contains("lost_value")) {
        auto converted = Together::result<contract::StockConvert>(done, place);
        result.entry = converted.entry;
        keep_conversion(params.run, converted.entry);
        result.lots = std::move(converted.lots);
        result.value = converted.value;
        result.lost_value = lost_value(converted.value, *run.seals, *run.failed_to);
    }
    result.run.cautions.clear(); // the answer itself carries them
    result.cautions = cautions(Moment::sealing);
    return result;
}

/// The entry has no number before it is posted, so the run is told afterwards.  If that fails the
/// jars are on the shelf all the same, and the run finds them as runs did that knew no number.
void Canning::keep_conversion(std::int64_t number, std::int64_t entry) const {
    try {
        KeptRun run = kept_run(host_, number);
        if (run.document.conversion == entry)
            return; // the request was repeated
        run.document.conversion = entry;
        (void)host_.call<contract::RecordPut>(put_run(run));
    } catch (const Error& error) {
        host_.log(plugin::LogLevel::warning, "run " + std::to_string(number) +
                                                 " could not keep the number of its entry " +
                                                 std::to_string(entry) + ": " + error.what());
    }
}

RunMeasure::Result Canning::measure_jars(const Call& call, const RunMeasure::Params& params) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        const auto number = run_of(call, lot);
        if (!number)
            throw Error(ErrorKind::not_found, "unknown_run",
                        "No canning run made lot " + to_text(params.lot) + ".",
                        "Set what is known of other lots with lot.change.", "/lot");
        KeptRun run = kept_run(call, *number);
        const contract::Facts facts = measured_facts(params, lot);
        const auto jars = std::max(params.gravity.size(), params.fill.size());
        const std::string why =
            "measured in " + std::to_string(jars) + " jars of " + to_text(params.lot);
        log_note(run.document, Told::measured, why, logging(call));
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        together.add<contract::LotChange>({params.lot, {}, {}, {}, {}, facts, why});
        if (params.correct_extract) {
            const auto points = points_found(run.document, facts);
            if (!points || *points < 1 || *points > 60)
                throw Error(ErrorKind::conflict, "several_extracts",
                            "What was measured does not tell the potential of one extract lot.",
                            "Leave correct_extract out, or set it with lot.change.",
                            "/correct_extract");
            contract::Facts found;
            found.potential = Gravity::sg(1 + *points / 1000);
            together.add<contract::LotChange>(
                {run.document.lots.front().lot, {}, {}, {}, {}, found, why});
        }
        return std::move(together).steps();
    });

    RunMeasure::Result result;
    const RunDocument run = document_of(Together::result<contract::RecordPut>(done, 0));
    result.lot = Together::result<contract::LotChange>(done, 1);
    result.planned_gravity = run.facts.gravity;
    result.gravity = *result.lot.facts.gravity;
    result.fill = *result.lot.facts.fill;
    result.extract = *result.lot.facts.extract;
    result.points_found = points_found(run, result.lot.facts);
    if (result.points_found)
        result.extract_lot = run.lots.front().lot;
    result.extract_corrected = done.results.size() > 2;
    result.cautions = cautions(Moment::storing);
    return result;
}

RunDecided Canning::decide(const Call& call, const RunDecision& decision, bool hold) {
    const std::scoped_lock lock{writing_};
    const Done done = call.once<contract::LedgerTogether>([&] {
        KeptRun run = kept_run(call, decision.run);
        log_note(run.document, hold ? Told::held : Told::released, decision.reason, logging(call));
        Together together;
        together.add<contract::RecordPut>(put_run(run));
        std::size_t lots = 0;
        for (const auto& lot : lots_of(call, run.document)) {
            // Unsealed jars wait for the canner; no release of the run makes them good.
            const bool unsealed = lot.hold && lot.hold->starts_with(unsealed_hold);
            if (lot.on_hand.steps == 0 || unsealed || (!hold && !lot.hold))
                continue;
            ++lots;
            if (hold)
                together.add<contract::LotHold>({lot.code, decision.reason});
            else
                together.add<contract::LotRelease>({lot.code, decision.reason});
        }
        if (lots == 0)
            throw Error(ErrorKind::conflict, hold ? "nothing_to_hold" : "not_on_hold",
                        "Run " + std::to_string(decision.run) + " has no jars " +
                            (hold ? "to hold." : "on hold."),
                        "run.show and trace.lot tell where they are.", "/run");
        return std::move(together).steps();
    });

    RunDecided result;
    result.run = shown_first(done);
    result.run.cautions.clear(); // the answer itself carries them
    for (std::size_t i = 1; i < done.results.size(); ++i)
        result.lots.push_back(Together::result<contract::LotHold>(done, i));
    result.cautions = cautions(Moment::sealing);
    return result;
}

RunDecided Canning::hold_run(const Call& call, const RunDecision& decision) {
    return decide(call, decision, true);
}

RunDecided Canning::release_run(const Call& call, const RunDecision& decision) {
    return decide(call, decision, false);
}

} // namespace barmkeep::canning
