// The jars of a run once they are shelved: measuring, holding and releasing.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/run/jar_messages.hpp"
#include "plugins/canning/run/records.hpp"
#include "plugins/canning/run/view.hpp"
#include "plugins/canning/storage/signs.hpp"
#include "sdk/brewing/errors.hpp"
#include "sdk/brewing/extract.hpp"

#include <algorithm>
#include <cmath>

namespace barmkeep::canning {
namespace {

using brewing::Gravity;
using brewing::Volume;
using contract::HoldKind;
using contract::LedgerBatch;

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
            "Measure it in one jar, and give it too.", pointer};
}

/// What the extract must have yielded, if one lot of it was weighed into the jars.
std::optional<double> points_found(const RunDocument& run, const contract::Facts& facts) {
    if (run.lots.size() != 1 || !facts.extract)
        return std::nullopt;
    const double fraction = *facts.extract / run.each.weighed;
    if (fraction <= 0 || fraction > 1.02)
        return std::nullopt;
    const double points =
        brewing::ExtractPotential::of_mass_fraction(fraction).points_per_pound_gallon();
    return std::round(points * 10) / 10;
}

contract::Facts measured_facts(const RunMeasure::Params& params, const contract::Lot& lot) {
    if (params.gravity.empty() && params.fill.empty())
        throw Error(ErrorKind::params, "missing", "You gave no measurement.",
                    "Give --gravity, --fill or both.", "/gravity");
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
        throw error_of(fault, "/gravity");
    }
    return facts;
}

RunMeasure::Result measure_jars(const Context& context, const Call& call,
                                const RunMeasure::Params& params) {
    const auto done = call.once<LedgerBatch>([&] {
        const auto lot = call.call<contract::LotShow>({params.lot});
        const auto number = run_of(lot.about);
        if (!number)
            throw Error(ErrorKind::not_found, "unknown_run",
                        "No canning run made lot " + to_text(params.lot) + ".",
                        "Set the facts of other lots with: barm lot change " + to_text(params.lot),
                        "/lot");
        const RunRecord run = load_run(call, *number);
        const contract::Facts facts = measured_facts(params, lot);
        const auto jars = std::max(params.gravity.size(), params.fill.size());
        const std::string why = "measured in " + std::to_string(jars) +
                                (jars == 1 ? " jar of " : " jars of ") + to_text(params.lot);
        LogLine line = note_line(run, LineKind::measured, why, logging(context, call));
        line.lots = {params.lot};
        contract::LotChange::Params change;
        change.lot = params.lot;
        change.facts = facts;
        change.reason = why;
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line));
        batch.add<contract::LotChange>(change);
        if (params.correct_extract) {
            const auto points = points_found(run.begun, facts);
            if (!points || *points < 1 || *points > 60)
                throw Error(ErrorKind::conflict, "several_extracts",
                            "The measurement does not show the potential of one extract lot.",
                            "Leave --correct-extract out, or set the potential: barm lot change.",
                            "/correct_extract");
            change.lot = run.begun.lots.front().lot;
            change.facts.emplace().potential = Gravity::sg(1 + *points / 1000);
            batch.add<contract::LotChange>(change);
        }
        return std::move(batch).steps();
    });

    RunMeasure::Result result;
    const RunDocument run = run_after(call, Batch::result<contract::RecordAppend>(done, 0)).begun;
    result.lot = Batch::result<contract::LotChange>(done, 1);
    result.planned_gravity = run.facts.gravity;
    result.gravity = *result.lot.facts.gravity;
    result.fill = *result.lot.facts.fill;
    result.extract = *result.lot.facts.extract;
    result.points_found = points_found(run, result.lot.facts);
    if (result.points_found)
        result.extract_lot = run.lots.front().lot;
    result.extract_corrected = params.correct_extract;
    result.notes = process_notes(result.lot.facts);
    result.cautions = cautions(Moment::storing);
    return result;
}

bool has_hold(const contract::Lot& lot, HoldKind kind) {
    return std::ranges::find(lot.holds, kind, &contract::Hold::kind) != lot.holds.end();
}

/// Logs a decision about the run's jars and carries it out on each lot that `add` adds a step for.
template <class Add>
RunDecision decide(const Context& context, const Call& call, std::int64_t number, LineKind kind,
                   const std::string& reason, const Error& none, Add add) {
    const auto done = call.once<LedgerBatch>([&] {
        const RunRecord run = load_run(call, number);
        LogLine line = note_line(run, kind, reason, logging(context, call));
        line.lots.emplace();
        Batch steps;
        for (const auto& lot : jars_of(call, number))
            if (add(steps, lot))
                line.lots->push_back(lot.code);
        if (line.lots->empty())
            throw none;
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line));
        for (auto& step : std::move(steps).steps().steps)
            batch.add(std::move(step));
        return std::move(batch).steps();
    });
    const auto change = Batch::result<contract::RecordAppend>(done, 0);
    RunDecision result;
    result.run = summary_of(run_after(call, change), change.changed, context.run_rules);
    result.run.cautions.clear(); // the answer itself carries them
    for (std::size_t i = 1; i < done.results.size(); ++i)
        result.lots.push_back(Batch::result<contract::LotHold>(done, i));
    result.cautions = cautions(Moment::sealing);
    return result;
}

RunDecision hold_run(const Context& context, const Call& call, const RunHold::Params& params) {
    const Error none{ErrorKind::conflict, "nothing_to_hold",
                     "Run " + std::to_string(params.run) + " has no jars to hold.",
                     "See what became of them: barm run show " + std::to_string(params.run),
                     "/run"};
    return decide(context, call, params.run, LineKind::held, params.reason, none,
                  [&](Batch& steps, const contract::Lot& lot) {
                      contract::LotHold::Params hold;
                      hold.lot = lot.code;
                      hold.note = params.reason;
                      hold.about = about_run(params.run);
                      steps.add<contract::LotHold>(hold);
                      return true;
                  });
}

RunDecision release_run(const Context& context, const Call& call,
                        const RunRelease::Params& params) {
    if (contract::end_of(params.kind) != contract::HoldEnd::by_brewer)
        throw Error(
            ErrorKind::conflict, "never_released",
            "A hold of the kind " + std::string(to_string(params.kind)) +
                " cannot be released: " + std::string(contract::meaning_of(params.kind)) + ".",
            "Jars of a known deviation or a failed seal never go on the shelf. See the holds: barm "
            "storage show",
            "/kind");
    const Error none{ErrorKind::conflict, "not_on_hold",
                     "Run " + std::to_string(params.run) + " has no jars with a hold of the kind " +
                         std::string(to_string(params.kind)) + ".",
                     "See the holds: barm storage show", "/kind"};
    return decide(context, call, params.run, LineKind::released, params.reason, none,
                  [&](Batch& steps, const contract::Lot& lot) {
                      if (!has_hold(lot, params.kind))
                          return false;
                      steps.add<contract::LotRelease>({lot.code, params.reason, params.kind});
                      return true;
                  });
}

} // namespace

void declare_jars(Declaration& plugin) {
    plugin.method<RunMeasure>(&measure_jars);
    plugin.method<RunHold>(&hold_run);
    plugin.method<RunRelease>(&release_run);
}

} // namespace barmkeep::canning
