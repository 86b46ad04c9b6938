// The seal test, and undoing it.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/run/events.hpp"
#include "plugins/canning/run/seal.hpp"
#include "plugins/canning/run/view.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/contract/reminder.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using contract::LedgerBatch;

void add_reminders(Batch& batch, const Context& context, const Run& run, const SealOutcome& made,
                   Date today) {
    const std::string number = std::to_string(run.number);
    batch.add<contract::ReminderClear>(clear_reminders(run.number, cause_seals));
    const auto has_shelved = [&](JarKind kind) {
        return std::ranges::find(made.test.lots, kind) != made.test.lots.end();
    };
    if (has_shelved(JarKind::sealed) || has_shelved(JarKind::lost_liquid)) {
        auto look =
            reminder(run.number, cause_inspection, "Look at the jars of canning run " + number,
                     "Check that lids are hollow and tight, with no leak, streaks, bubbles or odd "
                     "colour. Then log it: barm storage inspect.",
                     plus_days(today, static_cast<int>(context.settings.inspection_days)));
        look.every_days = context.settings.inspection_days;
        batch.add<contract::ReminderPost>(look);
    }
    if (made.test.cold_until)
        batch.add<contract::ReminderPost>(
            reminder(run.number, cause_refrigerator,
                     "Use or throw out the chilled jars of canning run " + number,
                     "They never go on the shelf. Boil them before use.", *made.test.cold_until));
}

RunSealTest::Result seal_test(const Context& context, const Call& call,
                              const RunSealTest::Params& params) {
    const auto done = call.once<LedgerBatch>([&] {
        const RunRecord run = load_run(call, params.run);
        const auto glance = call.call<contract::CellarGlance>({});
        const SealOutcome made = seal_outcome(
            run, state_of(run, context.run_rules), params,
            {call.arrived(), glance.today, glance.cellar.time_zone}, context.jar_rules);
        LogLine line = note_line(run, LineKind::seal_test, params.reason, logging(context, call));
        line.seal_test = made.test;
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line, state_shelved));
        if (made.conversion) // always the second step, for the answer below
            batch.add<contract::StockConvert>(*made.conversion);
        for (const auto& use : made.thrown_out)
            batch.add<contract::StockUse>(use);
        add_reminders(batch, context, run, made, glance.today);
        add_change_event(batch, run, line, context.run_rules);
        return std::move(batch).steps();
    });

    const auto change = Batch::result<contract::RecordAppend>(done, 0);
    const RunRecord run = run_after(call, change);
    const RunState state = state_of(run, context.run_rules);
    RunSealTest::Result result;
    result.run = summary_of(run, change.changed, context.run_rules);
    result.run.cautions.clear(); // the answer itself carries them
    for (const Warning& warning : state.warnings)
        if (warning.holds)
            result.because.push_back(warning);
    result.what_now = what_now_of(*state.seal_test, state);
    if (!state.seal_test->lots.empty()) {
        auto converted = Batch::result<contract::StockConvert>(done, 1);
        result.entry = converted.entry;
        result.lots = std::move(converted.lots);
        result.swept = std::move(converted.swept);
        result.value = converted.value;
        result.lost_value = lost_value(converted.value, *state.seal_test);
    }
    result.cautions = cautions(Moment::sealing);
    return result;
}

/// The lots of jars that an entry made, in its order.
std::vector<LotCode> made_by(const contract::Entry& entry, const RunDocument& run) {
    std::vector<LotCode> lots;
    for (const auto& line : entry.lines)
        if (line.good == run.good && line.quantity.steps > 0)
            lots.push_back(line.lot);
    return lots;
}

/// Throws Error(conflict, "jars_gone") unless every jar of the entry is still there and
/// not reserved.
void require_untouched(const plugin::Requester& core, const contract::Entry& entry,
                       const RunDocument& run) {
    for (const auto& line : entry.lines) {
        if (line.good != run.good || line.quantity.steps <= 0)
            continue;
        const auto lot = core.call<contract::LotShow>({line.lot});
        const bool is_whole = lot.on_hand.steps == line.quantity.steps;
        if (is_whole && lot.reserved.steps == 0)
            continue;
        throw Error(
            ErrorKind::conflict, "jars_gone",
            is_whole ? "Jars of lot " + to_text(lot.code) + " are reserved for a brew day."
                     : "Of lot " + to_text(lot.code) + " there are " + to_text(lot.on_hand) +
                           " jars left of " + to_text(line.quantity) +
                           ": some were used, thrown out or split.",
            is_whole ? "Unreserve them first: barm brew unreserve."
                     : "Undo the entry that took them: barm entry undo. Or correct the lot: "
                       "barm stock recount " +
                           to_text(lot.code),
            "/run");
    }
}

RunSummary undo_seal_test(const Context& context, const Call& call,
                          const RunUndoSealTest::Params& params) {
    const auto done = call.once<LedgerBatch>([&] {
        const RunRecord run = load_run(call, params.run);
        const RunState state = state_of(run, context.run_rules);
        if (state.phase != Phase::shelved)
            throw Error(ErrorKind::conflict, "not_counted",
                        "The seals of run " + std::to_string(params.run) + " were not counted.",
                        "Nothing was changed.", "/run");
        LogLine line =
            note_line(run, LineKind::seal_test_undone, params.reason, logging(context, call));
        const auto entries = entries_of(call, params.run);
        for (const auto& entry : entries) {
            require_untouched(call, entry, run.begun);
            if (entry.kind == contract::EntryKind::converted)
                line.lots = made_by(entry, run.begun);
        }
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line, state_open));
        for (const auto& entry : entries)
            batch.add<contract::EntryUndo>({entry.number, entry.kind, params.reason});
        batch.add<contract::ReminderClear>(clear_reminders(params.run));
        batch.add<contract::ReminderPost>(reminder(
            params.run, cause_seals, "Test the seals of canning run " + std::to_string(params.run),
            "The count was undone. Count again: barm run seal-test " + std::to_string(params.run),
            today(call)));
        add_change_event(batch, run, line, context.run_rules);
        return std::move(batch).steps();
    });
    const auto change = Batch::result<contract::RecordAppend>(done, 0);
    return summary_of(run_after(call, change), change.changed, context.run_rules);
}

} // namespace

void declare_seal(Declaration& plugin) {
    plugin.method<RunSealTest>(&seal_test);
    plugin.method<RunUndoSealTest>(&undo_seal_test);
}

} // namespace barmkeep::canning
