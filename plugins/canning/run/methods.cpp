// The run under way: its steps, readings and strikes, and looking at it.
#include "plugins/canning/canning.hpp"
#include "plugins/canning/run/events.hpp"
#include "plugins/canning/run/seal.hpp"
#include "plugins/canning/run/start.hpp"
#include "plugins/canning/run/view.hpp"
#include "sdk/contract/cellar.hpp"
#include "sdk/method/zone.hpp"

namespace barmkeep::canning {
namespace {

using contract::LedgerBatch;

/// The state of the run right after the change that a batch began with.
RunSummary summary_after(const Context& context, const Call& call,
                         const LedgerBatch::Result& done) {
    const auto change = Batch::result<contract::RecordAppend>(done, 0);
    return summary_of(run_after(call, change), change.changed, context.run_rules);
}

/// Appends the line that `make` makes of the run, with its event and what `add` adds.
template <class Make, class Add>
RunSummary logged(const Context& context, const Call& call, std::int64_t number, Make make,
                  Add add) {
    return summary_after(context, call, call.once<LedgerBatch>([&] {
        const RunRecord run = load_run(call, number);
        const LogLine line = make(run);
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line));
        add_change_event(batch, run, line, context.run_rules);
        add(batch, line);
        return std::move(batch).steps();
    }));
}

void add_nothing(Batch&, const LogLine&) {}

RunSummary log_step(const Context& context, const Call& call, const RunLog::Params& params) {
    const auto add_seal_reminder = [&](Batch& batch, const LogLine& line) {
        if (params.step != Step::opened)
            return;
        // The day on which it was opened, which may be before that of its logging.
        const Date day = local_day(line.at, call.call<contract::CellarShow>({}).time_zone);
        batch.add<contract::ReminderPost>(reminder(
            params.run, cause_seals, "Test the seals of canning run " + std::to_string(params.run),
            "Let the jars stand for 12 to 24 hours. Put a jar that failed into the refrigerator "
            "within 24 hours of heat off; later, throw it out. [S19 S20 S75]",
            plus_days(day, 1)));
    };
    return logged(
        context, call, params.run,
        [&](const RunRecord& run) {
            return step_line(run, context.run_rules, params.step, params.note,
                             logging(context, call, params.at));
        },
        add_seal_reminder);
}

RunSummary log_reading(const Context& context, const Call& call, const RunGauge::Params& params) {
    return logged(
        context, call, params.run,
        [&](const RunRecord& run) {
            return reading_line(run, context.run_rules,
                                pressure_read(run.begun, params.shows, params.rocking),
                                logging(context, call, params.at));
        },
        add_nothing);
}

RunSummary strike(const Context& context, const Call& call, const RunStrike::Params& params) {
    return logged(
        context, call, params.run,
        [&](const RunRecord& run) {
            return strike_line(run, context.run_rules, params.line, params.reason,
                               logging(context, call));
        },
        add_nothing);
}

RunShow::Result show_run(const Context& context, const Call& call, const RunNumber& params) {
    const RunRecord run = load_run(call, params.run);
    RunShow::Result result;
    static_cast<RunDetails&>(result) = details_of(run, context.host.now(), context.run_rules);
    for (const LogLine& line : run.log) {
        const std::int64_t number = std::ssize(result.log) + 1;
        LogLineShown one;
        static_cast<LogLine&>(one) = line;
        one.number = number;
        one.struck = is_struck(run, number);
        result.log.push_back(std::move(one));
    }
    return result;
}

RunSummary show_status(const Context& context, const Call& call, const RunNumber& params) {
    return summary_of(load_run(call, params.run), context.host.now(), context.run_rules);
}

RunList::Result list_runs(const Context& context, const Call& call, const RunList::Params& params) {
    contract::RecordList::Params wanted;
    wanted.collection = run_collection;
    wanted.order = contract::RecordOrder::newest;
    wanted.limit = params.limit;
    wanted.cursor = params.cursor;
    if (!params.all)
        wanted.states = {std::string(state_open)};
    auto page = call.call<contract::RecordList>(wanted);
    RunList::Result result;
    for (const auto& record : page.records) {
        const RunRecord run = load_run(call, record.number);
        const RunSummary now = summary_of(run, context.host.now(), context.run_rules);
        result.runs.push_back({run.number, now.phase, run.begun.started,
                               run.begun.process.process.jar, run.begun.jars, now.countdown,
                               now.alarm});
    }
    result.next = std::move(page.next);
    result.cautions = cautions(Moment::running);
    return result;
}

RunSummary abandon_run(const Context& context, const Call& call, const RunAbandon::Params& params) {
    return summary_after(context, call, call.once<LedgerBatch>([&] {
        const RunRecord run = load_run(call, params.run);
        require_open(run, context.run_rules);
        const LogLine line =
            note_line(run, LineKind::abandoned, params.reason, logging(context, call));
        Batch batch;
        batch.add<contract::RecordAppend>(append(run, line, state_abandoned));
        batch.add<contract::ReminderClear>(clear_reminders(params.run));
        if (params.thrown_out)
            for (const auto& use : thrown_out(run))
                batch.add<contract::StockUse>(use);
        add_change_event(batch, run, line, context.run_rules);
        return std::move(batch).steps();
    }));
}

} // namespace

void declare_run(Declaration& plugin) {
    plugin.method<RunStart>(&start_run);
    plugin.method<RunLog>(&log_step);
    plugin.method<RunGauge>(&log_reading);
    plugin.method<RunStrike>(&strike);
    plugin.method<RunShow>(&show_run);
    plugin.method<RunStatus>(&show_status);
    plugin.method<RunList>(&list_runs);
    plugin.method<RunAbandon>(&abandon_run);
}

} // namespace barmkeep::canning
